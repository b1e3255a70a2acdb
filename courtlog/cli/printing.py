"""`courtlog day`, `courtlog trend` and `courtlog player`; each loads only what it prints."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from pathlib import Path

from pydantic import BaseModel

from courtlog.cli.common import chosen_clinic, existing_book, typed_date


def print_day(
    path: Path | None, clinic: str | None, on: str | None, player: str | None, as_json: bool
) -> None:
    """Print a day as text or JSON."""
    from courtlog.reports.day_facts import day_facts

    with existing_book(path) as book:
        facts = day_facts(book, chosen_clinic(book, clinic), typed_date(on), player)

    def page() -> str:
        from courtlog.reports.day_text import day_text

        return day_text(facts)

    _write(facts, page, as_json)


def print_trend(path: Path | None, clinic: str | None, player: str, as_json: bool) -> None:
    """Print a player's trend as text or JSON."""
    from courtlog.reports.trend_facts import trend_facts

    with existing_book(path) as book:
        facts = trend_facts(book, chosen_clinic(book, clinic), player)

    def page() -> str:
        from courtlog.reports.trend_text import trend_text

        return trend_text(facts)

    _write(facts, page, as_json)


def print_player(path: Path | None, clinic: str | None, player: str, as_json: bool) -> None:
    """Print a player's answer as text or JSON."""
    from courtlog.reports.day_facts import player_facts
    from courtlog.reports.player_text import player_text

    with existing_book(path) as book:
        facts = player_facts(book, chosen_clinic(book, clinic), player)
    _write(facts, lambda: player_text(facts), as_json)


def _write(facts: BaseModel, page: Callable[[], str], as_json: bool) -> None:
    """The page, or the facts as JSON in ASCII: no name reaches the terminal as a command."""
    if as_json:
        text = json.dumps(facts.model_dump(mode="json"), ensure_ascii=True, indent=2) + "\n"
    else:
        text = page()
    sys.stdout.write(text)
