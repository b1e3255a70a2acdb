"""Ids and moments at the edge of what a book can write itself: they come in, or nothing does."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.errors import BookError, CourtlogError, LibraryError
from courtlog.logbook.exchange.export import export
from courtlog.logbook.exchange.export_choice import ExportOptions
from courtlog.logbook.exchange.import_folder import import_folder
from courtlog.logbook.exchange.join_books import join_book
from courtlog.logbook.file import doctor, restoring
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open, open_existing
from courtlog.logbook.rows.ids import COUNT_BITS, LAST_COUNT, LAST_TAG, LATEST
from tests.court import START, Clock, desk_in, feed
from tests.logbook.exchange.books import content, empty_book
from tests.logbook.exchange.test_join_books import nobody_asks

IN_2099 = 4_080_000_000_000
WITHIN = (
    *(1, 1 << COUNT_BITS, (7 << COUNT_BITS) + LATEST + 1, (7 << COUNT_BITS) + LAST_COUNT),
    (LAST_TAG << COUNT_BITS) + LAST_COUNT,
)
BEYOND = (
    *(0, -1, -(2**63), (7 << COUNT_BITS) + LAST_COUNT + 1, (8 << COUNT_BITS) - 1),
    *((LAST_TAG + 1) << COUNT_BITS, 2**63 - 1),
)


def with_an_id(folder: Path, row: int) -> Book:
    """A book that holds a coach of this id."""
    desk = desk_in(folder, ("Anouk",))
    feed(desk, "222 _")
    desk.book.db.execute("INSERT INTO coach VALUES (?, 'Bo')", [row])
    return desk.book


def test_a_clock_in_2099_makes_ids_that_every_book_takes(tmp_path: Path) -> None:
    desk = desk_in(tmp_path / "far")
    assert isinstance(desk.clock, Clock)
    desk.clock.at = IN_2099
    feed(desk, "222 _ 210 0< 1")
    export(desk.book, tmp_path / "out", ExportOptions(), IN_2099)
    again = empty_book(tmp_path)
    import_folder(again, tmp_path / "out")
    assert content(again.db) == content(desk.book.db)
    other = desk_in(tmp_path / "other", ("Anouk",))
    join_book(other.book, desk.book.path, lambda _question: False, START)
    for book in (desk.book, again, other.book):
        assert doctor.findings(book) == []


@pytest.mark.parametrize("row", WITHIN)
def test_what_a_book_can_write_comes_in_and_the_book_goes_on(tmp_path: Path, row: int) -> None:
    other = with_an_id(tmp_path / "other", row)
    desk = desk_in(tmp_path / "own", ("Maren",))
    join_book(desk.book, other.path, lambda _question: False, START)
    feed(desk, "222 _")
    desk.book.close()
    with_more = open_existing(desk.book.path, START)
    assert doctor.findings(with_more) == []
    highest = max(with_more.db.execute("SELECT max(id), ? FROM ball", [row]).fetchone())
    assert with_more.ids.next(START) > highest or row >> COUNT_BITS == 0


@pytest.mark.parametrize("row", BEYOND)
def test_what_no_book_can_write_comes_in_by_no_way(tmp_path: Path, row: int) -> None:
    other = with_an_id(tmp_path / "other", row)
    export(other, tmp_path / "out", ExportOptions(), START)
    other.close()
    desk = desk_in(tmp_path / "own", ("Maren",))
    before = list(desk.book.db.iterdump())
    with pytest.raises(BookError, match="is not sound"):
        join_book(desk.book, other.path, nobody_asks, START)
    with pytest.raises(CourtlogError, match="that no courtlog wrote"):
        restoring.check(other.path)
    assert list(desk.book.db.iterdump()) == before
    with pytest.raises(LibraryError) as refused:
        import_folder(empty_book(tmp_path), tmp_path / "out")
    assert "coach.csv" in str(refused.value.problems[0])
    assert "the id is out of range" in str(refused.value.problems[0])


@pytest.mark.parametrize("row", BEYOND)
def test_a_book_that_holds_one_already_opens_and_the_doctor_says_it(
    tmp_path: Path, row: int
) -> None:
    with_an_id(tmp_path, row).close()
    book = create_or_open(tmp_path / "book.db", START)
    with book.writing():
        book.ids.next(START)
    (finding,) = doctor.findings(book)
    assert (
        finding.sentence == "1 row holds what no courtlog writes (coach: the id is out of range.)"
    )
