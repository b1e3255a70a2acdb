"""What the tests of one process work out once: style sheets, an empty book, the loaded program.

Each stands in for a function of the same result; its first answer is that function's own.
"""

from __future__ import annotations

import sqlite3
import sys
import uuid
from collections.abc import Callable
from functools import cache

import pytest
import typer
from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet

from courtlog.logbook.file import open_book
from courtlog.logbook.rows import ids
from tests.doses import dose

bring_up = open_book._bring_up
"""The book as the program makes it."""


def remember(patch: pytest.MonkeyPatch) -> None:
    """Let everything be worked out once."""
    patch.setattr(Stylesheet, "_parse_rules", _rules_read_once())
    patch.setattr(open_book, "_bring_up", _copy_an_empty_book)
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
    _empty_book().backup(db)
    db.execute(
        "UPDATE book SET uuid = ?, tag = ?, created_at = ?", [str(uuid.uuid4()), ids.new_tag(), now]
    )


@cache
def _empty_book() -> sqlite3.Connection:
    """A book as the program makes it, which takes ten times as long as a copy."""
    book = sqlite3.connect(":memory:", isolation_level=None, check_same_thread=False)
    bring_up(book, 0)
    return book
