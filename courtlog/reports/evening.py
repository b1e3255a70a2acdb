"""All that is handed out at the end of a day, as texts by file name.

The day's page, a page for each player who was there, and tomorrow's plan. After the clinic's last
day there are everyone's sheets to take home instead of a plan.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, timedelta

from courtlog.coaching.game.people import Clinic
from courtlog.coaching.voice.statement import SILENCE
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.clinic_lookups import next_planned
from courtlog.names import folded_name
from courtlog.reports import facts, one_screen, pages, takehome
from courtlog.reports.facts.models import DayFacts, PlayerDay
from courtlog.systems.file_names import DEVICES

DAY, PLAN = "day.txt", "plan.txt"

RESERVED = DEVICES | {"day", "plan"}
"""Names that no player's file may have: those of devices, and of our own two pages."""

LONGEST = 60
"""Characters of a file's name: with four bytes each it fits every usual file system."""


def evening_texts(book: Book, clinic: Clinic, on: date | None, library: Library) -> dict[str, str]:
    """The texts of that day, the latest where none is named, by file name.

    Raises UnknownNameError for a date without a day.
    """
    day = facts.day_facts.day_facts(book, clinic, on, None)
    texts = {DAY: one_screen.day_page.day_page(day)}
    roster = [player.shown_name for player in lookups.players(book, clinic.id)]
    stems = dict(zip(roster, file_stems(roster), strict=True))
    for player in day.players:
        theirs = of_one_player(day, player)
        page = one_screen.player_day_page.player_day_page(theirs)
        texts[f"{stems[player.player]}.txt"] = page
    if clinic.planned_days is not None and day.number >= clinic.planned_days:
        for player_name, stem in stems.items():
            sheet = takehome.takehome_facts.take_home(book, clinic, player_name, library)
            texts[f"{stem}.html"] = takehome.takehome_html.takehome_html(sheet)
    else:
        next_day = next_planned(book, clinic.id, day.date) or day.date + timedelta(days=1)
        plan = facts.plan_facts.plan_facts(book, clinic, next_day, library)
        texts[PLAN] = pages.plan_text.plan_text(plan)
    return texts


def of_one_player(day: DayFacts, player: PlayerDay) -> DayFacts:
    """The day as this player's page has it: nothing of the others is in it."""
    return replace(
        day,
        players=(player,),
        fair=(),
        absent=(),
        over_courts=None,
        crowded=SILENCE,
        missing=(),
    )


def file_stems(names: Iterable[str]) -> Iterator[str]:
    """A file's name without its ending for each of these names: safe on every system, and unique.

    Letters and digits of any script stay, all else becomes `-`.
    """
    taken: set[str] = set()
    for name in names:
        stem = _safe(name)
        number = 1
        while stem in taken or stem in RESERVED:
            number += 1
            stem = f"{_safe(name)}-{number}"
        taken.add(stem)
        yield stem


def _safe(name: str) -> str:
    letters = (c if unicodedata.category(c)[0] in "LMN" else "-" for c in folded_name(name))
    words = "".join(letters)[:LONGEST].split("-")
    return "-".join(filter(None, words)) or "player"
