"""An academy's folder as an engine sees it: every table as a view, and courtlog's own views."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

from courtlog.academy.engines.engine import Engine, TableFiles
from courtlog.academy.index import BookEntry, Index, files_of
from courtlog.errors import CourtlogError
from courtlog.logbook.exchange.snapshot import tables_of_today
from courtlog.logbook.rows.matched_ids import Matching
from courtlog.logbook.schema.schema_check import SCHEMA

_VIEWS = ("clinics", "people", "taken_balls", "ball_counts", "rounds", "cue_counts")
"""In the order in which they stand on one another."""

_KEPT = {"clinics", "people", "ball_counts", "rounds", "cue_counts"}
"""Small beside the balls, and asked by every question."""


@dataclass(frozen=True, slots=True)
class Books:
    """The books of a folder: those that are read, and those of a later courtlog."""

    read: dict[str, BookEntry]
    left_out: dict[str, BookEntry]

    @classmethod
    def of(cls, index: Index, folder: Path) -> Books:
        """Raises CourtlogError where there is none to read."""
        read = {book: entry for book, entry in index.books.items() if entry.schema <= SCHEMA}
        if not index.books:
            raise CourtlogError(
                f"There is no book in {folder}.", "`courtlog academy add BOOK... --in FOLDER`"
            )
        later = {book: entry for book, entry in index.books.items() if book not in read}
        if not read:
            raise CourtlogError(
                f"All books in {folder} are of a later courtlog.", "Update courtlog."
            )
        return cls(read, later)

    @property
    def by_progress(self) -> list[tuple[str, BookEntry]]:
        """The books that are read, the one with the latest entry last."""
        return sorted(self.read.items(), key=lambda item: (item[1].progress, int(item[0])))


def open_folder(engine: Engine, folder: Path, books: Books) -> None:
    """Make every view that a question may ask."""
    folder = folder.absolute()
    alike = all(entry.schema == SCHEMA for entry in books.read.values())
    for table in tables_of_today():
        paths = [folder / part for part in files_of(books.read, table.name)]
        engine.register(TableFiles(table, folder / table.name, paths, alike))
    _view_of_values(
        engine,
        "exports",
        {"book": "BIGINT", "place": "BIGINT", "export": "STRING"},
        (
            (book, str(place), f"'{entry.export}'")
            for place, (book, entry) in enumerate(books.by_progress)
        ),
    )
    _people_and_clinics(engine)
    for name in _VIEWS:
        engine.view(name, shipped("views", name), keep=name in _KEPT)


def shipped(room: str, name: str) -> str:
    """The text of a file `ROOM/NAME.sql` of this package."""
    return (files(__package__) / room / f"{name}.sql").read_text(encoding="utf-8")


def _people_and_clinics(engine: Engine) -> None:
    """Which ids any of the books says are one, and who was erased from any of them."""
    matching = Matching()
    pairs = engine.rows(
        "SELECT DISTINCT tbl, one_id, other_id FROM matched WHERE same"
        " ORDER BY tbl, one_id, other_id"
    )
    for table, one, other in pairs.rows:
        matching.unite(table, one, other)
    kept = sorted(
        (table, row, matching.kept_id(table, row))
        for table, known in matching.stands_for.items()
        for row in known
    )
    _view_of_values(
        engine,
        "kept_id",
        {"tbl": "STRING", "id": "BIGINT", "kept": "BIGINT"},
        ((f"'{table}'", str(row), str(stands)) for table, row, stands in kept),
    )
    erased = engine.rows("SELECT DISTINCT abs(player_id) FROM erased").rows
    _view_of_values(
        engine,
        "erased_people",
        {"player_id": "BIGINT"},
        ((str(row),) for row in sorted({matching.kept_id("player", row) for (row,) in erased})),
    )


def _view_of_values(
    engine: Engine, name: str, columns: dict[str, str], rows: Iterable[tuple[str, ...]]
) -> None:
    """A view of rows that courtlog itself has worked out; values as they stand in SQL."""
    lines = ", ".join(f"({', '.join(row)})" for row in rows)
    if not lines:
        casts = ", ".join(f"CAST(NULL AS {kind}) AS {one}" for one, kind in columns.items())
        engine.view(name, f"SELECT {casts} WHERE 1 = 0")
        return
    casts = ", ".join(f"CAST({one} AS {kind}) AS {one}" for one, kind in columns.items())
    engine.view(name, f"SELECT {casts} FROM (VALUES {lines}) AS given ({', '.join(columns)})")
