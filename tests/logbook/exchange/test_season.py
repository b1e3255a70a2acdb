"""One query of DuckDB over exported Parquet files says what courtlog's own tallies say."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from courtlog import locations
from courtlog.cli.actions.sheets import parse, put_in
from courtlog.logbook.exchange.export import export
from courtlog.logbook.exchange.export_choice import ExportOptions
from courtlog.logbook.file.book import Book
from tests.bench import season
from tests.court import LIBRARY, START
from tests.logbook.exchange.books import empty_book, full_book


def clinics(folder: Path) -> Book:
    """Both invented clinics."""
    book = empty_book(folder)
    for name in ("harbour-week.txt", "two-court-weekend.txt"):
        put_in(book, parse(locations.shipped_samples() / name, LIBRARY, "UTC"), LIBRARY, START)
    return book


@pytest.mark.parametrize("made", [clinics, full_book])
def test_one_query_over_parquet_gives_the_books_own_numbers(
    tmp_path: Path, made: Callable[[Path], Book]
) -> None:
    book = made(tmp_path)
    export(book, tmp_path / "out", ExportOptions(with_minors=True, parquet=True), START)
    book.close()
    found = season.of_parquet(tmp_path / "out")
    assert any(seen > 0 for *_, seen in found)
    assert [row for row in found if row[-1]] == season.of_the_book(book.path)
