"""Comparisons: only like with like, and never more said than the balls can bear."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.answers.ball_history import Doubt
from courtlog.coaching.answers.comparison import compare_cue, tough_against_usual
from courtlog.coaching.answers.player_answer import stroke_answer
from courtlog.coaching.voice import figures
from courtlog.measures.common.enough import Words
from tests.measures.steady import steady
from tests.past import one_cue, past

THEN_AND_NOW = ("now", "then")


def test_a_harder_mix_does_not_hide_a_change() -> None:
    """The invented clinic of last day against day one that crude shares say nothing of.

    Made of seen by drill: 18/20 v 10/20, 12/20 v 6/20, 9/20 v 3/20 shared; 4/20 only on the last
    day, 15/20 only on the first. The common difference and its interval were computed with
    statsmodels (StratifiedTable); the interval is Klingenberg's, at the confidence of a look.
    At 95% it is (0.164, 0.481).
    """
    early = [("a", 10, 20), ("b", 6, 20), ("c", 3, 20), ("e", 15, 20)]
    late = [("a", 18, 20), ("b", 12, 20), ("c", 9, 20), ("d", 4, 20)]
    history = past(
        *(f"1 practice @forehand/{d} {one_cue(x, n)}" for d, x, n in early),
        *(f"5 practice @forehand/{d} {one_cue(x, n)}" for d, x, n in late),
        cues=("turn",),
    )
    first, last = history.days
    found = compare_cue(history.on(last), history.on(first), "turn", THEN_AND_NOW)
    assert figures.comparison_words(found) == (
        "39 of 60 now, 19 of 60 then: may be a gain, +33 points on the same mix (13 to 51);"
        " 75% of the balls are of a kind seen both times"
    )
    assert figures.on_the_same_mix(found) == ("On the same mix of balls: 32% made then, 65% now.")


def test_two_kinds_of_ball_are_a_mix_and_one_is_none() -> None:
    both = ["222*20", "@forehand/live 000*20"]
    for kinds, mixed in ((both[:1], False), (both, True)):
        history = past(
            *(f"1 yardstick {balls}" for balls in kinds),
            *(f"2 yardstick {balls}" for balls in kinds),
        )
        first, last = history.days
        found = compare_cue(history.on(last), history.on(first), "turn", THEN_AND_NOW)
        assert ("on the same mix" in figures.comparison_words(found)) is mixed


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
    assert figures.comparison_words(found).endswith(f"){words}")


def test_a_change_that_tough_balls_do_not_share_is_no_matter_of_drills() -> None:
    rounds = "1 practice 2*10 0*10 2!*10 0!*10", "2 practice 2*19 0 2!*7 0!*13"
    history = past(*rounds, cues=("turn",))
    first, last = history.days
    found = compare_cue(history.on(last), history.on(first), "turn", THEN_AND_NOW)
    assert found.unequal_by == "kind of ball"
    assert figures.comparison_words(found).endswith("), not the same in every kind of ball")


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
    (cue,) = stroke_answer(history, history.days, ("turn",), curves=False).cues
    for found in (cue.learning, cue.hold, cue.practice, cue.overnight, cue.tough):
        if found is not None:
            assert figures.verdict_words(found.verdict, found.over_time) in (
                figures.comparison_words(found)
            )
            assert (found.result is None) is (found.verdict.words is Words.NOTHING_ALIKE)


def test_a_cue_in_doubt_bears_no_verdict_by_itself() -> None:
    assert figures.doubt_words(None) == ""
    assert figures.doubt_words(Doubt(0.204, 30)) == (
        " (but on 30 balls rated twice this cue was not seen alike, 0.20: no verdict stands on it)"
    )


def test_balls_of_different_kinds_are_not_compared() -> None:
    history = past("1 yardstick 222*20", "2 practice @forehand/live 000*20")
    first, last = history.days
    found = compare_cue(history.on(last), history.on(first), "turn", THEN_AND_NOW)
    assert figures.comparison_words(found) == figures.NOTHING_ALIKE
    assert figures.on_the_same_mix(found) == ""


def test_when_most_balls_are_of_another_kind_it_is_said() -> None:
    history = past("1 yardstick 222*20", "2 yardstick 222*20", "2 practice @forehand/live 222*60")
    first, last = history.days
    found = compare_cue(history.on(last), history.on(first), "turn", THEN_AND_NOW)
    assert figures.comparison_words(found) == (
        "20 of 20 now, 20 of 20 then: too few balls to tell"
        " (only 40% of the balls are of the same kind both times)"
    )


def test_tough_balls_are_held_against_usual_ones_of_the_same_drill() -> None:
    history = past("1 practice 2*20 0!*20", cues=("turn",))
    assert figures.comparison_words(tough_against_usual(history, "turn")) == (
        "0 of 20 on tough balls, 20 of 20 on usual ones: may be lower, -100 points (-100 to -70)"
    )
