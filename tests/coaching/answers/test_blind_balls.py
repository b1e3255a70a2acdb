"""Which balls are rated blind, in which order, and that equal grades give equal verdicts."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.proportion import confint_proportions_2indep

from courtlog.coaching.answers.ball_history import BallKind, History, PastBall
from courtlog.coaching.answers.blind_balls import shuffled, with_grades, yardstick_sides
from courtlog.coaching.answers.player_answer import cue_answer
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Purpose
from tests.past import CUES, day, past

DATES = (day(1), day(2), day(5))


def numbered(history: History) -> History:
    """The history with an id for each ball, as in a book."""
    balls = tuple(replace(ball, ball_id=at) for at, ball in enumerate(history.balls, 1))
    return replace(history, balls=balls, planned_days=3)


@st.composite
def histories(draw: st.DrawFn) -> History:
    """A first yardstick, practice, and on day 5 a hold or none and the yardstick again."""
    ball = st.text("012-", min_size=3, max_size=3).filter(lambda token: token != "---")
    many = st.lists(ball, min_size=1, max_size=24).map(" ".join)
    rounds = [f"1 yardstick {draw(many)}", f"1 practice {draw(many)}"]
    if draw(st.booleans()):
        rounds.append(f"2 yardstick {draw(many)}")
    if draw(st.booleans()):
        rounds.append(f"5 hold {draw(many)}")
    rounds.append(f"5 yardstick {draw(many)}")
    main = draw(st.sampled_from([None, *CUES]))
    return replace(numbered(past(*rounds)), main=main).with_ties()


def sides_of(balls: list[tuple[str, bool]], first: int) -> list[PastBall]:
    return [
        PastBall(day(1), 1, Purpose.YARDSTICK, BallKind(drill, 5, "hand", tough), {}, ball_id=at)
        for at, (drill, tough) in enumerate(balls, first)
    ]


kinds = st.lists(st.tuples(st.sampled_from(["a/b", "a/c", "a/d"]), st.booleans()), max_size=30)


@given(kinds, kinds, st.integers(0, 1 << 31))
def test_any_shuffle_has_as_many_of_each_kind_and_day_and_no_ball_twice(
    then: list[tuple[str, bool]], now: list[tuple[str, bool]], seed: int
) -> None:
    early, late = sides_of(then, 1), sides_of(now, 1001)
    order = shuffled(early, late, seed)
    drill = {ball.ball_id: ball.kind.drill for ball in (*early, *late)}
    assert len(order) == len(set(order))
    assert set(order) <= drill.keys()
    shown = [
        Counter(drill[ball] for ball in order if (ball > 1000) is day_) for day_ in (False, True)
    ]
    assert shown[0] == shown[1] == Counter(d for d, _ in then) & Counter(d for d, _ in now)
    assert order == shuffled(early, late, seed)
    assert order == shuffled(early[::-1], late[::-1], seed), "the order of the book says nothing"


def test_the_place_on_the_page_says_nothing_of_the_day() -> None:
    """Over many seeds each place has each day half the time: 4 standard errors around a half."""
    sides = sides_of([("a/b", False)] * 6, 1), sides_of([("a/b", False)] * 6, 1001)
    places = Counter[int]()
    for seed in range(2000):
        places.update(at for at, ball in enumerate(shuffled(*sides, seed)) if ball > 1000)
    assert all(abs(places[at] - 1000) < 4 * (2000 * 0.25) ** 0.5 for at in range(12))


@given(histories())
def test_equal_grades_give_the_coachs_own_comparison(history: History) -> None:
    sides = yardstick_sides(history, DATES, CUES)
    answers = {cue: cue_answer(history, DATES, cue, with_curve=False) for cue in CUES}
    if sides is None:
        assert all(answer.headline is None for answer in answers.values())
        return
    graded = {ball.ball_id: ball.grades for ball in (*sides.then, *sides.now)}
    blind = with_grades(history, graded)
    for cue in sides.cues:
        again = cue_answer(blind, DATES, cue, with_curve=False)
        assert again.headline == answers[cue].headline
        assert (again.then, again.now) == (answers[cue].then, answers[cue].now)


@given(histories(), st.randoms(use_true_random=False))
def test_the_blind_difference_is_that_of_its_own_counts(history: History, random: Random) -> None:
    """The interval is Newcombe's hybrid score interval, by statsmodels 0.14 (`newcomb`)."""
    sides = yardstick_sides(history, DATES, CUES)
    if sides is None:
        return
    grades = {
        ball.ball_id: {cue: random.choice([None, *Grade]) for cue in sides.cues}
        for ball in (*sides.then, *sides.now)
    }
    blind = with_grades(replace(history, ties={}), grades)
    for cue in sides.cues:
        answer = cue_answer(blind, DATES, cue, with_curve=False)
        headline = answer.headline
        if headline is None or headline.result is None:
            continue
        counts = []
        for side in (sides.now, sides.then):
            seen = [grades[b.ball_id][cue] for b in side if grades[b.ball_id][cue] is not None]
            counts += [seen.count(Grade.MADE), len(seen)]
        late, early = headline.late, headline.early
        assert [late.made, late.seen, early.made, early.seen] == counts
        if headline is answer.learning:  # at 95%; a morning's hold is a look at 80%
            ends = confint_proportions_2indep(*counts, method="newcomb", compare="diff")
            assert (headline.result.low, headline.result.high) == pytest.approx(ends)


def test_cues_of_other_days_and_balls_without_a_cue_are_left_out() -> None:
    first = past("1 yardstick 2*3", "5 yardstick 2*3", cues=("turn",))
    both = past("2 yardstick 22*2", "5 yardstick 20*4", cues=("spacing", "finish"))
    history = numbered(replace(first, balls=(*first.balls, *both.balls)))
    sides = yardstick_sides(history, DATES, CUES)
    assert sides is not None
    assert (sides.cues, sides.left_out) == (("spacing", "finish"), ("turn",))
    assert sides.days == (day(2), day(5))
    assert (len(sides.then), len(sides.now)) == (2, 4)


def test_one_yardstick_is_nothing_to_compare() -> None:
    assert (
        yardstick_sides(numbered(past("1 yardstick 222*20", "5 practice 222")), DATES, CUES) is None
    )
