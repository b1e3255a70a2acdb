"""`courtlog history` and `courtlog history back`."""

from __future__ import annotations

from pathlib import Path

from courtlog import locations
from courtlog import settings as settings_file
from courtlog.cli.book_to_write import book_alone
from courtlog.cli.common import chosen_clinic, existing_book, now, typed_date
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
        mark = lookups.bookmark(book)
        coach = settings_file.read(locations.settings()).coach
        who = coach or (lookups.day(book, mark.day_id).coach if mark else "")
        past_steps.take_back_step(book, number, who, now())
    print(plain(f"Step {number} is taken back."))
