"""`courtlog takehome`: a player's sheet on the terminal, or as one HTML file."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from courtlog.cli.common import chosen_clinic, existing_book, library
from courtlog.errors import CourtlogError
from courtlog.reports.takehome import take_home


def hand_over(path: Path | None, clinic: str | None, player: str, html: Path | None) -> None:
    """Print the sheet as text, or write it to a new HTML file only its owner can read."""
    with existing_book(path) as book:
        facts = take_home(book, chosen_clinic(book, clinic), player, library())
    if html is None:
        from courtlog.reports.takehome_text import takehome_text

        sys.stdout.write(takehome_text(facts))
        return
    from courtlog.reports.takehome_html import takehome_html

    _write_new(html, takehome_html(facts))


def _write_new(path: Path, text: str) -> None:
    try:
        number = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(number, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except OSError as error:
        raise CourtlogError(
            f"The sheet {path} cannot be written ({error.strerror}).", "Name another file."
        ) from error
