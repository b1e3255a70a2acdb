"""A sheet as it is typed in: its round, its draft, and what is looked at before it is kept."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courtlog import times
from courtlog.coaching.game.clinic_record import BallRecord, CheckIn, RoundRecord
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.paper.ball_rows import BallRows, press
from courtlog.coaching.paper.filled_sheet import (
    FilledSheet,
    SheetLines,
    SheetTask,
    draft_of,
    draft_text,
)
from courtlog.coaching.paper.look_through import look_through
from courtlog.courtside.screens.paper.typing_lines import row_lines
from tests.coaching.paper.test_ball_rows import KEYS

DAY, LISBON = date(2026, 5, 12), times.zone("Europe/Lisbon")
TASK = SheetTask(
    drill="forehand/racquet-feed", purpose=Purpose.PRACTICE, cues=("turn", "spacing"), balls=5
)


def sheet(tokens: str, **lines: str) -> FilledSheet:
    """A sheet whose rows are `tokens`; _ is a row left out."""
    rows = [token.strip("_") for token in tokens.split()]
    return FilledSheet(
        code="K7D-3MX-2P4",
        task=TASK,
        rows=BallRows.of_tokens(2, rows, 20),
        lines=SheetLines(**lines),
    )


def test_a_filled_sheet_is_a_round() -> None:
    filled = sheet("22 _ 1-!", began="9:40", pain="2", place="elbow", effort="6", note="late")
    assert filled.round_record("Maren", DAY, LISBON) == RoundRecord(
        player="Maren",
        drill="forehand/racquet-feed",
        purpose=Purpose.PRACTICE,
        cues=("turn", "spacing"),
        balls=(
            BallRecord(Ball((Grade.MADE, Grade.MADE))),
            BallRecord(Ball((Grade.NEAR, None), tough=True)),
        ),
        started=times.as_moment(times.local(0, LISBON).replace(2026, 5, 12, 9, 40)),
        notes=("late",),
        check_ins=(CheckIn(player="Maren", pain=2, place="elbow", effort=6),),
    )


@pytest.mark.parametrize(
    ("key", "text", "wrong"),
    [
        ("pain", "11", "pain"),
        ("pain", "x", "pain"),
        ("effort", "-1", "effort"),
        ("began", "25:00", "began"),
        ("place", "knee", "pain"),
    ],
)
def test_a_line_that_cannot_be_kept_is_told(key: str, text: str, wrong: str) -> None:
    filled = sheet("22", **{key: text})
    assert [line for line, _ in filled.mistakes()] == [wrong]
    with pytest.raises(ValueError, match=r"[.]$"):
        filled.round_record("Maren", DAY, LISBON)


def test_what_is_looked_at_before_it_is_kept() -> None:
    looked = look_through(sheet("2- _ . 1-! 0-"))
    assert (looked.balls, looked.planned) == (4, 5)
    assert looked.left_out == (2,)
    assert looked.nothing_seen == (3,)
    assert looked.without_mark == ("spacing",)
    assert looked.counts == (Counts(1, 1, 1, 1), Counts(unseen=4))


@given(
    st.lists(st.sampled_from(["22", "21", "2-", "0-!", "."]), min_size=2, max_size=30), st.data()
)
def test_a_row_passed_over_or_typed_twice_is_found_by_the_count(
    paper: list[str], data: st.DataObject
) -> None:
    """Whoever counts the rows of the paper finds it, though any single row reads right."""
    row = data.draw(st.integers(0, len(paper) - 1))
    right = look_through(sheet(" ".join(paper))).balls
    passed_over = look_through(sheet(" ".join(paper[:row] + paper[row + 1 :]))).balls
    twice = look_through(sheet(" ".join([*paper[:row], paper[row], *paper[row:]]))).balls
    assert (passed_over, twice) == (right - 1, right + 1)


@settings(deadline=None)  # an odd text loads what judges it
@given(
    st.lists(st.sampled_from(["22", "2-!", ".", ".!", ""]), max_size=25),
    st.builds(SheetLines, note=st.text(max_size=50), pain=st.sampled_from(["", "3", "x"])),
)
def test_a_draft_is_read_as_it_was_written(rows: list[str], lines: SheetLines) -> None:
    filled = replace(sheet(""), rows=BallRows.of_tokens(2, rows, 20), lines=lines)
    again = draft_of(draft_text(filled))
    assert (again.task, again.lines) == (filled.task, filled.lines)
    assert again.rows.tokens == filled.rows.tokens
    assert again.rows.balls == filled.rows.balls


@settings(deadline=None)
@given(st.text() | st.binary())
def test_anything_else_is_no_draft(text: str | bytes) -> None:
    with pytest.raises(ValueError):  # noqa: PT011 - whatever is wrong with it
        draft_of(text)


@pytest.mark.parametrize(
    "spoilt",
    [
        ('"22"', '"222"'),
        ('"22"', '"9"'),
        ('"practice"', '"play"'),
        ('"cues":["turn","spacing"]', '"cues":[]'),
        ('"court":""', '"nobody":"x"'),
        ('"of":20', '"of":100000'),
    ],
)
def test_a_spoilt_draft_is_told(spoilt: tuple[str, str]) -> None:
    text = draft_text(sheet("22"))
    assert spoilt[0] in text
    with pytest.raises(ValueError):  # noqa: PT011
        draft_of(text.replace(*spoilt))


@given(st.text("210-!E B^v<>+xcba", max_size=60), st.integers(3, 4))
def test_a_draft_of_any_moment_is_the_sheet_as_it_was_seen(keys: str, cues: int) -> None:
    rows = BallRows.empty(cues, 5)
    task = replace(TASK, cues=("turn", "spacing", "finish", "recovery")[:cues])
    for key in keys:
        rows = press(rows, KEYS[key])
        again = draft_of(draft_text(FilledSheet(code="K7D-3MX-2P4", task=task, rows=rows))).rows
        assert (again.tokens, again.row, again.box) == (rows.tokens, rows.row, rows.box)
        names = task.cues
        assert row_lines(again, names, 80, 15) == row_lines(rows, names, 80, 15)
