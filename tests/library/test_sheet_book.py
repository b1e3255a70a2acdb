"""A sheet read into a book comes out byte for byte; one that cannot come in leaves no trace."""

from __future__ import annotations

import contextlib
import tempfile
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import settings as asked

from courtlog import locations
from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.clinic_record import ClinicRecord
from courtlog.errors import BookError
from courtlog.library.sheet_in import read_sheet
from courtlog.library.sheet_out import write_sheet
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.rows import tallies
from tests.doses import dose
from tests.library.clinics import clinics
from tests.library.shelf import shipped, steady

NOW = 1_780_000_000_000
SAMPLES = sorted(locations.shipped_samples().glob("*-*.txt"))
EACH_SAMPLE = pytest.mark.parametrize("file", SAMPLES, ids=lambda file: file.stem)


def dump(book: Book) -> list[str]:
    """Every row of the book, as SQLite's own dump writes them."""
    return list(book.db.iterdump())


def read(text: str) -> ClinicRecord:
    return read_sheet(text, "sheet.txt", shipped(), "UTC")


def out(book: Book) -> str:
    return write_sheet(day_lookups.record(book, lookups.clinics(book)[-1]))


def played(clinic: ClinicRecord) -> ClinicRecord:
    """The clinic without rounds in which nothing was ever said: a book does not hand those out."""
    days = (
        replace(day, rounds=tuple(r for r in day.rounds if r.balls or r.notes or r.check_ins))
        for day in clinic.days
    )
    return replace(clinic, days=tuple(days))


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return create_or_open(tmp_path / "book.db", NOW)


def test_there_are_two_samples() -> None:
    assert [file.name for file in SAMPLES] == ["harbour-week.txt", "two-court-weekend.txt"]


@EACH_SAMPLE
def test_a_sample_comes_out_byte_for_byte(book: Book, file: Path) -> None:
    text = file.read_bytes().decode("utf-8")
    clinic = read(text)
    came = put_in(book, clinic, shipped(), NOW)
    assert out(book) == text
    assert tallies.proof(book.db) == []
    rounds = [round_ for day in clinic.days for round_ in day.rounds]
    assert (came.days, came.rounds) == (len(clinic.days), len(rounds))
    assert came.balls == sum(len(round_.balls) for round_ in rounds)
    book.close()


@EACH_SAMPLE
def test_one_date_comes_out_as_its_lines_of_the_sheet(book: Book, file: Path) -> None:
    clinic = read(file.read_text(encoding="utf-8"))
    put_in(book, clinic, shipped(), NOW)
    made = lookups.clinics(book)[-1]
    for day in clinic.days:
        assert day_lookups.record(book, made, day.date) == replace(clinic, days=(day,))
    book.close()


@given(clinics())
@asked(steady, max_examples=dose(15, 50))
def test_any_clinic_comes_out_as_it_went_in(clinic: ClinicRecord) -> None:
    with tempfile.TemporaryDirectory() as folder:
        book = create_or_open(Path(folder) / "book.db", NOW)
        put_in(book, clinic, shipped(), NOW)
        assert day_lookups.record(book, lookups.clinics(book)[-1]) == played(clinic)
        assert out(book) == write_sheet(played(clinic))
        assert tallies.proof(book.db) == []
        book.close()


def test_day_by_day_is_the_same_as_all_at_once(book: Book) -> None:
    text = SAMPLES[0].read_text(encoding="utf-8")
    clinic = read(text)
    for day in clinic.days:
        put_in(book, replace(clinic, days=(day,)), shipped(), NOW)
    assert len(lookups.clinics(book)) == 1
    assert out(book) == text
    book.close()


HEAD = "clinic X  zone UTC\nday 2026-05-12  court 1\n"
ROUND = "player Bo  drill forehand/live  cues turn\n2 1 0\n"


OTHERS = HEAD + "checkin Cas  pain 3\n" + ROUND.replace("Bo", "Cas")


def test_the_same_sheet_twice_is_once(book: Book) -> None:
    put_in(book, read(HEAD + ROUND), shipped(), NOW)
    before = dump(book)
    came = put_in(book, read(HEAD + ROUND), shipped(), NOW + 1000, who="Ines")
    assert (came.rounds, came.balls, len(came.known), came.amendment_id) == (0, 0, 1, None)
    assert dump(book) == before
    book.close()


def test_another_sheet_of_a_day_joins_it(book: Book) -> None:
    put_in(book, read(HEAD + ROUND), shipped(), NOW)
    came = put_in(book, read(OTHERS), shipped(), NOW + 1000)
    assert (came.rounds, came.balls, came.texts) == (1, 3, 1)
    assert [placed.place for placed in came.placed] == [1], "the player's first round"
    (day,) = day_lookups.record(book, lookups.clinics(book)[-1]).days
    assert [round_.player for round_ in day.rounds] == ["Bo", "Cas"]
    assert tallies.proof(book.db) == []
    book.close()


def test_another_version_of_a_round_writes_nothing_by_itself(book: Book) -> None:
    put_in(book, read(HEAD + ROUND), shipped(), NOW)
    before = dump(book)
    other = HEAD.replace("12", "11") + ROUND + HEAD[19:] + ROUND.replace("2 1 0", "2 1 1")
    with pytest.raises(BookError, match="has other balls of Bo's round 1 of 2026-05-12"):
        put_in(book, read(other), shipped(), NOW + 1000)
    assert dump(book) == before
    book.close()


def test_a_day_of_check_ins_alone_is_not_doubled(book: Book) -> None:
    text = HEAD + "checkin Bo  pain elbow 2  when morning\n"
    put_in(book, read(text), shipped(), NOW)
    with contextlib.suppress(BookError):
        put_in(book, read(text), shipped(), NOW)
    found = out(book)
    book.close()
    assert found.count("checkin") == 1


def test_another_court_of_a_date_that_is_in_the_book_joins_it(book: Book) -> None:
    put_in(book, read(HEAD + ROUND), shipped(), NOW)
    put_in(book, read((HEAD + ROUND).replace("court 1", "court 2")), shipped(), NOW)
    (clinic,) = lookups.clinics(book)
    assert [day.court for day in day_lookups.record(book, clinic).days] == ["1", "2"]
    assert tallies.proof(book.db) == []
    book.close()


def test_the_planned_days_of_a_later_sheet_are_kept(book: Book) -> None:
    put_in(book, read(HEAD + ROUND), shipped(), NOW)
    later = (HEAD + ROUND).replace("zone UTC", "zone UTC  days 5").replace("12", "13", 1)
    put_in(book, read(later), shipped(), NOW)
    found = out(book).partition("\n")[0]
    book.close()
    assert found.endswith("days 5")
