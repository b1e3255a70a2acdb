"""`courtlog day`, `courtlog trend` and `courtlog player`; each loads only what it prints."""

from __future__ import annotations

from pathlib import Path

from courtlog.cli.common import chosen_clinic, existing_book, typed_date
from courtlog.cli.output import Form, write
from courtlog.reports import facts, pages


def print_day(
    path: Path | None, clinic: str | None, on: str | None, player: str | None, form: Form
) -> None:
    """Print a day as text or JSON."""
    with existing_book(path) as book:
        result = facts.day_facts.day_facts(
            book, chosen_clinic(book, clinic), typed_date(on), player
        )

        write(result, lambda: pages.day_text.day_text(result), form)


def print_trend(path: Path | None, clinic: str | None, player: str, form: Form) -> None:
    """Print a player's trend as text or JSON."""
    with existing_book(path) as book:
        result = facts.cue_facts.trend_facts(book, chosen_clinic(book, clinic), player)

        write(result, lambda: pages.cue_table.trend_text(result), form)


def print_player(path: Path | None, clinic: str | None, player: str, form: Form) -> None:
    """Print a player's answer as text or JSON."""
    with existing_book(path) as book:
        result = facts.day_facts.player_facts(book, chosen_clinic(book, clinic), player)
        write(result, lambda: pages.player_text.player_text(result), form)
