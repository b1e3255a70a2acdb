"""The sentences of a player's answer: what goes together, trends over days, and the curve."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courtlog.coaching.answers.cue_curve import Curve
from courtlog.coaching.answers.player_answer import DaysTrend
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.voice import answer_figures
from courtlog.measures.common.enough import Verdict, Words
from courtlog.measures.shares.association import Keystone
from courtlog.measures.shares.trend import Trend

NAMES = {"turn": "the turn", "spacing": "the spacing", "finish": "the finish"}
TOGETHER = Keystone(
    cue="spacing",
    others=("turn", "finish"),
    balls=140,
    one_odd=61,
    odd=9,
    odd_by_ease=18.4,
    p=0.004,
)


def test_the_cue_that_the_others_go_with() -> None:
    assert answer_figures.keystone_words(TOGETHER, NAMES) == (
        "Of the spacing, the turn and the finish, one was unlike the other two on 61 of 140 balls."
        " It was the spacing on 9, where an easy ball or a kind eye for all three gives about 18."
        " So the turn and the finish go with the spacing more than they go with each other."
        " A ball that suits the spacing most, or an eye that judges the others by the spacing, does"
        " this too. It does not show that fixing the spacing fixes the others: try it for one"
        " basket and watch."
    )


@pytest.mark.parametrize(
    "unclear", [None, replace(TOGETHER, p=0.05), replace(TOGETHER, one_odd=29, odd=1)]
)
def test_nothing_is_said_where_it_is_not_clear(unclear: Keystone | None) -> None:
    assert answer_figures.keystone_words(unclear, NAMES) == ""


@pytest.mark.parametrize(
    ("days", "slope", "verdict", "words"),
    [
        ("", None, Verdict(Words.TOO_FEW), "rounds without help: none yet."),
        (
            *("20", None, Verdict(Words.TOO_FEW)),
            "rounds without help on 1 day, 20 balls seen: too few balls to tell.",
        ),
        (
            *("20 20 21", 0.12, Verdict(Words.TOO_FEW)),
            "rounds without help on 3 days, 61 balls seen: too few balls to tell.",
        ),
        (
            *("20 20 21", 0.12, Verdict(Words.WORTH_A_LOOK, 1)),
            "rounds without help on 3 days, 61 balls seen: may be a gain, +12 points a day on"
            " like balls.",
        ),
    ],
)
def test_a_trend_over_days(days: str, slope: float | None, verdict: Verdict, words: str) -> None:
    counts = tuple((day, Counts(0, 0, int(seen))) for day, seen in enumerate(days.split(), 1))
    trend = None if slope is None else Trend(slope, 2, 0.01, 0.01)
    balls = sum(each.seen for _, each in counts)
    assert answer_figures.trend_words(DaysTrend(counts, balls, trend, verdict)) == words


CURVE = Curve(
    low=(0.2, 0.31),
    median=(0.3, 0.52),
    high=(0.4, 0.68),
    mornings=(),
    seen=40,
)
NOW = "skill curve over all drills, coached balls too: at ball 2 about 52% (31 to 68)"


def test_the_curve_says_where_the_player_stands_and_claims_no_change() -> None:
    assert answer_figures.curve_words(None).endswith(
        "too few balls to tell (20 seen balls are needed)."
    )
    assert answer_figures.curve_words(CURVE) == f"{NOW}."
