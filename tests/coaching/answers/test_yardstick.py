"""The yardstick again: one comparison chosen beforehand, the main cue first, the rest by Holm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import product

import pytest
from statsmodels.stats.multitest import multipletests
from statsmodels.stats.proportion import confint_proportions_2indep

from courtlog.coaching.answers.ball_history import History
from courtlog.coaching.answers.yardstick import (
    first_yardstick,
    hold_against_first,
    yardstick_again,
)
from courtlog.coaching.voice import figures
from courtlog.measures.common.enough import CONFIDENCE, LOOK_CONFIDENCE, Words
from tests.past import CUES, day, one_cue, past

DAYS = tuple(day(number) for number in range(1, 6))


def yardsticks(late: str, early: str, purpose: str = "yardstick") -> History:
    """One cue in the first yardstick and in a later round, given as `made/seen`."""
    made_late, seen_late = map(int, late.split("/"))
    made_early, seen_early = map(int, early.split("/"))
    return past(
        f"1 yardstick {one_cue(made_early, seen_early)}",
        f"5 {purpose} {one_cue(made_late, seen_late)}",
        cues=("turn",),
    )


def told(late: str, early: str) -> str:
    """The statement on a yardstick played again."""
    return figures.comparison_words(
        yardstick_again(yardsticks(late, early), DAYS[-1], DAYS, "now")["turn"]
    )


@pytest.mark.parametrize(
    ("late", "early", "words"),
    [
        ("3/4", "1/4", "too few balls to tell (under 16 seen; plan 40 next time)"),
        ("40/40", "0/15", "too few balls to tell (under 16 seen; plan 40 next time)"),
        ("15/16", "6/16", "a real gain"),
        ("13/19", "6/19", "a real gain"),
        ("11/19", "6/19", "cannot tell"),
        ("10/19", "9/19", "cannot tell"),
        ("28/40", "14/40", "a real gain"),
        ("14/40", "28/40", "a real drop"),
        ("22/40", "20/40", "cannot tell"),
    ],
)
def test_a_yardstick_is_clear_when_its_interval_leaves_zero(
    late: str, early: str, words: str
) -> None:
    """From 16 seen each time; the interval is Newcombe's method 10, computed with statsmodels."""
    (x1, n1), (x2, n2) = (map(int, side.split("/")) for side in (late, early))
    counts = f"{x1} of {n1} now, {x2} of {n2} on day 1"
    if "too few" not in words:
        low, high = confint_proportions_2indep(x1, n1, x2, n2, method="newcomb")
        change = round(100 * (x1 / n1 - x2 / n2))
        plan = " (plan 40 next time)" if words == "cannot tell" and n1 < 40 else ""
        words += f", {change:+d} points ({round(100 * low)} to {round(100 * high)}){plan}"
    assert told(late, early) == f"{counts}: {words}"


def test_before_the_last_day_nothing_is_clear_and_nobody_is_told_to_plan() -> None:
    history = past("1 yardstick 0*20", "3 yardstick 2*20", "5 yardstick 2*20", cues=("turn",))
    planned = replace(history, planned_days=5)
    words = [yardstick_again(planned, on, DAYS, "now")["turn"] for on in (day(3), day(5))]
    assert [one.verdict.words for one in words] == [Words.WORTH_A_LOOK, Words.CLEARLY_UP]
    even = replace(
        past("1 yardstick 2*10 0*10", "3 yardstick 2*10 0*10", cues=("turn",)), planned_days=5
    )
    assert "plan" not in figures.comparison_words(
        yardstick_again(even, day(3), DAYS, "now")["turn"]
    )


def test_marks_set_in_a_yardstick_do_not_pick_its_balls() -> None:
    """Misses marked tough afterwards made 10 of 20 look like 10 of 10."""
    plain = past("1 yardstick 0*12 2*8", "5 yardstick 2*10 0*10", cues=("turn",))
    marked = past("1 yardstick 0*12 2*7 2!", "5 yardstick 2*10 0!*10", cues=("turn",))
    one, two = (yardstick_again(balls, day(5), DAYS, "now") for balls in (plain, marked))
    assert one == two
    assert one["turn"].late.words() == "10 of 20 now"


def test_the_mornings_hold_counts_with_the_yardstick_of_the_last_day() -> None:
    rounds = ["1 yardstick 2*10 0*10", "5 hold 2*15 0*5", "5 yardstick 2*14 0*6"]
    (found,) = yardstick_again(past(*rounds, cues=("turn",)), day(5), DAYS, "now").values()
    assert found.late.words() == "29 of 40 now, hold included"
    elsewhere = past(rounds[0], "5 hold @forehand/live 2*20", rounds[2], cues=("turn",))
    assert yardstick_again(elsewhere, day(5), DAYS, "now")["turn"].late.words() == "14 of 20 now"
    evening = past(*rounds[::2], "5 practice 2", "5 hold 0*10", cues=("turn",))
    assert yardstick_again(evening, day(5), DAYS, "now")["turn"].late.words() == "14 of 20 now"


