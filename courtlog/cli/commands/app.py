"""Every command with its options. What it does is in `cli/actions`, and loads when it is called."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Annotated

import typer

from courtlog.cli import actions
from courtlog.cli.commands.agree import agree_app
from courtlog.cli.commands.command_line import CommandLine
from courtlog.cli.commands.options import (
    AsJson,
    AsPlain,
    BookPath,
    ClinicName,
    On,
    OnePlayer,
    PlayerName,
)
from courtlog.cli.commands.people import clinic_app, roster_app
from courtlog.cli.commands.plan import plan_app
from courtlog.cli.output import Form
from courtlog.errors import CourtlogError

app = CommandLine(
    name="courtlog",
    help="A court log for tennis coaches: every ball, every cue, every day.",
    no_args_is_help=False,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)
drills_app = CommandLine(help="The drill library: list, show, check.", no_args_is_help=True)
sheet_app = CommandLine(help="Clinics as plain text: in and out.", no_args_is_help=True)
history_app = CommandLine(invoke_without_command=True)
app.add_typer(clinic_app, name="clinic")
app.add_typer(roster_app, name="roster")
app.add_typer(drills_app, name="drills")
app.add_typer(history_app, name="history")
app.add_typer(sheet_app, name="sheet")
app.add_typer(plan_app, name="plan")
app.add_typer(agree_app, name="agree")


@app.callback(invoke_without_command=True)
def court(context: typer.Context, book: BookPath = None) -> None:
    """Open the court screen where the book was left."""
    if book is not None:
        os.environ["COURTLOG_BOOK"] = str(book)  # for every command after it
    if context.invoked_subcommand is None:
        from courtlog.cli.opening import open_court  # no other command needs it

        open_court(book)


@app.command()
def demo() -> None:
    """Open an invented clinic in a scratch book, mid-round."""

    actions.demo.run_demo()


@app.command()
def day(
    book: BookPath = None,
    clinic: ClinicName = None,
    date: On = None,
    player: OnePlayer = None,
    as_json: AsJson = False,
    as_plain: AsPlain = False,
) -> None:
    """Print the end of the day: what was made, by player and cue."""

    actions.pages.print_day(book, clinic, date, player, Form.wished(as_json, as_plain))


@app.command()
def trend(
    player: PlayerName,
    book: BookPath = None,
    clinic: ClinicName = None,
    as_json: AsJson = False,
    as_plain: AsPlain = False,
) -> None:
    """Print one player's cues across the clinic's days."""

    actions.pages.print_trend(book, clinic, player, Form.wished(as_json, as_plain))


@app.command()
def player(
    name: PlayerName,
    book: BookPath = None,
    clinic: ClinicName = None,
    as_json: AsJson = False,
    as_plain: AsPlain = False,
) -> None:
    """Print a player's answer: did it change, and how sure.

    Only balls of the same kind are compared.
    """

    actions.pages.print_player(book, clinic, name, Form.wished(as_json, as_plain))


@app.command()
def takehome(
    name: PlayerName,
    html: Annotated[
        Path | None, typer.Option("--html", help="Write one HTML page to this new file.")
    ] = None,
    text: Annotated[bool, typer.Option("--text", help="Print it as text: the default.")] = False,
    book: BookPath = None,
    clinic: ClinicName = None,
) -> None:
    """Print the sheet that a player takes home.

    It says what is good and what changed, and plans four weeks with the yardstick.
    """
    if html is not None and text:
        raise CourtlogError("The sheet is either text or HTML.", "Leave out --text or --html.")

    actions.takehome.hand_over(book, clinic, name, html)


@app.command()
def heat(
    temperature: Annotated[
        str, typer.Option("--temperature", help="Air in the shade: 31, 31C or 88F.")
    ] = "",
    humidity: Annotated[str, typer.Option("--humidity", help="Relative, 0 to 100.")] = "",
    wbgt: Annotated[str, typer.Option("--wbgt", help="Measured on court: 29.5 or 85F.")] = "",
    book: BookPath = None,
    clinic: ClinicName = None,
    date: On = None,
) -> None:
    """Keep a heat reading and print what it says.

    Without a reading it prints those of today.
    """

    actions.heat.keep_or_print(book, clinic, date, temperature, humidity, wbgt)


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
) -> None:
    """Read a sheet into the book.

    With a mistake in it nothing is read in.
    """

    actions.sheets.read_in(file, book)


@sheet_app.command("out")
def sheet_out(
    book: BookPath = None,
    clinic: ClinicName = None,
    date: On = None,
    to: Annotated[
        Path | None, typer.Option("--to", help="Write to this new file instead of the terminal.")
    ] = None,
) -> None:
    """Write a clinic, or one date of it, as a sheet."""

    actions.sheets.write_out(book, clinic, date, to)


@app.command("export")
def export_book(
    folder: Annotated[Path, typer.Argument(help="A new or empty folder.")],
    book: BookPath = None,
    clinic: Annotated[str | None, typer.Option("--clinic", help="One clinic only.")] = None,
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


@app.command("import")
def import_book(
    folder: Annotated[Path, typer.Argument(help="A folder that `courtlog export` wrote.")],
    book: BookPath = None,
) -> None:
    """Read an exported folder into a new book.

    With a mistake in it nothing is read in.
    """

    actions.exchange.take_back(folder, book)


@app.command("gather")
def gather_other(
    others: Annotated[list[Path] | None, typer.Argument(help="Books of other laptops.")] = None,
    same: Annotated[
        list[str] | None, typer.Option("--same", help="This name is one person in both books.")
    ] = None,
    apart: Annotated[
        list[str] | None, typer.Option("--apart", help="This name is two people.")
    ] = None,
    show: Annotated[
        bool, typer.Option("--show", help="List what the books said differently.")
    ] = False,
    decide: Annotated[
        list[int] | None,
        typer.Option("--decide", help="In this line of the list, what stands is right."),
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


@app.command()
def views() -> None:
    """List the views in the book, for questions of your own in SQL."""

    actions.exchange.list_views()


@history_app.callback()
def history(
    context: typer.Context,
    book: BookPath = None,
    clinic: ClinicName = None,
    date: On = None,
    player: OnePlayer = None,
) -> None:
    """Print every step ever stored, latest last, each with its number."""
    if book is not None:
        os.environ["COURTLOG_BOOK"] = str(book)  # for `back` after it
    if context.invoked_subcommand is None:
        actions.history.print_history(book, clinic, date, player)


@history_app.command("back")
def history_back(
    number: Annotated[int, typer.Argument(help="The step's number in `courtlog history`.")],
    book: BookPath = None,
) -> None:
    """Take back one step, if no later one stands on it."""

    actions.history.take_back(book, number)


@app.command()
def backup(
    file: Annotated[
        Path | None, typer.Argument(help="A new file; without it, the usual place.")
    ] = None,
    book: BookPath = None,
) -> None:
    """Make a checked copy of the book now."""

    actions.backups.back_up(book, file)


@app.command()
def restore(
    file: Annotated[Path | None, typer.Argument(help="A backup, by its file or name.")] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Go on though the book holds more.")] = False,
    book: BookPath = None,
) -> None:
    """List the backups, or put one in the book's place.

    What it replaces is kept.
    """

    actions.backups.restore(book, file, yes)


@app.command()
def doctor(
    mend: Annotated[
        bool, typer.Option("--mend", help="Mend what can be worked out from the balls.")
    ] = False,
    book: BookPath = None,
) -> None:
    """Check the book, and say what is wrong with it.

    The exit code is 1 if something is.
    """

    actions.backups.examine(book, mend)


@app.command()
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


@app.command()
def settings(
    name: Annotated[str | None, typer.Argument(help="A setting to change.")] = None,
    value: Annotated[str | None, typer.Argument(help="Its new value.")] = None,
) -> None:
    """Show the settings of this laptop, or change one."""

    actions.settings.show_or_change(name, value)


@app.command()
def version() -> None:
    """Print the version, and where your files lie.

    They are the book, the settings and your own drills.
    """
    actions.settings.print_version()
