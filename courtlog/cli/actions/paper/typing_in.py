"""`courtlog paper in`: a filled-in sheet is typed into the book on a screen of its own.

Loaded for this command alone, since the others that print need no screen.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path

from courtlog import locations
from courtlog import settings as settings_file
from courtlog.cli import failures
from courtlog.cli.book_to_write import book_alone, book_beside
from courtlog.cli.common import library, now
from courtlog.cli.opening import has_terminal
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.courtside.app.typing_app import TypingApp, TypingSession
from courtlog.errors import CourtlogError
from courtlog.plain_text import plain
from courtlog.reports.layout.page import lines_of


def type_sheet(code: str, path: Path | None) -> None:
    """Open the screen for the sheet of this code, and say what came of it. Raises CourtlogError."""
    sheet = SheetCode.from_text(code)
    if not has_terminal():
        raise CourtlogError(
            "Typing a sheet in needs a terminal.", "`courtlog sheet in FILE` takes a text file."
        )
    settings = settings_file.read(locations.settings())
    with book_beside(path) as book:
        session = TypingSession(book, library, settings, now, partial(book_alone, path))
        # A code of nobody here is told before a screen opens.
        if sheet.kind is SheetKind.FORM:
            session.form_session().places(sheet)
        else:
            session.places(code)
        app = TypingApp(session, code, settings)
        failures.run_once(app)
    outcome = plain(app.outcome or "Nothing was kept; the book is as it was.")
    print("\n".join(lines_of(outcome)))
