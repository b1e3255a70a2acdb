"""`courtlog takehome`: a player's sheet on the terminal, or as one HTML file."""

from __future__ import annotations

import sys
from pathlib import Path

from courtlog.cli.common import chosen_clinic, existing_book, library, write_new
from courtlog.reports import takehome


def hand_over(path: Path | None, clinic: str | None, player: str, html: Path | None) -> None:
    """Print the sheet as text, or write it to a new HTML file only its owner can read."""
    with existing_book(path) as book:
        facts = takehome.takehome_facts.take_home(
            book, chosen_clinic(book, clinic), player, library()
        )
        if html is None:
            sys.stdout.write(takehome.takehome_text.takehome_text(facts))
            return
        write_new(html, takehome.takehome_html.takehome_html(facts))
