"""Any sheet filled in by keys is in the book what the sheet's own reader says of it."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.coaching.paper.filled_sheet import SheetLines, SheetTask
from courtlog.courtside.desk.keymap import PADS
from courtlog.courtside.screens.paper.typing_session import TypingSession
from courtlog.errors import CourtlogError
from courtlog.library.sheet_in import read_sheet
from courtlog.library.sheet_out import write_sheet
from courtlog.logbook.reads import day_lookups
from tests.court import DAY, LIBRARY, close_look, desk_in

CUES = ("turn", "spacing", "finish")
grades = st.sampled_from([*Grade, None])
balls = st.lists(
    st.none() | st.builds(Ball, st.tuples(grades, grades, grades), st.booleans()), max_size=24
)
words = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), max_size=20)


def keys_of(ball: Ball | None, pad: str, by_digits: bool) -> list[str]:
    """What is typed for a row of the paper; nothing stands in a row left out."""
    if ball is None:
        return ["down"]
    keys = ["t"] * ball.tough
    seen = [(row, grade) for row, grade in enumerate(ball.grades) if grade is not None]
    if by_digits:
        keys += ["-" if grade is None else str(int(grade)) for grade in ball.grades]
        return keys
    keys += [PADS[pad].key_of(row, grade) for row, grade in seen] or ["-"]
    return keys if ball.complete else [*keys, "enter"]


@settings(deadline=None, max_examples=25)
@given(
    balls=balls,
    pad=st.sampled_from(sorted(PADS)),
    by_digits=st.booleans(),
    purpose=st.sampled_from(Purpose),
    pain=st.sampled_from(["", "0", "3"]),
    effort=st.sampled_from(["", "6", "10"]),
    note=words,
)
def test_what_is_typed_is_what_the_sheet_says(
    balls: list[Ball | None],
    pad: str,
    by_digits: bool,
    purpose: Purpose,
    pain: str,
    effort: str,
    note: str,
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        desk = desk_in(Path(folder))
        session = TypingSession(desk.book, lambda: LIBRARY, close_look(pad=pad), desk.clock)
        code = str(SheetCode.of(SheetKind.COURT, DAY, "Harbour Week", "Tove"))
        (place,) = session.places(code.lower().replace("-", " "))
        assert not session.open(place)
        task = SheetTask(drill="forehand/racquet-feed", purpose=purpose, cues=CUES, balls=20)
        session.begin(task, SheetLines(court="2", who="Ines"))
        if by_digits:
            session.switch_keys()
        for ball in balls:
            for key in keys_of(ball, pad, by_digits):
                assert session.press(key)
        session.write_lines(
            SheetLines(court="2", who="Ines", pain=pain, effort=effort, note=note.strip())
        )
        if not (pain or effort or note.strip() or any(balls)):
            with pytest.raises(CourtlogError, match="Nothing was typed"):
                session.keep()
            desk.book.close()
            return
        session.keep()
        clinic = desk.view.clinic
        text = write_sheet(day_lookups.record(desk.book, clinic, DAY))
        (day,) = read_sheet(text, "sheet", LIBRARY, clinic.zone).days
        (round_,) = [round_ for round_ in day.rounds if round_.player == "Tove"]
        assert [record.ball for record in round_.balls] == [ball for ball in balls if ball]
        assert (round_.purpose, round_.cues) == (purpose, CUES)
        assert round_.notes == ((note.strip(),) if note.strip() else ())
        asked = [(one.pain, one.effort) for one in round_.check_ins]
        numbers = tuple(int(text) if text else None for text in (pain, effort))
        assert asked == ([numbers] if pain or effort else [])
        desk.book.close()
