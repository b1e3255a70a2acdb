"""`courtlog day`, `courtlog trend` and `courtlog player`; each loads only what it prints."""

from __future__ import annotations

import json
import sys
from pathlib import Path

from pydantic import BaseModel

from courtlog.cli.common import chosen_clinic, existing_book, typed_date


def as_json_text(facts: BaseModel) -> str:
    """The facts as JSON in ASCII: no character of a name can reach the terminal as a command."""
    return json.dumps(facts.model_dump(mode="json"), ensure_ascii=True, indent=2) + "\n"


def print_day(
    path: Path | None, clinic: str | None, on: str | None, player: str | None, as_json: bool
) -> None:
    """Print a day as text or JSON."""
    from courtlog.reports.day_facts import day_facts

    with existing_book(path) as book:
        facts = day_facts(book, chosen_clinic(book, clinic), typed_date(on), player)
    if as_json:
        text = as_json_text(facts)
    else:
        from courtlog.reports.day_text import day_text

        text = day_text(facts)
    sys.stdout.write(text)


def print_trend(path: Path | None, clinic: str | None, player: str, as_json: bool) -> None:
    """Print a player's trend as text or JSON."""
    from courtlog.reports.trend_facts import trend_facts

    with existing_book(path) as book:
        facts = trend_facts(book, chosen_clinic(book, clinic), player)
    if as_json:
        text = as_json_text(facts)
    else:
        from courtlog.reports.trend_text import trend_text

        text = trend_text(facts)
    sys.stdout.write(text)


def print_player(path: Path | None, clinic: str | None, player: str, as_json: bool) -> None:
    """Print a player's answer as text or JSON."""
    from courtlog.reports.day_facts import player_facts

    with existing_book(path) as book:
        facts = player_facts(book, chosen_clinic(book, clinic), player)
    if as_json:
        text = as_json_text(facts)
    else:
        from courtlog.reports.player_text import player_text

        text = player_text(facts)
    sys.stdout.write(text)
