"""Which two balls are shown side by side: the rule, and by brute force that it takes no side."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from statistics import median_low

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.answers.pair_choice import Candidate, FedKind, choose_pair
from courtlog.coaching.game.grades import Grade

DEEP = FedKind(5, "forehand/racquet-feed", 0, "deep right", False)
SHORT = DEEP._replace(spot=1, spot_words="short left")
TOUGH = DEEP._replace(tough=True)
LIVE = FedKind(6, "forehand/live", 0, "rally", False)


def balls(digits: str, kind: FedKind = DEEP, first: int = 1) -> list[Candidate]:
    """`2-10`: a digit a ball in time, each followed by `?` where it is not on film."""
    made: list[Candidate] = []
    for digit in digits.replace("?", ""):
        made.append(Candidate(first + len(made), kind, Grade(int(digit)), True))
    place = -1
    for sign in digits:
        place += sign != "?"
        if sign == "?":
            one = made[place]
            made[place] = Candidate(one.ball_id, one.kind, one.grade, False)
    return made


def chosen(then: Sequence[Candidate], now: Sequence[Candidate], **ids: int) -> object:
    """The two balls by number; a `*` where it is not the middle one."""
    pair = choose_pair(then, now, **ids)
    if pair is None:
        return None
    return [f"{side.ball.ball_id}{'*' * (not side.is_middle)}" for side in (pair.then, pair.now)]


@pytest.mark.parametrize(
    ("then", "middle"),
    [
        ("2", "1"),
        ("20", "2"),  # of two the lower
        ("210", "2"),
        ("222", "2"),  # of one grade by time
        ("2222", "2"),
        ("0012", "2"),
        ("2100", "4"),
        ("22200", "1"),  # 4 5 1 2 3
        ("22?200", "1"),
        ("2?2200", "2*"),  # the first ball is not on film: the next made one
        ("2?2?200", "3*"),
        ("22?2", "1*"),  # both are next to it: the earlier
        ("1?02", None),  # no other near one: no pair
        ("", None),
    ],
)
def test_it_is_the_middle_ball_by_grade_then_by_time(then: str, middle: str | None) -> None:
    told = chosen(balls(then), balls("1", first=90))
    assert told == (None if middle is None else [middle, "90"])


@pytest.mark.parametrize("count", range(1, 8))
def test_it_neither_flatters_nor_darkens(count: int) -> None:
    """Over every day of so many balls: the grade is the day's lower median, by `statistics`.

    Each grade is shown as often as its mirror image would be by the upper one of two.
    """
    shown = []
    for grades in product(Grade, repeat=count):
        day = [Candidate(n, DEEP, grade, True) for n, grade in enumerate(grades)]
        pair = choose_pair(day, day)
        assert pair is not None
        assert pair.then == pair.now
        assert pair.then.ball.grade == median_low(grades)
        shown.append(pair.then.ball.grade)
    if count % 2:
        assert shown.count(Grade.MADE) == shown.count(Grade.MISSED)
    else:
        assert shown.count(Grade.MADE) <= shown.count(Grade.MISSED)


def test_the_kind_is_the_one_with_most_balls_on_both_days() -> None:
    """The day with fewer of a kind counts first, then both days, then the order of drills."""
    then = balls("00000", DEEP) + balls("000", SHORT, 11) + balls("00", LIVE, 21)
    now = balls("11", DEEP, 31) + balls("111", SHORT, 41) + balls("1111", LIVE, 51)
    assert chosen(then, now) == ["11*", "43"]
    then = balls("0", LIVE) + balls("0", SHORT, 11) + balls("0", TOUGH, 21) + balls("0", DEEP, 31)
    assert chosen(then, then) == ["31*", "31*"]
    assert chosen(balls("00", DEEP), balls("00", TOUGH, 11)) is None
    no_film = balls("0?0?0?") + balls("0", SHORT, 11)
    assert chosen(no_film, balls("111", first=31) + balls("1", SHORT, 41)) == ["11*", "41*"]


def test_the_grade_is_that_of_the_day_and_not_of_one_spot() -> None:
    """Most balls went deep, and those alone would show made beside missed."""
    then = balls("0002", DEEP) + balls("1112", SHORT, 11)
    now = balls("2222", DEEP, 31) + balls("0111", SHORT, 41)
    assert chosen(then, now) == ["11", "44"]


def test_by_hand_one_ball_or_both_are_chosen_of_one_kind() -> None:
    then = balls("222") + balls("0", TOUGH, 11)
    now = balls("012", first=31) + balls("21", TOUGH, 41)
    assert chosen(then, now, now_id=33) == ["1", "33*"]
    assert chosen(then, now, then_id=11) == ["11*", "42"]
    assert chosen(then, now, then_id=11, now_id=41) == ["11*", "41*"]
    assert chosen(then, now, then_id=11, now_id=33) is None
    assert chosen(balls("2?"), now, then_id=1) is None
    pair = choose_pair(then, now, now_id=33)
    assert pair is not None
    assert (pair.then.by_hand, pair.now.by_hand, pair.then.of, pair.now.of) == (False, True, 4, 5)


@given(st.lists(st.sampled_from(Grade), min_size=1, max_size=12), st.data())
def test_what_is_on_film_never_changes_the_grade(grades: list[Grade], data: st.DataObject) -> None:
    filmed = data.draw(st.lists(st.booleans(), min_size=len(grades), max_size=len(grades)))
    day = [Candidate(n, DEEP, g, f) for n, (g, f) in enumerate(zip(grades, filmed, strict=True))]
    pair = choose_pair(day, day)
    if pair is None:
        assert not any(b.on_film for b in day if b.grade == median_low(grades))
    else:
        assert pair.then.ball.on_film
        assert pair.then.ball.grade == median_low(grades)
