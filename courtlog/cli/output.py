"""Facts on standard output: as a page, in letters alone, or as JSON."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from courtlog.cli.streams import SafeStream
from courtlog.reports import layout
from courtlog.reports.layout.paper_pages import PAGE_BREAK
from courtlog.values import jsonable


class Form(Enum):
    """How facts are written."""

    PAGE = "page"
    PLAIN = "plain"
    JSON = "json"

    @classmethod
    def wished(cls, as_json: bool, plain: bool) -> Form:
        """The form that two switches ask for; JSON wins."""
        return cls.JSON if as_json else cls.PLAIN if plain else cls.PAGE


@dataclass(frozen=True, slots=True)
class Shown:
    """How much of a page is printed."""

    why: bool = False
    """Each sentence with its reason."""
    figures: bool = False
    """Each sentence with its counts and interval."""
    full: bool = False
    """All there is."""
    charts: bool = False
    """Skill curves too."""


def write(facts: object, page: Callable[[], str], form: Form) -> None:
    """Write the page, in letters alone if wished, or the facts as JSON.

    JSON is ASCII, so that no name can send the terminal a command.
    """
    if form is Form.JSON:
        sys.stdout.write(json.dumps(jsonable(facts), ensure_ascii=True, indent=2) + "\n")
    else:
        write_page(layout.signs.in_letters(page()) if form is Form.PLAIN else page())


def write_page(text: str) -> None:
    """Write a page; one that is longer than the terminal goes through the reader's pager."""
    if sys.stdout.isatty():
        from courtlog.cli import pager  # a pipe does not wait for what starts programs

        on_screen = text.replace(PAGE_BREAK, "\n")
        command = pager.pager_for(on_screen)
        if command and pager.page_through(command, on_screen):
            return
    for number, page in enumerate(text.split(PAGE_BREAK)):
        if number:
            _begin_page()
        sys.stdout.write(page)


def _begin_page() -> None:
    """Begin a sheet of paper where the text goes to a printer or a file; else leave a line free."""
    if isinstance(sys.stdout, SafeStream) and not sys.stdout.isatty():
        sys.stdout.begin_page()
    else:
        sys.stdout.write("\n")
