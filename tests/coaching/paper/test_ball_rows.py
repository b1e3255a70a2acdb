"""Rows typed in by any keys: no row is lost, and what was typed is what the sheet says."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball
from courtlog.coaching.on_court.feeding import CleanBall, Fault, Rate, TakeBall, ToughOpen
from courtlog.coaching.paper.ball_rows import (
    MOST_ROWS,
    BallRows,
    MarkNext,
    Move,
    PutRowIn,
    RowKey,
    TakeBack,
    TakeRowOut,
    ToEnd,
    press,
)

KEYS: dict[str, RowKey] = {
    "2": MarkNext(Grade.MADE),
    "1": MarkNext(Grade.NEAR),
    "0": MarkNext(Grade.MISSED),
    "-": MarkNext(None),
    " ": CleanBall(),
    "F": Fault(0),
    "a": Rate(0, Grade.MADE),
    "b": Rate(1, Grade.NEAR),
    "c": Rate(2, Grade.MISSED),
    "!": ToughOpen(),
    "E": TakeBall(),
    "^": Move(rows=-1),
    "v": Move(rows=1),
    "$": ToEnd(),
    "<": Move(boxes=-1),
    ">": Move(boxes=1),
    "+": PutRowIn(),
    "x": TakeRowOut(),
    "B": TakeBack(),
}
"""A letter for each key, so that a test reads like what was typed."""

grades = st.sampled_from([*Grade, None])


def typed(keys: str, cues: int = 3, rows: int = 4) -> BallRows:
    sheet = BallRows.empty(cues, rows)
    for key in keys:
        sheet = press(sheet, KEYS[key])
    return sheet


def written(keys: str, cues: int = 3, rows: int = 4) -> str:
    """The rows up to the last ball (_ for one left out), then the number of the row in hand."""
    sheet = typed(keys, cues, rows)
    return " ".join(token or "_" for token in sheet.tokens) + f" @{sheet.row + 1}"


@pytest.mark.parametrize(
    ("keys", "rows"),
    [
        ("221", "221 @2"),  # a full row goes on by itself
        ("cab", "210 @2"),  # the pad's keys find their boxes in any order
        ("2-1", "2-1 @2"),  # a dash is written too, and the last box ends the row
        ("2E", "2-- @2"),  # Enter: the rest was not seen
        ("-E", ". @2"),  # one dash: nothing was seen of the ball
        ("E221", "_ 221 @3"),  # Enter on an empty row leaves it out
        (" ", "222 @2"),
        ("b ", "212 @2"),
        ("F", "0-- @2"),
        ("!212", "212! @2"),
        ("!!", " @1"),
        ("221^0", "021 @1"),  # mended in place: a row that was done stays in hand
        ("221^>0", "201 @1"),
        ("221^0E", "021 @2"),
        ("221012^^+", "_ 221 012 @1"),  # a row that was passed over
        ("221221012^^x", "221 012 @2"),  # a row that was typed twice
        ("221B", "22-? @1"),
        ("221BBB", " @1"),
        ("2212BB", "22-? @1"),
        ("221E E2", "221 _ 222 _ 2--? @5"),  # more rows than the sheet has
        ("B^", " @1"),
        ("221012^^1$2", "121 012 2--? @3"),  # gone on behind the last ball, not behind the paper
        ("vv$", " @1"),
    ],
)
def test_keys_and_what_they_write(keys: str, rows: str) -> None:
    assert written(keys) == rows


def test_a_box_that_the_sheet_does_not_have_is_refused() -> None:
    with pytest.raises(ValueError, match="this sheet has 2 cues, not 3"):
        typed("c", cues=2)


def test_a_sheet_has_no_more_rows_than_it_can_have() -> None:
    full = BallRows.of_tokens(1, ["2"] * MOST_ROWS, 20)
    for key in ("2", "+", " ", "!"):
        assert press(full, KEYS[key]) == full


@given(st.text("".join(KEYS), max_size=60), st.integers(3, 4))
def test_any_key_changes_the_row_in_hand_and_no_other(keys: str, cues: int) -> None:
    sheet = BallRows.empty(cues, 3)
    for key in keys:
        after = press(sheet, KEYS[key])
        row = sheet.row
        if key == "+":
            assert [r for r in after.rows if r.is_ball] == [r for r in sheet.rows if r.is_ball]
        elif key == "x":
            assert after.rows[: len(sheet.rows) - 1] == sheet.rows[:row] + sheet.rows[
                row + 1 :
            ] or (after == sheet)
        elif key != "B":
            assert after.rows[:row] == sheet.rows[:row]
            assert after.rows[row + 1 :] == sheet.rows[row + 1 :]
        if key != "B" and after != sheet:
            assert press(after, TakeBack()) == sheet
        assert 0 <= after.row <= len(after.rows) <= MOST_ROWS
        assert 0 <= after.box < cues
        sheet = after


@given(
    st.integers(1, 4).flatmap(
        lambda cues: st.tuples(
            st.just(cues),
            st.lists(
                st.none() | st.builds(Ball, st.tuples(*[grades] * cues), st.booleans()),
                max_size=30,
            ),
        )
    ),
    st.booleans(),
)
def test_typed_rows_are_the_balls_of_the_sheet(
    sheet: tuple[int, list[Ball | None]], by_pad: bool
) -> None:
    cues, balls = sheet
    rows = BallRows.empty(cues, 30)
    for ball in balls:
        before, keys = rows, 0
        for key in _keys_of(ball, cues, by_pad):
            rows, keys = press(rows, key), keys + 1
        assert keys <= cues + 1 + (ball is not None and ball.tough)
        assert rows.row == before.row + 1
    assert rows.balls == tuple(ball for ball in balls if ball is not None)
    assert rows.last == max((n for n, ball in enumerate(balls, 1) if ball is not None), default=0)
    again = BallRows.of_tokens(cues, rows.tokens, 30)
    assert (again.balls, again.tokens) == (rows.balls, rows.tokens)


def _keys_of(ball: Ball | None, cues: int, by_pad: bool) -> list[RowKey]:
    """What is typed for a row of the paper: a key a box that is filled, and Enter."""
    if ball is None:
        return [TakeBall()]
    keys: list[RowKey] = [ToughOpen()] if ball.tough else []
    seen = [(box, grade) for box, grade in enumerate(ball.grades) if grade is not None]
    if not seen:
        return [
            *keys,
            *([] if ball.tough else [MarkNext(None)]),
            *([TakeBall()] * (cues > 1 or ball.tough)),
        ]
    if by_pad:
        keys += [Rate(box, grade) for box, grade in seen]
        return keys if ball.complete else [*keys, TakeBall()]
    keys += [MarkNext(grade) for grade in ball.grades[: seen[-1][0] + 1]]
    return keys if seen[-1][0] == cues - 1 else [*keys, TakeBall()]


@given(st.lists(st.tuples(grades, grades, grades), min_size=120, max_size=120))
def test_120_balls_with_three_cues_take_at_most_480_keys(
    rows: list[tuple[Grade | None, ...]],
) -> None:
    balls = [Ball(row) for row in rows]
    for by_pad in (False, True):
        keys = [key for ball in balls for key in _keys_of(ball, 3, by_pad)]
        sheet = BallRows.empty(3, 120)
        for key in keys:
            sheet = press(sheet, key)
        assert len(keys) <= 480
        assert sheet.balls == tuple(balls)


def test_a_mended_row_can_be_mended_again() -> None:
    sheet = typed("221^")
    for keys, token in (("000", "000"), ("-", "00-"), ("<<1", "10-")):
        for key in keys:
            sheet = press(sheet, KEYS[key])
        assert sheet.tokens == (token,)
    assert replace(sheet, before=None).row == 0
