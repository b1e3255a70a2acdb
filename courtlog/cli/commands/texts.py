"""Drills and sheets, and the history: `courtlog drills|sheet|history`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from courtlog.cli import actions
from courtlog.cli.commands.command_line import CommandLine
from courtlog.cli.commands.options import (
    BookPath,
    ClinicName,
    On,
    OnePlayer,
    keep_book,
)

drills_app = CommandLine(help="The drill library: list, show, check.", no_args_is_help=True)
sheet_app = CommandLine(help="Clinics as plain text: in and out.", no_args_is_help=True)
history_app = CommandLine(invoke_without_command=True)


@drills_app.command("list")
def drills_list(
    stroke: Annotated[str | None, typer.Argument(help="One stroke only.")] = None,
) -> None:
    """List the drills by stroke and rung."""

    actions.drills.list_drills(stroke)


@drills_app.command("show")
def drills_show(
    drill: Annotated[str, typer.Argument(help="A drill's full name, like forehand/hand-feed.")],
) -> None:
    """Show one drill: how to set it up, what to look at, what to say."""

    actions.drills.show_drill(drill)


@drills_app.command("check")
def drills_check(
    folder: Annotated[
        Path | None, typer.Argument(help="A folder of drill files, if not your own.")
    ] = None,
) -> None:
    """Check every drill file and report every mistake.

    The exit code is 1 if there is one.
    """

    actions.drills.check_drills(folder)


@sheet_app.command("in")
def sheet_in(
    file: Annotated[Path, typer.Argument(help="The sheet.", readable=False)],
    book: BookPath = None,
    keep: Annotated[
        list[str] | None,
        typer.Option(
            "--keep",
            metavar="<book|sheet|both>",
            help="Whose balls to keep where they differ: book, sheet or both; 2=sheet for one"
            " round. The sheet's notes and check-ins come in all the same.",
        ),
    ] = None,
) -> None:
    """Read a sheet into the book.

    Its rounds join a day that the court has begun; what the book has already comes in once. With
    a mistake in it nothing is read in.
    """

    actions.sheets.read_in(file, book, keep or [])


@sheet_app.command("out")
def sheet_out(
    book: BookPath = None,
    clinic: ClinicName = None,
    date: On = None,
    to: Annotated[
        Path | None,
        typer.Option(
            "--to", metavar="<file>", help="Write to this new file instead of the terminal."
        ),
    ] = None,
) -> None:
    """Write a clinic, or one date of it, as a sheet."""

    actions.sheets.write_out(book, clinic, date, to)


@history_app.callback()
def history(
    context: typer.Context,
    book: BookPath = None,
    clinic: ClinicName = None,
    date: On = None,
    player: OnePlayer = None,
) -> None:
    """Print every step ever stored, latest last, each with its number."""
    keep_book(book)
    if context.invoked_subcommand is None:
        actions.history.print_history(book, clinic, date, player)


@history_app.command("back")
def history_back(
    number: Annotated[int, typer.Argument(help="The step's number in `courtlog history`.")],
    book: BookPath = None,
) -> None:
    """Take back one step, if no later one stands on it."""

    actions.history.take_back(book, number)


@history_app.command("forward")
def history_forward(
    number: Annotated[int, typer.Argument(help="The step's number in `courtlog history`.")],
    book: BookPath = None,
) -> None:
    """Put a step forward again that was taken back.

    A key at the court is pressed again there instead.
    """

    actions.history.put_forward(book, number)
