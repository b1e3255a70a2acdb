"""What `courtlog film` does."""

from __future__ import annotations

from pathlib import Path

from courtlog.cli.common import chosen_clinic, existing_book
from courtlog.cli.output import Form, write
from courtlog.reports.facts.film_facts import film_list
from courtlog.reports.pages.film_text import film_text


def print_films(path: Path | None, clinic: str | None, as_json: bool) -> None:
    """Print the clinic's films, as text or JSON."""
    with existing_book(path) as book:
        facts = film_list(book, chosen_clinic(book, clinic))
    write(facts, lambda: film_text(facts), Form.JSON if as_json else Form.PAGE)
