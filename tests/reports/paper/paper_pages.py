"""Sheets of paper of the drawn clinics, and of one in which every text is long and hostile."""

from __future__ import annotations

from contextlib import closing
from dataclasses import dataclass, replace
from datetime import date, timedelta
from pathlib import Path

from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.writes.clinic_writer import keep_plan
from courtlog.reports.paper.court_sheets import CourtSheets, court_sheets
from courtlog.reports.paper.cue_cards import CueCards, cue_cards
from courtlog.reports.paper.home_sheets import HomeSheet, home_sheets
from tests.court import LIBRARY
from tests.pages.drawn_books import in_book
from tests.pages.drawn_clinics import drawn_clinic, numbers
from tests.reports.pages.test_pages import book_of


@dataclass(frozen=True, slots=True)
class Papers:
    """All sheets of one clinic."""

    court: CourtSheets
    cues: tuple[CueCards, ...]
    """Everybody's, then each player's."""
    home: tuple[HomeSheet, ...]


def papers(book: Book, clinic: Clinic, on: date, spare: int = 1) -> Papers:
    """The sheets for that date."""
    court = court_sheets(book, clinic, on, LIBRARY, spare=spare)
    names = [sheet.player for sheet in court.sheets]
    cues = [cue_cards(book, clinic, on, LIBRARY, name) for name in (None, *names)]
    home, _ = home_sheets(book, clinic, LIBRARY)
    return Papers(court, tuple(cues), tuple(home))


def of_drawn_clinics(folder: Path) -> list[Papers]:
    """The sheets of the last day of each drawn clinic."""
    every = []
    for number in numbers():
        drawn = drawn_clinic(number)
        (folder / str(number)).mkdir(parents=True)
        book, clinic = in_book(folder / str(number), drawn)
        with closing(book):
            every.append(papers(book, clinic, drawn.dates[-1]))
    return every


HOSTILE = '<script>alert("x")</script> & \x1b[2J\u202eevil ' * 4


def crowded(folder: Path) -> Papers:
    """Long names, four cues, a limit, an amber, a minor, 24 rounds planned, two of 45 balls."""
    folder.mkdir(parents=True, exist_ok=True)
    text = HOSTILE.replace("\\", "\\\\").replace('"', '\\"')
    text = text.replace("\x1b", "\\u001b").replace("\u202e", "\\u202e")
    cues = "split-step turn low-to-high spacing"
    book = book_of(
        folder,
        f'clinic "{text}"  zone UTC\nroster "{text}"\nroster Tove\n'
        f'day 2026-05-11  court 1  coach "{text}"\n'
        f'player "{text}"  drill forehand/racquet-feed  purpose yardstick  cues {cues}\n'
        + " ".join(["2102"] * 40)
        + f'\npain "left elbow" 3  note "{text}"\n',
    )
    book.db.execute("UPDATE player SET age_group = 'minor', contact = 'Ring 555'")
    book.db.execute("UPDATE roster SET ball_limit = 80")
    clinic = lookups.clinics(book)[0]
    on = date(2026, 5, 11) + timedelta(1)
    (who, _) = lookups.players(book, clinic.id)
    drills = ("forehand/racquet-feed", "volley/live", "forehand/no-such-drill")
    plan = [
        PlannedRound(who, drills[place % 3], list(Purpose)[place % 5], 45 if place < 2 else 10)
        for place in range(24)
    ]
    keep_plan(book, clinic.id, on, (), plan, 1_790_000_000_000)
    with closing(book):
        every = papers(book, clinic, on)
    # A minor's pain is no amber, but the fullest page has room for both lines.
    sheets = tuple(replace(sheet, ask_first=True) for sheet in every.court.sheets)
    return replace(every, court=replace(every.court, sheets=sheets))
