"""Comparisons: only like with like, and never more said than the balls can bear."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.proportion import confint_proportions_2indep

from courtlog.coaching.answers import statements
from courtlog.coaching.answers.ball_history import Doubt
from courtlog.coaching.answers.comparison import (
    against_yardstick,
    compare_cue,
    tough_against_usual,
)
from courtlog.coaching.answers.player_answer import cue_answer
from courtlog.coaching.answers.quick_review import yardstick
from courtlog.coaching.game.rounds import Purpose
from courtlog.measures.common.enough import Words
from tests.measures.steady import steady
from tests.past import one_cue, past

THEN_AND_NOW = ("now", "then")


def told(late: str, early: str, purpose: str = "yardstick") -> str:
    """The statement on one cue of two rounds of one kind."""
    made_late, seen_late = map(int, late.split("/"))
    made_early, seen_early = map(int, early.split("/"))
    history = past(
        f"1 yardstick {one_cue(made_early, seen_early)}",
        f"5 {purpose} {one_cue(made_late, seen_late)}",
        cues=("turn",),
    )
    first, last = history.days
    return statements.comparison_words(
        against_yardstick(
            history.on(last), Purpose(purpose), history.on(first), "turn", THEN_AND_NOW
        )
    )


@pytest.mark.parametrize(
    ("late", "early", "words"),
    [
        ("3/4", "1/4", "too few balls to tell (under 16 seen; plan 40 next time)"),
        ("40/40", "0/15", "too few balls to tell (under 16 seen; plan 40 next time)"),
        ("15/16", "6/16", "clearly up"),
        ("13/19", "6/19", "clearly up"),
        ("11/19", "6/19", "could be either"),
        ("10/19", "9/19", "could be either"),
        ("28/40", "14/40", "clearly up"),
        ("14/40", "28/40", "clearly down"),
        ("22/40", "20/40", "could be either"),
    ],
)
def test_a_yardstick_is_clear_when_its_interval_leaves_zero(
    late: str, early: str, words: str
) -> None:
    """From 16 seen each time; the interval is Newcombe's method 10, computed with statsmodels."""
    (x1, n1), (x2, n2) = (map(int, side.split("/")) for side in (late, early))
    counts = f"{x1} of {n1} now, {x2} of {n2} then"
    if "too few" not in words:
        low, high = confint_proportions_2indep(x1, n1, x2, n2, method="newcomb")
        change = round(100 * (x1 / n1 - x2 / n2))
        words += f", {change:+d} points ({round(100 * low)} to {round(100 * high)})"
    assert told(late, early) == f"{counts}: {words}"


def test_marks_set_in_a_yardstick_do_not_pick_its_balls() -> None:
    """Misses marked tough afterwards made 10 of 20 look like 10 of 10."""
    plain = past("1 yardstick 0*12 2*8", "5 yardstick 2*10 0*10", cues=("turn",))
    marked = past("1 yardstick 0*12 2*7 2!", "5 yardstick 2*10 0!*10", cues=("turn",))
    first, last = plain.days
    one, two = (
        against_yardstick(past_.on(last), Purpose.YARDSTICK, past_.on(first), "turn", THEN_AND_NOW)
        for past_ in (plain, marked)
    )
    assert one == two
    assert one.late.words() == "10 of 20 now"


def test_tough_balls_planned_in_a_hold_are_of_another_kind_than_the_yardsticks() -> None:
    history = past("1 yardstick 2*20", "2 hold 2*16 0!*4", cues=("turn",))
    first, last = history.days
    found = against_yardstick(
        history.on(last), Purpose.HOLD, history.on(first), "turn", THEN_AND_NOW
    )
    assert found.late.words() == "16 of 16 now"


def test_a_morning_round_was_not_chosen_beforehand_and_is_worth_a_look_at_most() -> None:
    assert "worth a look: up, +35 points" in told("28/40", "14/40", "hold")


def test_a_harder_mix_does_not_hide_a_change() -> None:
    """The invented clinic of last day against day one that crude shares say nothing of.

    Made of seen by drill: 18/20 v 10/20, 12/20 v 6/20, 9/20 v 3/20 shared; 4/20 only on the last
    day, 15/20 only on the first. The common difference and its interval were computed with
    statsmodels (StratifiedTable) and by Klingenberg's closed form: 0.3333 (0.164, 0.481).
    """
    early = [("a", 10, 20), ("b", 6, 20), ("c", 3, 20), ("e", 15, 20)]
    late = [("a", 18, 20), ("b", 12, 20), ("c", 9, 20), ("d", 4, 20)]
    history = past(
        *(f"1 practice @forehand/{d} {one_cue(x, n)}" for d, x, n in early),
        *(f"5 practice @forehand/{d} {one_cue(x, n)}" for d, x, n in late),
        cues=("turn",),
    )
    first, last = history.days
    found = compare_cue(history.on(last), history.on(first), "turn", THEN_AND_NOW, True)
    assert statements.comparison_words(found) == (
        "39 of 60 now, 19 of 60 then: clearly up, +33 points on the same mix (16 to 48);"
        " 75% of the balls are of a kind seen both times"
    )
    assert statements.on_the_same_mix(found) == (
        "On the same mix of balls: 32% made then, 65% now."
    )


