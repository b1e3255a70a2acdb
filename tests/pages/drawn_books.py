"""A drawn clinic in a book: its sheet, and what a sheet cannot say (cards, main cues, doubts)."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.cards import Focus
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.plans.rotation import Presence
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.logbook.writes import second_rating_writer
from courtlog.logbook.writes.people_writer import PeopleWriter
from courtlog.logbook.writes.rotation_writer import RotationWriter
from tests.pages.drawn_clinics import DrawnClinic
from tests.pages.fates import Fate
from tests.samples.generator import shipped_library

NOW = 1_790_000_000_000
RATED_TWICE = 30


def in_book(folder: Path, drawn: DrawnClinic) -> tuple[Book, Clinic]:
    """A new book in this folder with the clinic in it; whoever opens it closes it."""
    book, library = create_or_open(folder / "book.db", NOW), shipped_library()
    # The roster comes before the first ball: a main cue named after it would be refused.
    put_in(book, replace(drawn.record, days=()), library, NOW)
    here = lookups.clinics(book)[0]
    _say_who_they_are(book, here, drawn)
    put_in(book, drawn.record, library, NOW)
    _note_presence(book, here, drawn)
    if drawn.traits.rated_twice:
        _rate_again(book)
    return book, lookups.clinics(book)[0]


def _say_who_they_are(book: Book, here: Clinic, drawn: DrawnClinic) -> None:
    """Cards of everybody, and what the coach saw of each."""
    people = PeopleWriter(book)
    for player, card in zip(lookups.players(book, here.id), drawn.cards, strict=True):
        people.edit_card(here.id, player.id, card, NOW)
        main = drawn.cues[0] if drawn.traits.main_cue else ""
        people.keep_focus(here.id, player.id, Focus(drawn.stroke, "", drawn.cues, main=main), NOW)


def _note_presence(book: Book, here: Clinic, drawn: DrawnClinic) -> None:
    """On the first day, who left and who came late."""
    gone = (Fate.LEFT, Fate.SORE, Fate.RED)
    first = lookups.days(book, here.id)[0]
    for player in lookups.players(book, here.id):
        fate = drawn.fates[player.name]
        if fate in gone or fate is Fate.LATE:
            state = Presence.LEFT if fate in gone else Presence.LATE
            RotationWriter(book).set_presence(first.id, player.id, state, 0.0, NOW)


def _rate_again(book: Book) -> None:
    """Another coach rates the first cue of the first balls, and sees it the other way round."""
    rows = book.db.execute(
        "SELECT ball_id, grade FROM rating JOIN ball ON ball.id = ball_id AND taken"
        " JOIN round ON round.id = round_id WHERE row = 0 AND purpose <> 'choosing'"
        " ORDER BY ball_id LIMIT ?",
        [RATED_TWICE],
    )
    again = [(ball, {0: Grade.MADE - grade}) for ball, grade in rows]
    second_rating_writer.rate_balls(book, "Bo", 1, again, NOW)
