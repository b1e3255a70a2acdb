"""`courtlog day`, `courtlog trend` and `courtlog player`; each loads only what it prints."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from enum import Enum
from pathlib import Path

from courtlog.cli.common import chosen_clinic, existing_book, typed_date
from courtlog.values import jsonable


class Form(Enum):
    """How facts are written."""

    PAGE = "page"
    PLAIN = "plain"
    JSON = "json"

    @classmethod
    def wished(cls, as_json: bool, plain: bool) -> Form:
        """The form that two switches ask for; JSON goes first."""
        return cls.JSON if as_json else cls.PLAIN if plain else cls.PAGE


def print_day(
    path: Path | None, clinic: str | None, on: str | None, player: str | None, form: Form
) -> None:
    """Print a day as text or JSON."""
    from courtlog.reports.facts.day_facts import day_facts

    with existing_book(path) as book:
        facts = day_facts(book, chosen_clinic(book, clinic), typed_date(on), player)

        def page() -> str:
            from courtlog.reports.pages.day_text import day_text

            return day_text(facts)

        write(facts, page, form)


def print_trend(path: Path | None, clinic: str | None, player: str, form: Form) -> None:
    """Print a player's trend as text or JSON."""
    from courtlog.reports.facts.cue_facts import trend_facts

    with existing_book(path) as book:
        facts = trend_facts(book, chosen_clinic(book, clinic), player)

        def page() -> str:
            from courtlog.reports.pages.cue_table import trend_text

            return trend_text(facts)

        write(facts, page, form)


def print_player(path: Path | None, clinic: str | None, player: str, form: Form) -> None:
    """Print a player's answer as text or JSON."""
    from courtlog.reports.facts.day_facts import player_facts
    from courtlog.reports.pages.player_text import player_text

    with existing_book(path) as book:
        facts = player_facts(book, chosen_clinic(book, clinic), player)
        write(facts, lambda: player_text(facts), form)


def write(facts: object, page: Callable[[], str], form: Form) -> None:
    """The page, in letters alone if wished, or the facts as JSON.

    JSON is in ASCII: no character of a name reaches the terminal as a command.
    """
    if form is Form.JSON:
        text = json.dumps(jsonable(facts), ensure_ascii=True, indent=2) + "\n"
    elif form is Form.PLAIN:
        from courtlog.reports.layout.signs import in_letters

        text = in_letters(page())
    else:
        text = page()
    sys.stdout.write(text)