def test_two_kinds_of_ball_are_a_mix_and_one_is_none() -> None:
    both = ["222*20", "@forehand/live 000*20"]
    for kinds, mixed in ((both[:1], False), (both, True)):
        history = past(
            *(f"1 yardstick {balls}" for balls in kinds),
            *(f"2 yardstick {balls}" for balls in kinds),
        )
        first, last = history.days
        found = compare_cue(history.on(last), history.on(first), "turn", THEN_AND_NOW)
        assert ("on the same mix" in statements.comparison_words(found)) is mixed


@pytest.mark.parametrize(
    ("late", "words"),
    [
        ({"a": "18/20", "b": "9/20"}, ", not the same in every drill"),
        ({"a": "14/20", "b": "13/20"}, ""),
        ({"a": "20/20", "b": "20/20"}, ""),
    ],
)
def test_a_change_that_drills_do_not_share_is_said_to_differ(
    late: dict[str, str], words: str
) -> None:
    """From 10 of 20 each. Tarone's p, computed with statsmodels: .021, .81, and none."""
    lines = ["1 practice @forehand/a 2*10 0*10", "1 practice @forehand/b 2*10 0*10"]
    for drill, counts in late.items():
        made, seen = map(int, counts.split("/"))
        lines.append(f"2 practice @forehand/{drill} {one_cue(made, seen)}")
    history = past(*lines, cues=("turn",))
    first, last = history.days
    found = compare_cue(history.on(last), history.on(first), "turn", THEN_AND_NOW)
    assert statements.comparison_words(found).endswith(f"){words}")


def test_a_change_that_tough_balls_do_not_share_is_no_matter_of_drills() -> None:
    rounds = "1 practice 2*10 0*10 2!*10 0!*10", "2 practice 2*19 0 2!*7 0!*13"
    history = past(*rounds, cues=("turn",))
    first, last = history.days
    found = compare_cue(history.on(last), history.on(first), "turn", THEN_AND_NOW)
    assert found.unequal_by == "kind of ball"
    assert statements.comparison_words(found).endswith("), not the same in every kind of ball")


ROUNDS = st.tuples(
    st.integers(1, 3),
    st.sampled_from(["yardstick", "practice", "hold", "transfer"]),
    st.sampled_from("ab"),
    st.lists(st.sampled_from(["2*9", "0*9", "2*20", "0*20", "2!*5", "0!*5", ".*3"]), min_size=1),
)


@steady
@given(st.lists(ROUNDS, max_size=6))
def test_the_verdict_alone_says_what_its_sentence_says(
    rounds: list[tuple[int, str, str, list[str]]],
) -> None:
    history = past(
        *(f"{on} {why} @forehand/{d} {' '.join(balls)}" for on, why, d, balls in sorted(rounds)),
        cues=("turn",),
    )
    if not rounds:
        return
    cue = cue_answer(history, history.days, "turn", with_curve=False)
    for found in (cue.learning, cue.hold, cue.practice, cue.overnight, cue.tough):
        if found is not None:
            assert found.verdict.words in statements.comparison_words(found)
            assert (found.result is None) is (found.verdict.words is Words.NOTHING_ALIKE)


def test_a_cue_in_doubt_bears_no_verdict_by_itself() -> None:
    assert statements.doubt_words(None) == ""
    assert statements.doubt_words(Doubt(0.204, 30)) == (
        " (but on 30 balls rated twice this cue was not seen alike, 0.20: no verdict stands on it)"
    )


def test_balls_of_different_kinds_are_not_compared() -> None:
    history = past("1 yardstick 222*20", "2 practice @forehand/live 000*20")
    first, last = history.days
    found = compare_cue(history.on(last), history.on(first), "turn", THEN_AND_NOW)
    assert statements.comparison_words(found) == statements.NOTHING_ALIKE
    assert statements.on_the_same_mix(found) == ""


def test_when_most_balls_are_of_another_kind_it_is_said() -> None:
    history = past("1 yardstick 222*20", "2 yardstick 222*20", "2 practice @forehand/live 222*60")
    first, last = history.days
    found = compare_cue(history.on(last), history.on(first), "turn", THEN_AND_NOW)
    assert statements.comparison_words(found) == (
        "20 of 20 now, 20 of 20 then: too few balls to tell"
        " (only 40% of the balls are of the same kind both times)"
    )


def test_choosing_rounds_are_never_the_yardstick() -> None:
    history = past("1 choosing 000*20", "1 yardstick 222*20", "5 yardstick 222*20")
    assert yardstick(history).counts("turn").made == 20
    assert yardstick(history).days == history.days[:1]
    assert yardstick(past("1 choosing 000*20")).balls == ()


def test_tough_balls_are_held_against_usual_ones_of_the_same_drill() -> None:
    history = past("1 practice 2*20 0!*20", cues=("turn",))
    assert statements.comparison_words(tough_against_usual(history, "turn")) == (
        "0 of 20 on tough balls, 20 of 20 on usual ones: worth a look: lower,"
        " -100 points (-100 to -77)"
    )
