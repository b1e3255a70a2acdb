"""The other book of a joining: a copy of it in today's schema, refused where it is not sound.

Most of a book are balls, grades and lines of the journal. Where all of these come in unchanged, a
look at the result sees their faults too, and one look is enough. The other book is then looked at
only when the joining fails, to say whose fault it was.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from courtlog.errors import BookError
from courtlog.logbook.file.book_errors import as_book_error
from courtlog.logbook.file.open_book import open_copy
from courtlog.logbook.rows.soundness import Part, faults
from courtlog.logbook.schema import schema_check
from courtlog.logbook.schema.tables import tables
from courtlog.systems.shell_words import quoted


def copy_checked(other: Path, copy: Path, at_ms: int) -> None:
    """Copy the other book in today's schema to a file of our own; its balls are not yet looked at.

    Raises BookError where the file, a link or anything beside the balls is not sound.
    """
    with (
        closing(open_copy(other, copy, at_ms)) as book,
        book.reading(),
        schema_check.within_bounds(book.db),
    ):
        sound = book.db.execute("PRAGMA integrity_check(1)").fetchone() == ("ok",)
        sound = sound and book.db.execute("PRAGMA foreign_key_check").fetchone() is None
        sound = sound and _is_sound(book.db, Part.BESIDE_BALLS)
    if not sound:
        raise _unsound(other)


@dataclass(frozen=True, slots=True)
class OtherBook:
    """The copy of the other book, open and attached as `theirs`."""

    path: Path
    """The other book itself, for sentences about it."""
    db: sqlite3.Connection
    whole: bool
    """Whether its balls, grades and lines come in as they are, all of them."""

    def check_balls(self) -> None:
        """Refuse balls, grades and lines that are not sound. Raises BookError."""
        try:
            schema_check.be_wary(self.db)
            with schema_check.within_bounds(self.db):
                sound = _is_sound(self.db, Part.BALLS)
        except sqlite3.Error as error:
            raise as_book_error(self.path, error) from error
        if not sound:
            raise _unsound(self.path)


def _is_sound(db: sqlite3.Connection, part: Part) -> bool:
    return next(faults(db, tables(db), linked=True, part=part), None) is None


def _unsound(other: Path) -> BookError:
    return BookError(
        f"The book {other} is not sound; nothing was changed.",
        f"`courtlog --book {quoted(str(other))} doctor` says what is wrong with it.",
    )


_VERSIONS_OF_CUES = " UNION ALL ".join(
    f"SELECT key FROM {book}.{held} WHERE tbl = 'round_cue'"
    for book in ("main", "theirs")
    for held in ("former", "conflict")
)

_MEETS = (
    # A ball or a line that both books have, or a ball in a round of this one.
    "SELECT 1 FROM theirs.ball WHERE id IN (SELECT id FROM main.ball)",
    "SELECT 1 FROM theirs.journal WHERE id IN (SELECT id FROM main.journal)",
    "SELECT 1 FROM main.round JOIN theirs.ball ON round_id = round.id",
    # A sheet that both books read in, so that its rounds and balls become one.
    "SELECT 1 FROM (SELECT tbl, same FROM main.matched UNION ALL"
    " SELECT tbl, same FROM theirs.matched) WHERE same AND tbl IN ('ball', 'round')",
    "SELECT 1 FROM theirs.sheet_round WHERE digest <> ''"
    " AND digest IN (SELECT digest FROM main.sheet_round)",
    # Another version of what the rounds' cues are.
    "SELECT 1 FROM theirs.round WHERE id IN (SELECT CASE WHEN json_valid(key)"
    f" THEN json_extract(key, '$[0]') END FROM ({_VERSIONS_OF_CUES}))",
)


def balls_come_whole(db: sqlite3.Connection) -> bool:
    """Whether balls, grades and lines of the attached book `theirs` come in as they are, all of
    them.
    """
    meets = " OR ".join(f"EXISTS ({rows})" for rows in _MEETS)
    (meet,) = db.execute(f"SELECT {meets}").fetchone()
    return not meet
