"""What the tests of one process work out once: style sheets, an empty book, clips, the program.

Each stands in for a function of the same result; its first answer is that function's own.
"""

from __future__ import annotations

import hashlib
import shutil
import sqlite3
import sys
import uuid
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
import typer
from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet

from courtlog.film import cutting
from courtlog.logbook.file import open_book
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.writer_lock import WriterLock
from courtlog.logbook.rows import ids
from tests.doses import dose

bring_up = open_book._bring_up
"""The book as the program makes it."""

open_to_write = open_book._to_write
"""A book as the program opens it: what is written is on the disk before it goes on."""

run_ffmpeg = cutting._run
"""A clip or a still as ffmpeg cuts it."""


def remember(patch: pytest.MonkeyPatch) -> None:
    """Let everything be worked out once, and let no test wait for a disk."""
    patch.setattr(Stylesheet, "_parse_rules", _rules_read_once())
    patch.setattr(open_book, "_bring_up", _copy_an_empty_book)
    patch.setattr(open_book, "_to_write", _write_without_waiting)
    patch.setattr(cutting, "_run", _cut_once())
    patch.setattr(typer.main, "get_command", cache(typer.main.get_command))
    if sys.platform == "linux" and dose(1, 0):  # the long version starts Python every time
        from tests.terminal import console, starts  # other systems have no such terminal

        patch.setattr(console, "start", starts.start_loaded)


def _rules_read_once() -> Callable[..., list[RuleSet]]:
    """`Stylesheet._parse_rules` for every app of the process: Textual's own memory ends with one.

    Reading the style sheets takes a fifth of what a court costs.
    """
    read = Stylesheet._parse_rules
    kept: dict[object, list[RuleSet]] = {}

    def rules(sheet: Stylesheet, *source: object, **more: object) -> list[RuleSet]:
        key = (source, *more.items(), *sheet._variables.items())
        if key not in kept:
            kept[key] = read(sheet, *source, **more)  # type: ignore[arg-type]
        return kept[key]

    return rules


def _copy_an_empty_book(db: sqlite3.Connection, now: int) -> None:
    """Fill a new book by copying one, under a name of its own; bring up an older book itself."""
    (objects,) = db.execute("SELECT count(*) FROM sqlite_master").fetchone()
    if objects:
        bring_up(db, now)
        return
    db.execute("PRAGMA synchronous = OFF")
    _empty_book().backup(db)
    db.execute(
        "UPDATE book SET uuid = ?, tag = ?, created_at = ?", [str(uuid.uuid4()), ids.new_tag(), now]
    )


def _write_without_waiting(path: Path, now: int, lock: WriterLock | None) -> Book:
    """A book of this process alone: only a machine that goes down would lose what was written."""
    book = open_to_write(path, now, lock)
    book.db.execute("PRAGMA synchronous = OFF")
    return book


@cache
def _empty_book() -> sqlite3.Connection:
    """A book as the program makes it, which takes ten times as long as a copy."""
    book = sqlite3.connect(":memory:", isolation_level=None, check_same_thread=False)
    bring_up(book, 0)
    return book


def _cut_once() -> Callable[[tuple[str, ...], str], None]:
    """A cut by this machine's ffmpeg of the same stretch of the same film is a copy of the first.

    What fails is tried every time, and another ffmpeg, as a test may put there, is always asked.
    """
    own = shutil.which("ffmpeg")
    kept: dict[object, bytes] = {}

    def cut(command: tuple[str, ...], name: str) -> None:
        *how, to = command
        film, draft = (Path(how[how.index("-i") + 1][5:]), Path(to[5:]))  # behind `file:`
        if how[0] != own or not film.is_file():
            run_ffmpeg(command, name)
            return
        how.remove(f"file:{film}")
        key = (*how, hashlib.sha256(film.read_bytes()).digest())
        if key in kept:
            draft.write_bytes(kept[key])
        else:
            run_ffmpeg(command, name)
            kept[key] = draft.read_bytes()

    return cut
