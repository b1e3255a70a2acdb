"""Paper typed in on a real terminal: bursts, held keys, pastes, other windows, and `kill -9`."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from datetime import date
from pathlib import Path

import pytest

from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.logbook.file import sheet_drafts
from courtlog.logbook.reads import lookups, people_lookups
from tests.terminal import books
from tests.terminal.console import Console, command, environment

pytestmark = pytest.mark.terminal

LONG_AGO = date(2025, 5, 12)
"""A date that every clock has passed."""

PASTE = b"\x1b[200~%b\x1b[201~"
BEGIN = b"\rracquet feed, t\r\r\r"
"""The day is added; the drill, practice, the usual cues."""

MADE, SIZES = b"ol.", ((40, 10), (120, 40), (80, 24))


MESSAGE = 15
"""The line of the last message, from 0."""


def code(kind: SheetKind) -> SheetCode:
    return SheetCode.of(kind, LONG_AGO, "Harbour Week", "Tove")


@contextmanager
def typing(path: Path, kind: SheetKind, held: str = "count") -> Iterator[Console]:
    """The screen that types such a sheet in, once it is there."""
    env = environment(path.parent, COURTLOG_HELD_KEYS=held)
    argv = command("paper", "in", str(code(kind)), "--book", str(path))
    with Console(argv, env, whole_frames=True) as console:
        yield console


def begun(console: Console) -> None:
    """Answer what is asked before the first row."""
    console.wait_for("be added with this sheet?")
    console.press(BEGIN)
    console.wait_for("►  1 [ ]")


def typed_in_row(console: Console, number: int) -> str:
    """What stands in the boxes of the row in hand of that number."""
    rows = [line[6:38] for line in console.lines if line.startswith(f" ►{number:>3}")]
    return "".join(rows).replace("[", "").replace("]", "").replace(" ", "")


def seen(console: Console) -> list[str]:
    """What is on the screen of what was typed, without the line of the last message."""
    return [line for number, line in enumerate(console.lines) if number != MESSAGE]


def test_a_killed_program_goes_on_in_the_middle_of_a_row_in_any_window(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    with typing(path, SheetKind.COURT) as console:
        begun(console)
        console.press(MADE * 25 + b"t" + MADE[:2])  # as one burst
        console.wait_for("26 balls")
        console.wait_for("tough")
        for columns, lines in SIZES:
            console.resize(columns, lines)
            console.wait_for(lambda: typed_in_row(console, 26)[:2] == "22")
        for text in (b"ol.\r\nol.", b"x" * 10_000, b"\x07\x1b]0;t\x07\x00\xff"):
            console.press(PASTE % text)
        console.wait_for("Pasted text is no key of a row")
        console.press(b"k")  # so that the message goes, and the second box is near now
        console.wait_for(lambda: "Pasted" not in console.text)
        before = seen(console)
    with typing(path, SheetKind.COURT) as console:
        console.wait_for("Going on: 26 balls of it were typed before.")
        assert seen(console) == before


def test_a_key_held_down_for_five_seconds_counts_once(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    with typing(path, SheetKind.COURT, held="once") as console:
        begun(console)
        console.press(b"u" * 200 + b"i" + b"\r" * 200)
        console.wait_for(" ►  2")
        console.press(b"l")
        console.wait_for(lambda: typed_in_row(console, 2) == "2")
        draft = sheet_drafts.read_draft(path, code(SheetKind.COURT))
        assert draft is not None
        assert b'"1--","-2-?"' in draft.replace(b" ", b"")
        console.press(b"\x1b" * 200)
        console.wait_for("What next?")


def test_a_form_takes_a_paste_into_one_line_and_survives_the_program(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    with typing(path, SheetKind.FORM) as console:
        console.wait_for("Tove · form")
        console.press(b"\x1b[B" * 3 + PASTE % b"elbow,\r\nleft\x1b[31m \x07side")
        console.wait_for("elbow, left[31m side")
        console.press(b"\x1b[B" + PASTE % (b"y" * 10_000))
        console.wait_for("Not all of what was pasted goes into this line.")
        for columns, lines in SIZES:
            console.resize(columns, lines)
            console.wait_for("y" * 25)
        console.press(b"\x7f" * 200 + b"Ada 0123")
        console.wait_for("Ada 0123")
    with typing(path, SheetKind.FORM) as console:
        console.wait_for("Going on with the form of Tove")
        console.wait_for("elbow, left[31m side")
        console.wait_for("Ada 0123")
        console.press(b"\x1b[6~\r")
        console.wait_for("contact: Ada 0123")
        console.press(b"\r")
        assert console.read_to_end() == 0
    with books.reading(path) as book:
        clinic = lookups.clinics(book)[0].id
        tove = lookups.player_on_roster(book, clinic, "Tove")
        card = people_lookups.card(book, clinic, tove.id)
    assert (card.complaints, card.contact) == ("elbow, left[31m side", "Ada 0123")


def test_two_programs_on_one_sheet_are_told_of_each_other(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    with ExitStack() as open_:
        one, other = (open_.enter_context(typing(path, SheetKind.COURT)) for _ in range(2))
        begun(one)
        begun(other)
        one.press(MADE)
        one.wait_for("1 ball ")
        other.press(b"u")
        other.wait_for("Another courtlog types this sheet in too")
        one.press(b"\r\r\r")
        one.wait_for("keeps it")
        one.press(b"\r")
        assert one.read_to_end() == 0
        other.press(b"k")
        other.wait_for("or has kept it")
