"""`courtlog academy`: many books in one folder, and the questions asked over all of them."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from courtlog.cli import actions
from courtlog.cli.commands.command_line import CommandLine

academy_app = CommandLine(help="Many books in one folder, and questions over all of them.")

InFolder = Annotated[Path, typer.Option("--in", help="The academy's folder.")]


@academy_app.command("add")
def academy_add(
    books: Annotated[list[Path], typer.Argument(help="Books of any laptops.")],
    folder: InFolder,
    with_minors: Annotated[
        bool, typer.Option("--with-minors", help="Minors too; without it they stay at home.")
    ] = False,
    with_names: Annotated[
        bool, typer.Option("--with-names", help="Names, courts, notes and other free text too.")
    ] = False,
) -> None:
    """Put the newest state of these books into the academy's folder.

    The books stay as they are. A state replaces the earlier one of its book.
    """

    actions.academy.add.add_books(books, folder, with_minors, with_names)
