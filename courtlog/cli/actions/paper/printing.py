"""`courtlog paper`: sheets to write on and cards to look at, as text or as HTML to print."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from courtlog import locations, times
from courtlog import settings as settings_file
from courtlog.cli.common import (
    chosen_clinic,
    clinic_to_set_up,
    existing_book,
    library,
    now,
    typed_date,
    write_new,
)
from courtlog.cli.output import write_page
from courtlog.cli.zones import today
from courtlog.coaching.game.people import Clinic
from courtlog.errors import CourtlogError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.plain_text import plain
from courtlog.reports import paper
from courtlog.reports.facts.plan_facts import usual_date
from courtlog.reports.paper.home_sheets import NoHomeSheet

SPARE = 1
"""Spare rounds for each player, when nobody says how many."""


@dataclass(frozen=True, slots=True)
class WhichPaper:
    """The sheets that are meant, and the new file for them; None for the usual ones."""

    book: Path | None
    clinic: str | None
    on: str | None
    player: str | None
    html: Path | None
    spare: int | None = None


def print_court(which: WhichPaper) -> None:
    """Print the court sheets of a date."""
    spare = SPARE if which.spare is None else which.spare
    with existing_book(which.book) as book:
        clinic = chosen_clinic(book, which.clinic)
        sheets = paper.court_sheets.court_sheets(
            book, clinic, _date(book, clinic, which), library(), which.player, spare
        )
    if not any(sheet.rounds or sheet.held_back for sheet in sheets.sheets):
        raise CourtlogError(
            "There is no round to print.",
            "Ask for spare ones with `--spare 2`, or add players with `courtlog roster add`.",
        )
    if which.html is None:
        write_page(paper.paper_text.court_text(sheets))
    else:
        write_new(which.html, paper.paper_html.court_html(sheets))


def print_cues(which: WhichPaper) -> None:
    """Print the cue cards for the rounds of a date."""
    with existing_book(which.book) as book:
        clinic = chosen_clinic(book, which.clinic)
        cards = paper.cue_cards.cue_cards(
            book, clinic, _date(book, clinic, which), library(), which.player
        )
    if not cards.cards:
        raise CourtlogError(
            "There is no cue to print.", "`courtlog drills show` prints those of a drill."
        )
    if which.html is None:
        write_page(paper.paper_text.cards_text(cards))
    else:
        write_new(which.html, paper.paper_html.cards_html(cards))


def print_home(which: WhichPaper) -> None:
    """Print the yardsticks to fill in at home."""
    with existing_book(which.book) as book:
        clinic = chosen_clinic(book, which.clinic)
        sheets, none = paper.home_sheets.home_sheets(book, clinic, library(), which.player)
    if not sheets:
        raise CourtlogError(
            f"There is no yardstick to print: {_why(none)}.", "`courtlog takehome` says more."
        )
    if none:
        print(f"Not printed: {_why(none)}.", file=sys.stderr)
    if which.html is None:
        write_page(paper.paper_text.home_text(sheets))
    else:
        write_new(which.html, paper.paper_html.home_html(sheets))


def print_forms(which: WhichPaper, blank: int | None) -> None:
    """Print the forms of the roster or of one player, and blank ones; one where nobody is there."""
    months = settings_file.read(locations.settings()).keep_months
    with existing_book(which.book) as book:
        clinic = clinic_to_set_up(book, which.clinic)
        extra = blank
        if extra is None:
            extra = 0 if which.player or lookups.players(book, clinic.id) else 1
        forms = paper.form_facts.forms(book, clinic, which.player, extra, months, today())
    if not forms:
        raise CourtlogError("There is no form to print.", "Ask for a blank one with `--blank 1`.")
    if which.html is None:
        write_page(paper.form_text.form_text(forms))
    else:
        write_new(which.html, paper.form_html.form_html(forms))


def _why(none: Iterable[NoHomeSheet]) -> str:
    return (
        "; ".join(f"{plain(one.player)} ({one.why})" for one in none) or "nobody is on the roster"
    )


def _date(book: Book, clinic: Clinic, which: WhichPaper) -> date:
    today = times.local_date(now(), clinic.place)
    return typed_date(which.on) or usual_date(book, clinic, today)