def test_a_morning_round_was_not_chosen_beforehand_and_is_worth_a_look_at_most() -> None:
    history = yardsticks("28/40", "14/40", "hold")
    (found,) = hold_against_first(history, day(5), DAYS, "this morning").values()
    assert "may be a gain, +35 points" in figures.comparison_words(found)
    low, _ = confint_proportions_2indep(28, 40, 14, 40, method="newcomb", alpha=1 - LOOK_CONFIDENCE)
    assert found.result is not None
    assert found.result.low == pytest.approx(low)


def of_cues(made: Sequence[int]) -> History:
    """Three cues, 10 of 20 the first time and so many of 20 now; the turn is the main one."""
    rows = [one_cue(count, 20).split() for count in made]
    late = " ".join(map("".join, zip(*rows, strict=True)))
    history = past("1 yardstick 222*10 000*10", f"5 yardstick {late}")
    return replace(history, main="turn")


def test_the_main_cue_is_judged_first_and_the_others_by_holms_rule() -> None:
    """Against statsmodels: p is where Newcombe's interval just leaves zero, Holm's rule its own."""
    p_of = {made: p_value(made) for made in (10, 14, 15, 16, 17, 18, 20)}
    for made in product(p_of, repeat=3):
        found = yardstick_again(of_cues(made), day(5), DAYS, "now")
        main, *others = (p_of[count] for count in made)
        rejected, *_ = multipletests(others, alpha=1 - CONFIDENCE, method="holm")
        expected = [main < 1 - CONFIDENCE, *(bool(main < 1 - CONFIDENCE) & rejected)]
        clear = [found[cue].verdict.words is Words.CLEARLY_UP for cue in CUES]
        assert clear == expected, made


def p_value(made: int) -> float:
    """One less the highest confidence at which the interval of 10 and this many of 20 leaves 0."""
    low, high = 0.0, 1.0
    for _ in range(40):
        alpha = (low + high) / 2
        limits = confint_proportions_2indep(made, 20, 10, 20, method="newcomb", alpha=alpha)
        low, high = (low, alpha) if limits[0] > 0 or limits[1] < 0 else (alpha, high)
    return high


def test_without_a_main_cue_or_where_it_was_hardly_seen_all_are_judged_by_holms_rule() -> None:
    p_of = {made: p_value(made) for made in (10, 15, 16, 17, 20)}
    for made in product(p_of, repeat=3):
        history = replace(of_cues(made), main=None)
        rejected, *_ = multipletests([p_of[count] for count in made], alpha=0.05, method="holm")
        found = yardstick_again(history, day(5), DAYS, "now")
        clear = [found[cue].verdict.words is Words.CLEARLY_UP for cue in CUES]
        assert clear == list(rejected), made
    unseen = replace(past("1 yardstick 000*20", "5 yardstick -22*20"), main="turn")
    found = yardstick_again(unseen, day(5), DAYS, "now")
    assert found["turn"].verdict.words is Words.NOTHING_ALIKE
    assert found["spacing"].verdict.words is Words.CLEARLY_UP


def test_balls_that_go_as_the_one_before_count_as_fewer() -> None:
    """In runs of five, 100 balls; by 13 of 20 against 6 the plain interval leaves zero."""
    streaks = " ".join((["2"] * 5 + ["0"] * 5) * 10)
    rounds = ["1 yardstick 2*6 0*14", "5 yardstick 2*14 0*6"]
    plain = past(*rounds, cues=("turn",)).with_ties()
    tied = past(rounds[0], f"2 practice {streaks}", rounds[1], cues=("turn",)).with_ties()
    assert "turn" not in plain.ties
    words = [
        figures.comparison_words(yardstick_again(h, day(5), DAYS, "now")["turn"])
        for h in (plain, tied)
    ]
    assert "a real gain" in words[0]
    assert "clearly" not in words[1]
    assert "; balls in a row go alike, so 20 count as about " in words[1]


def test_choosing_rounds_are_never_the_yardstick() -> None:
    history = past("1 choosing 000*20", "1 yardstick 222*20", "5 yardstick 222*20")
    assert first_yardstick(history).counts("turn").made == 20
    assert first_yardstick(history).days == history.days[:1]
    assert first_yardstick(past("1 choosing 000*20")).balls == ()
