"""`courtlog history`, `courtlog history back` and `courtlog history forward`."""

from __future__ import annotations

from pathlib import Path

from courtlog import locations
from courtlog import settings as settings_file
from courtlog.cli.book_to_write import book_alone
from courtlog.cli.common import chosen_clinic, existing_book, now, typed_date
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.writes import past_steps
from courtlog.plain_text import plain
from courtlog.reports.pages.past_steps_text import step_line


def print_history(
    path: Path | None, clinic: str | None, on: str | None, player: str | None
) -> None:
    """Print every step, latest last."""
    with existing_book(path) as book:
        chosen = chosen_clinic(book, clinic)
        who = None if player is None else lookups.player_on_roster(book, chosen.id, player).id
        steps = past_steps.past_steps(book, chosen, typed_date(on), who)
    if not steps:
        print("No step was stored.")
    for step in steps:
        print(step_line(step, chosen.place))


def take_back(path: Path | None, number: int) -> None:
    """Take back the step of that number, and say so."""
    with book_alone(path) as book:
        past_steps.take_back_step(book, number, _who(book), now())
    print(plain(f"Step {number} is taken back."))


def put_forward(path: Path | None, number: int) -> None:
    """Put the step of that number forward again, and say so."""
    with book_alone(path) as book:
        past_steps.put_forward_step(book, number, _who(book), now())
    print(plain(f"Step {number} is in the book again."))


def _who(book: Book) -> str:
    """Who takes back: the laptop's coach, else the one of the day on court."""
    coach = settings_file.read(locations.settings()).coach
    mark = lookups.bookmark(book)
    return coach or (lookups.day(book, mark.day_id).coach if mark else "")
