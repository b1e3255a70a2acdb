"""`courtlog takehome`: a player's sheet on the terminal, as HTML, or as a message for a parent."""

from __future__ import annotations

from pathlib import Path

from courtlog.cli.common import chosen_clinic, existing_book, library, write_new
from courtlog.cli.output import write_page
from courtlog.coaching.voice.statement import SENTENCE_ONLY, Depth
from courtlog.reports import takehome
from courtlog.reports.takehome.takehome_facts import TakeHome


def hand_over(
    path: Path | None,
    clinic: str | None,
    player: str,
    html: Path | None,
    depth: Depth = SENTENCE_ONLY,
) -> None:
    """Print the sheet as text, or write it to a new HTML file only its owner can read."""
    facts = _facts(path, clinic, player)
    if html is None:
        write_page(takehome.takehome_text.takehome_text(facts, depth))
        return
    write_new(html, takehome.takehome_html.takehome_html(facts))


def print_message(path: Path | None, clinic: str | None, player: str) -> None:
    """Print the few words that a coach may paste for a parent."""
    print(takehome.takehome_message.takehome_message(_facts(path, clinic, player)))


def _facts(path: Path | None, clinic: str | None, player: str) -> TakeHome:
    with existing_book(path) as book:
        return takehome.takehome_facts.take_home(
            book, chosen_clinic(book, clinic), player, library()
        )
