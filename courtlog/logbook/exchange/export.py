"""The whole book, or a part of it, as a folder of CSV files: all of the folder, or none of it."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from courtlog import drafts, times
from courtlog.logbook.exchange.export_choice import ExportOptions, choosing
from courtlog.logbook.exchange.package import DESCRIPTOR, describe, file_of
from courtlog.logbook.exchange.parquet import write_parquet
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.new_folder import new_folder

_BUFFER = 1 << 20
_TOGETHER = 5000
"""Lines that are written at once."""


@dataclass(frozen=True, slots=True)
class Export:
    """What went out."""

    balls: int
    rows: int
    minors_left_out: int
    """Players who stayed at home."""


def export(book: Book, folder: Path, wish: ExportOptions, at_ms: int) -> Export:
    """Write the folder, which must be new or empty. Raises CourtlogError."""
    created = times.local(at_ms, times.zone("UTC")).isoformat(timespec="milliseconds")
    with (
        new_folder(folder, book.path.absolute().parent) as scratch,
        book.reading(),
        choosing(book.db, wish) as choice,
    ):
        rows = {table.name: choice.count(table) for table in choice.tables}
        for table in choice.tables:
            _write(scratch / file_of(table), table.names, choice.lines(table))
        with drafts.on_disk(scratch / DESCRIPTOR) as file:
            file.write(describe(choice.tables, created, wish.anonymous))
        if wish.parquet:
            for table in choice.tables:
                write_parquet(scratch / f"{table.name}.parquet", table, choice.values(table))
        return Export(rows["ball"], sum(rows.values()), choice.minors)


def _write(path: Path, names: Sequence[str], lines: sqlite3.Cursor) -> None:
    """A CSV file as RFC 4180 has it; no column's name needs quotes."""
    with drafts.on_disk(path, _BUFFER) as file:
        file.write(",".join(names) + "\r\n")
        while some := lines.fetchmany(_TOGETHER):
            file.write("".join([line + "\r\n" for (line,) in some]))
