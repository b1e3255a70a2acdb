"""The views in the book say what courtlog's own look-ups say."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from courtlog import locations
from courtlog.cli.actions.sheets import parse, put_in
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, history_lookups, lookups
from courtlog.logbook.schema.views import VIEWS
from tests.court import LIBRARY, START
from tests.logbook.exchange.books import empty_book, full_book


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Book:
    """Both invented clinics."""
    made = empty_book(tmp_path_factory.mktemp("views"))
    for name in ("harbour-week.txt", "two-court-weekend.txt"):
        put_in(made, parse(locations.shipped_samples() / name, LIBRARY, "UTC"), LIBRARY, START)
    return made


@pytest.mark.parametrize("view", VIEWS, ids=lambda view: view.name)
def test_every_view_answers_a_reader_that_only_knows_sqlite(tmp_path: Path, view: object) -> None:
    made = full_book(tmp_path)
    made.close()
    name, columns = view.name, view.columns  # type: ignore[attr-defined]
    reader = sqlite3.connect(f"{(tmp_path / 'book.db').as_uri()}?mode=ro", uri=True)
    rows = reader.execute(f"SELECT * FROM {name}")
    assert [column for column, *_ in rows.description] == [column for column, _ in columns]
    assert rows.fetchall()
    with pytest.raises(sqlite3.OperationalError, match="cannot modify"):
        reader.execute(f"DELETE FROM {name}")
    reader.close()


def test_counts_agree(book: Book) -> None:
    for clinic in lookups.clinics(book):
        own = [
            (
                str(found.date),
                found.player_id,
                found.stroke,
                found.cue,
                found.counts.missed,
                found.counts.near,
                found.counts.made,
                found.counts.unseen,
            )
            for found in day_lookups.counts_by_day(book, clinic.id)
        ]
        viewed = book.db.execute(
            "SELECT date, player_id, stroke, cue, missed, near, made, not_seen FROM cue_by_day"
            " WHERE clinic = ?",
            [clinic.name],
        ).fetchall()
        assert sorted(own) == sorted(viewed) != []


def test_rounds_agree(book: Book) -> None:
    for clinic in lookups.clinics(book):
        for on in lookups.dates(book, clinic.id):
            own = [
                (
                    round_.player_id,
                    round_.drill,
                    round_.rung,
                    str(round_.purpose),
                    round_.balls,
                    round_.tough,
                    round_.minutes,
                )
                for round_ in day_lookups.rounds_on(book, clinic.id, on)
            ]
            viewed = book.db.execute(
                "SELECT player_id, drill, rung, purpose, balls, tough, minutes FROM rounds_played"
                " WHERE clinic = ? AND date = ? ORDER BY court, place",
                [clinic.name, on.isoformat()],
            ).fetchall()
            assert own == viewed != []


def test_balls_and_cues_agree(book: Book) -> None:
    clinic = lookups.clinics(book)[0]
    for player in lookups.players(book, clinic.id):
        for stroke in history_lookups.strokes_of(book, clinic.id, player.id):
            past = history_lookups.history(book, clinic.id, player.id, stroke).balls
            asked = [clinic.name, player.id, stroke]
            which = "WHERE clinic = ? AND player_id = ? AND stroke = ?"
            taken = book.db.execute(f"SELECT count(*) FROM balls_taken {which}", asked).fetchone()
            assert taken == (len(past),)
            own = sorted(
                (cue, -1 if grade is None else int(grade))
                for ball in past
                for cue, grade in ball.grades.items()
            )
            viewed = book.db.execute(
                f"SELECT cue, ifnull(grade, -1) FROM cues_seen {which} ORDER BY 1, 2", asked
            ).fetchall()
            assert own == viewed


def test_check_ins_agree(book: Book) -> None:
    found = 0
    for clinic in lookups.clinics(book):
        for on in lookups.dates(book, clinic.id):
            own = [
                (player, said.pain, said.place, said.effort, said.minutes, said.note)
                for player, all_of_it in day_lookups.check_ins_on(book, clinic.id, on).items()
                for said in all_of_it
            ]
            viewed = book.db.execute(
                "SELECT player_id, pain, place, effort, minutes, note FROM check_ins_said"
                " WHERE clinic = ? AND date = ?",
                [clinic.name, on.isoformat()],
            ).fetchall()
            assert sorted(map(repr, own)) == sorted(map(repr, viewed))
            found += len(own)
    assert found
