"""Options that several commands share."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Annotated

import typer

BookPath = Annotated[
    Path | None,
    typer.Option("--book", metavar="<file>", help="The book's file, if not the usual one."),
]
ClinicName = Annotated[
    str | None,
    typer.Option("--clinic", metavar="<clinic>", help="A clinic by name, if not the latest one."),
]
PlayerName = Annotated[str, typer.Argument(help="The player's name or its beginning.")]
OnePlayer = Annotated[
    str | None,
    typer.Option("--player", metavar="<player>", help="One player, by name or its beginning."),
]
On = Annotated[str | None, typer.Option("--date", metavar="<date>", help="A date like 2026-05-12.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print the facts as JSON.")]
AsPlain = Annotated[
    bool, typer.Option("--plain", help="Print letters alone, no bars and lines of a chart.")
]
Why = Annotated[bool, typer.Option("--why", help="Add to each sentence its reason.")]
Figures = Annotated[
    bool, typer.Option("--figures", help="Add to each sentence its counts and interval.")
]
Full = Annotated[bool, typer.Option("--full", help="Print all there is, however long.")]


def keep_book(book: Path | None) -> None:
    """Use the book that was named in every command after this one."""
    if book is not None:
        os.environ["COURTLOG_BOOK"] = str(book)
