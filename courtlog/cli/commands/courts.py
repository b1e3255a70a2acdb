"""One clinic on several courts: `courtlog courts`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from courtlog.cli import actions
from courtlog.cli.commands.command_line import CommandLine
from courtlog.cli.commands.options import BookPath, ClinicName, On
from courtlog.errors import CourtlogError

courts_app = CommandLine()


@courts_app.command("courts")
def courts(
    count: Annotated[
        int | None, typer.Argument(help="How many courts; without it, who is on which.")
    ] = None,
    folder: Annotated[
        Path | None,
        typer.Option("--in", metavar="<folder>", help="Where the books go: a folder, or a stick."),
    ] = None,
    deal: Annotated[
        str | None,
        typer.Option(
            "--deal",
            metavar="<name|hand|level>",
            help="By what; level makes courts equally strong.",
        ),
    ] = None,
    named: Annotated[
        list[str] | None,
        typer.Option(
            "--court", metavar="<court>=<players>", help="Who goes where, like 2=Maren,Tove."
        ),
    ] = None,
    mine: Annotated[
        str | None,
        typer.Option("--mine", metavar="<n>", help="Your own court, if not 1; 0 for none."),
    ] = None,
    show: Annotated[bool, typer.Option("--show", help="Show the dealing, write nothing.")] = False,
    stick: Annotated[
        Path | None,
        typer.Option(
            "--stick", metavar="<folder>", help="Where this court lays copies for the others."
        ),
    ] = None,
    free: Annotated[
        bool, typer.Option("--free", help="Head coach away: write everything in this book.")
    ] = False,
    date: On = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Deal the players to courts, and write a book for each.

    Without a number: who is on which court.
    """
    if sum((count is not None, stick is not None, free)) > 1:
        raise CourtlogError("A number of courts, --stick and --free go one at a time.")
    if count is not None:
        wish = actions.courts.dealing.DealingWish(
            clinic=clinic,
            on=date,
            by=deal,
            named=tuple(named or ()),
            mine=mine,
            folder=folder,
            show=show,
        )
        actions.courts.dealing.deal_courts(book, count, wish)
    elif stick is not None:
        actions.courts.own_court.set_stick(book, stick)
    elif free:
        actions.courts.own_court.set_free(book)
    else:
        actions.courts.own_court.show_courts(book, clinic, date)
