"""`courtlog courts` without a number: who is on which court, and what this book may do."""

from __future__ import annotations

from pathlib import Path

from courtlog import times
from courtlog.cli.book_to_write import book_beside
from courtlog.cli.common import chosen_clinic, existing_book, now, typed_date
from courtlog.coaching.game.court_book import Owner
from courtlog.coaching.voice.court_ages import age_words
from courtlog.errors import CourtlogError
from courtlog.logbook.exchange.courts import stick
from courtlog.logbook.reads.courts.court_groups import court_book, court_groups, readings
from courtlog.plain_text import plain
from courtlog.reports.layout.page import labelled

_WHOSE = {
    Owner.HEAD: "the head coach's",
    Owner.ASSISTANT: "an assistant's: it rates, notes and says stop",
    Owner.FREE: "free: everything can be written in it",
}


def show_courts(path: Path | None, clinic_name: str | None, on: str | None) -> None:
    """Print who is on which court, whose book this is, and how old the other courts are here."""
    with existing_book(path) as book:
        clinic = chosen_clinic(book, clinic_name)
        at_ms = now()
        day = typed_date(on) or times.local_date(at_ms, clinic.place)
        own, groups = court_book(book), court_groups(book, clinic.id, day)
        known = readings(book)
    if not groups:
        raise CourtlogError(
            f"{clinic.name} is not dealt to courts on {times.date_words(day)}.",
            "`courtlog courts 4` deals it to four.",
        )
    print(f"{plain(clinic.name)}, {times.date_words(day)}:")
    for group in groups:
        names = ", ".join(player.shown_name for player in group.players) or "nobody"
        for line in labelled(f"court {group.court}", [plain(names)]):
            print(line)
    if own is None:
        return
    print(plain(f"This book is court {own.court}, {_WHOSE[own.owner]}."))
    for court, until in sorted(known.items()):
        print(plain(f"What it knows: {age_words(court, until, at_ms, clinic.place)}."))
    print(plain(f"Copies for the other courts go to {own.stick}."))


def set_free(path: Path | None) -> None:
    """Let everything be written in an assistant's book."""
    with book_beside(path) as book:
        stick.set_free(book)
    print("Everything can be written in this book now. Tell the head coach before the evening.")


def set_stick(path: Path | None, folder: Path) -> None:
    """Name the folder in which this court lays copies for the others."""
    with book_beside(path) as book:
        stick.set_stick(book, folder)
    print(plain(f"Copies for the other courts go to {folder.absolute()}."))
