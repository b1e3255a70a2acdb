"""What `courtlog clinic new|show|edit` do."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from courtlog import locations, times
from courtlog import settings as settings_file
from courtlog.cli.book_to_write import book_beside
from courtlog.cli.common import clinic_to_set_up, existing_book, now
from courtlog.cli.output import write_page
from courtlog.cli.zones import local_zone
from courtlog.coaching.game.cards import one_line
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.plans.clinic_plan import days_of, plan_with, sentence
from courtlog.errors import CourtlogError
from courtlog.logbook.reads import clinic_lookups, lookups
from courtlog.logbook.reads.clinic_lookups import FirstDay
from courtlog.logbook.writes import clinic_writer
from courtlog.plain_text import plain
from courtlog.reports.pages.clinic_text import clinic_text

MOST_NAME = 80


def begin(
    path: Path | None,
    name: str,
    zone: str | None,
    days: str | None,
    court: str | None,
    coach: str | None,
) -> None:
    """Begin a clinic, and a book where there is none."""
    settings = settings_file.read(locations.settings())
    clinic = _checked(Clinic(0, "", local_zone()), name, zone, days)
    first = FirstDay(one_line(court or ""), one_line(settings.coach if coach is None else coach))
    if max(map(len, (first.court, first.coach))) > MOST_NAME:
        raise CourtlogError(
            f"Court and coach have {MOST_NAME} characters at most.", "Nothing was written."
        )
    with book_beside(path, new=True) as book:
        made = clinic_writer.begin_clinic(book, clinic, first, now())
    print(
        f"{plain(made.name)} is in the book, in {made.zone}. `courtlog roster add` adds its"
        " players; `courtlog` begins its first day."
    )


def show(path: Path | None, name: str | None) -> None:
    """Print how the clinic is set up."""
    with existing_book(path) as book:
        clinic = clinic_to_set_up(book, name)
        page = clinic_text(
            clinic,
            clinic_lookups.plan(book, clinic.id),
            lookups.dates(book, clinic.id),
            len(lookups.players(book, clinic.id)),
        )
    write_page(page)


def edit(
    path: Path | None,
    clinic: str | None,
    name: str | None,
    zone: str | None,
    days: str | None,
    how: Mapping[str, str],
) -> None:
    """Change what was given, and print the clinic."""
    if not how and (name, zone, days) == (None, None, None):
        raise CourtlogError("Nothing was said to change.", "`courtlog clinic edit --help` says it.")
    with book_beside(path) as book:
        chosen = clinic_to_set_up(book, clinic)
        after = plan_with(clinic_lookups.plan(book, chosen.id), how)
        clinic_writer.change_clinic(book, _checked(chosen, name, zone, days), after)
        called = lookups.clinic(book, chosen.id).name
    show(path, called)


def _checked(clinic: Clinic, name: str | None, zone: str | None, days: str | None) -> Clinic:
    """The clinic with its typed changes, all checked. Raises CourtlogError."""
    try:
        if name is not None:
            clinic = replace(clinic, name=_named(name))
        if zone is not None:
            clinic = replace(clinic, zone=times.zone(zone.strip()).key)
        if days is not None:
            clinic = replace(clinic, planned_days=days_of(days))
    except ValueError as error:
        raise CourtlogError(sentence(error.args), "Nothing was written.") from error
    return clinic


def _named(text: str) -> str:
    name = one_line(text)
    if not name or len(name) > MOST_NAME:
        raise ValueError(f"a clinic's name has 1 to {MOST_NAME} characters")
    return name
