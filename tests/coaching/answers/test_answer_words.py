"""The sentences of a player's answer: what goes together, trends over days, and the curve."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courtlog.coaching.answers import answer_words
from courtlog.coaching.answers.cue_curve import Curve
from courtlog.coaching.answers.player_answer import DaysTrend
from courtlog.coaching.game.counts import Counts
from courtlog.measures.common.enough import Level, Verdict, Words
from courtlog.measures.shares.association import KeyCue, Keystone
from courtlog.measures.shares.trend import Trend

R, W, N = Level.REFUSE, Level.WEAK, Level.NORMAL
NAMES = {"turn": "the turn", "spacing": "the spacing", "finish": "the finish"}
TOO_FEW = "Which cue goes with the others: too few balls to tell."


def key(cue: str, score: float, low: float | None, high: float | None, level: Level) -> KeyCue:
    """A cue's score with its range."""
    return KeyCue(cue, score, low, high, 0.5, level)


SPACING = key("spacing", 0.1, 0.05, 0.2, N)


def together(*ranked: KeyCue, tied: tuple[str, ...] = ()) -> str:
    """The words when the first cue is the one to try."""
    return answer_words.keystone_words(Keystone(ranked, ranked[0].cue, tied), NAMES)


def test_nothing_is_said_of_cues_that_were_not_looked_at() -> None:
    assert answer_words.keystone_words(None, NAMES) == ""
    assert answer_words.keystone_words(Keystone((), None), NAMES) == ""


def test_one_cue_with_too_few_balls_is_enough_to_say_nothing() -> None:
    assert answer_words.keystone_words(Keystone((SPACING,), None), NAMES) == TOO_FEW
    assert together(key("turn", 0.2, 0.1, 0.3, N), replace(SPACING, level=R)) == TOO_FEW


@pytest.mark.parametrize(
    ("score", "low", "high", "level", "words"),
    [
        (0.2, None, None, W, "From few balls: on {} 20 points more often: could be either."),
        (0.2, None, None, N, "On {} 20 points more often: could be either."),
        (0.2, -0.02, 0.4, N, "On {} 20 points more often (-2 to 40): could be either."),
        (0.2, 0.0, 0.4, N, "On {} 20 points more often (0 to 40): could be either."),
        (-0.2, -0.4, -0.1, N, "On {} 20 points less often (-40 to -10): could be either."),
        (0.0, -0.1, 0.1, N, "On {} 0 points more often (-10 to 10): could be either."),
        (
            *(0.2, 0.1, 0.3, N),
            "On {} 20 points more often (10 to 30). They go together. That does not show that"
            " fixing the turn fixes the others: try it for one basket and watch.",
        ),
    ],
)
def test_the_cue_that_the_others_go_with(
    score: float, low: float | None, high: float | None, level: Level, words: str
) -> None:
    alike = "balls of the same kind, when the turn was made the other cues were made"
    assert together(key("turn", score, low, high, level), SPACING) == words.format(alike)


def test_cues_that_come_as_close_are_named() -> None:
    words = together(key("turn", 0.2, 0.1, 0.3, N), SPACING, tied=("turn", "spacing", "finish"))
    assert words.endswith(
        " and watch. (the spacing, the finish came as close; the turn is earlier in the stroke.)"
    )


@pytest.mark.parametrize(
    ("days", "slope", "verdict", "words"),
    [
        ("", None, Verdict(Words.TOO_FEW), "uncoached rounds: none yet."),
        (
            *("20", None, Verdict(Words.TOO_FEW)),
            "uncoached rounds on 1 day, 20 balls seen: too few balls to tell.",
        ),
        (
            *("20 20 21", 0.12, Verdict(Words.TOO_FEW)),
            "uncoached rounds on 3 days, 61 balls seen: too few balls to tell.",
        ),
        (
            *("20 20 21", 0.12, Verdict(Words.WORTH_A_LOOK, 1)),
            "uncoached rounds on 3 days, 61 balls seen: worth a look: up, +12 points a day on like"
            " balls.",
        ),
    ],
)
def test_a_trend_over_days(days: str, slope: float | None, verdict: Verdict, words: str) -> None:
    counts = tuple((day, Counts(0, 0, int(seen))) for day, seen in enumerate(days.split(), 1))
    trend = None if slope is None else Trend(slope, 2, 0.01, 0.01)
    balls = sum(each.seen for _, each in counts)
    assert answer_words.trend_words(DaysTrend(counts, balls, trend, verdict)) == words


CURVE = Curve(
    low=(0.2, 0.31),
    median=(0.3, 0.52),
    high=(0.4, 0.68),
    mornings=(),
    seen=40,
)
NOW = "skill curve over all drills, coached balls too: at ball 2 about 52% (31 to 68)"


def test_the_curve_says_where_the_player_stands_and_claims_no_change() -> None:
    assert answer_words.curve_words(None).endswith(
        "too few balls to tell (20 seen balls are needed)."
    )
    assert answer_words.curve_words(CURVE) == f"{NOW}."
