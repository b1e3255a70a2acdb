"""Whole books: `courtlog export|import|gather|views|backup|restore|doctor|erase`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from courtlog.cli import actions
from courtlog.cli.commands.command_line import CommandLine
from courtlog.cli.commands.options import (
    BookPath,
    ClinicName,
)

books_app = CommandLine()


@books_app.command("export")
def export_book(
    folder: Annotated[Path, typer.Argument(help="A new or empty folder.")],
    book: BookPath = None,
    clinic: Annotated[
        str | None, typer.Option("--clinic", metavar="<clinic>", help="One clinic only.")
    ] = None,
    with_minors: Annotated[
        bool, typer.Option("--with-minors", help="Minors too; without it they stay at home.")
    ] = False,
    anonymous: Annotated[
        bool, typer.Option("--anonymous", help="No names, courts, notes or other free text.")
    ] = False,
    parquet: Annotated[
        bool, typer.Option("--parquet", help="Parquet files as well (needs pyarrow).")
    ] = False,
) -> None:
    """Write the book as a folder of CSV files with a descriptor."""

    actions.exchange.send_out(folder, book, clinic, with_minors, anonymous, parquet)


@books_app.command("import")
def import_book(
    folder: Annotated[Path, typer.Argument(help="A folder that `courtlog export` wrote.")],
    book: BookPath = None,
) -> None:
    """Read an exported folder into a new book.

    With a mistake in it nothing is read in.
    """

    actions.exchange.take_back(folder, book)


@books_app.command("gather")
def gather_other(
    others: Annotated[list[Path] | None, typer.Argument(help="Books of other laptops.")] = None,
    same: Annotated[
        list[str] | None,
        typer.Option("--same", metavar="<name>", help="This name is one person in both books."),
    ] = None,
    apart: Annotated[
        list[str] | None, typer.Option("--apart", metavar="<name>", help="This name is two people.")
    ] = None,
    show: Annotated[
        bool, typer.Option("--show", help="List what the books said differently.")
    ] = False,
    decide: Annotated[
        list[int] | None,
        typer.Option(
            "--decide", metavar="<n>", help="In this line of the list, what stands is right."
        ),
    ] = None,
    yes: Annotated[
        bool, typer.Option("--yes", help="People whom another book erased go unasked.")
    ] = False,
    book: BookPath = None,
) -> None:
    """Join the books of other laptops into this one.

    The others stay as they are.
    """

    actions.gather.gather_books(
        book, others or [], same or [], apart or [], show, decide or [], yes
    )


@books_app.command()
def views() -> None:
    """List the views in the book, for questions of your own in SQL."""

    actions.exchange.list_views()


@books_app.command()
def backup(
    file: Annotated[
        Path | None, typer.Argument(help="A new file; without it, the usual place.")
    ] = None,
    book: BookPath = None,
) -> None:
    """Make a checked copy of the book now."""

    actions.backups.back_up(book, file)


@books_app.command()
def restore(
    file: Annotated[Path | None, typer.Argument(help="A backup, by its file or name.")] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Go on though the book holds more.")] = False,
    book: BookPath = None,
) -> None:
    """List the backups, or put one in the book's place.

    What it replaces is kept.
    """

    actions.backups.restore(book, file, yes)


@books_app.command()
def doctor(
    mend: Annotated[
        bool, typer.Option("--mend", help="Mend what can be worked out from the balls.")
    ] = False,
    book: BookPath = None,
) -> None:
    """Say what is wrong with the book, and what this laptop lacks.

    The exit code is 1 if something is wrong with the book.
    """

    actions.backups.examine(book, mend)


@books_app.command()
def erase(
    player: Annotated[str, typer.Argument(help="The player's whole name, or short name.")],
    book: BookPath = None,
    clinic: ClinicName = None,
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask for the name once more.")] = False,
    keep_counts: Annotated[
        bool, typer.Option("--keep-counts", help="Keep the grades, without whose they were.")
    ] = False,
    in_notes: Annotated[
        bool, typer.Option("--in-notes", help="Take the name out of notes about others too.")
    ] = False,
) -> None:
    """Remove a player for good, from the book and its backups."""

    actions.erase.erase_person(book, clinic, player, yes, keep_counts, in_notes)
