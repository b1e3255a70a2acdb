"""What is printed of a clinic: `courtlog day|evening|trend|player|takehome|heat`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from courtlog.cli import actions
from courtlog.cli.commands.command_line import CommandLine
from courtlog.cli.commands.options import (
    AsJson,
    AsPlain,
    BookPath,
    ClinicName,
    Figures,
    Full,
    On,
    OnePlayer,
    PlayerName,
    Why,
)
from courtlog.cli.output import Form, Shown
from courtlog.coaching.voice.statement import Depth
from courtlog.errors import CourtlogError

pages_app = CommandLine()


@pages_app.command()
def day(
    book: BookPath = None,
    clinic: ClinicName = None,
    date: On = None,
    player: OnePlayer = None,
    why: Why = False,
    figures: Figures = False,
    full: Full = False,
    as_json: AsJson = False,
    as_plain: AsPlain = False,
) -> None:
    """Print a day on one screen: the group, or one player.

    Per player: the good thing, the one thing to work on, what changed, what comes next.
    """

    form = Form.wished(as_json, as_plain)
    actions.pages.print_day(book, clinic, date, player, Shown(why, figures, full), form)


@pages_app.command()
def evening(
    folder: Annotated[Path, typer.Argument(help="A new or empty folder.")],
    book: BookPath = None,
    clinic: ClinicName = None,
    date: On = None,
) -> None:
    """Write all that is handed out in the evening, a file each.

    The day's page, each player's, and tomorrow's plan; on the last day sheets to take home.
    """

    actions.pages.write_evening(folder, book, clinic, date)


@pages_app.command()
def trend(
    player: PlayerName,
    book: BookPath = None,
    clinic: ClinicName = None,
    as_json: AsJson = False,
    as_plain: AsPlain = False,
) -> None:
    """Print one player's cues across the clinic's days."""

    actions.pages.print_trend(book, clinic, player, Form.wished(as_json, as_plain))


@pages_app.command()
def player(
    player: PlayerName,
    book: BookPath = None,
    clinic: ClinicName = None,
    why: Why = False,
    figures: Figures = False,
    charts: Annotated[
        bool, typer.Option("--charts", help="Draw each cue's skill curve below.")
    ] = False,
    full: Full = False,
    everything: Annotated[
        bool,
        typer.Option("--everything", help="What is held on the player, on one page to hand over."),
    ] = False,
    html: Annotated[
        Path | None,
        typer.Option("--html", metavar="<file>", help="With --everything: write a new HTML file."),
    ] = None,
    as_json: AsJson = False,
    as_plain: AsPlain = False,
) -> None:
    """Print a player's answer: did it change, and how sure.

    Only balls of the same kind are compared. `--everything` prints what the book holds on them,
    on one page; with `--full` the whole list follows.
    """
    if everything and (why or figures or charts):
        raise CourtlogError("Everything has one form.", "Leave out the options beside it.")
    if html is not None and (not everything or as_json or as_plain):
        raise CourtlogError("An HTML file is written of --everything alone.", "Add or leave out.")

    shown, form = Shown(why, figures, full, charts), Form.wished(as_json, as_plain)
    if everything:
        actions.pages.print_everything(book, clinic, player, html, form, full=full)
    else:
        actions.pages.print_player(book, clinic, player, shown, form)


@pages_app.command()
def takehome(
    player: PlayerName,
    html: Annotated[
        Path | None,
        typer.Option("--html", metavar="<file>", help="Write one HTML page to this new file."),
    ] = None,
    text: Annotated[bool, typer.Option("--text", help="Print it as text: the default.")] = False,
    message: Annotated[
        bool, typer.Option("--message", help="Print at most 40 words to paste for a parent.")
    ] = False,
    why: Why = False,
    figures: Annotated[
        bool, typer.Option("--figures", help="Print the back too: figures, weeks, table.")
    ] = False,
    book: BookPath = None,
    clinic: ClinicName = None,
) -> None:
    """Print the sheet that a player takes home.

    The front says what is good, what changed and what to do. The back has the figures, four weeks
    and the yardstick to fill in.
    """
    if html is not None and text:
        raise CourtlogError("The sheet is either text or HTML.", "Leave out --text or --html.")
    if message and (html is not None or text or why or figures):
        raise CourtlogError("A message has no other form.", "Leave out the options beside it.")

    if message:
        actions.takehome.print_message(book, clinic, player)
    else:
        actions.takehome.hand_over(book, clinic, player, html, Depth(why, figures))


@pages_app.command()
def heat(
    temperature: Annotated[
        str, typer.Option("--temperature", metavar="<n>", help="Air in the shade: 31, 31C or 88F.")
    ] = "",
    humidity: Annotated[
        str, typer.Option("--humidity", metavar="<n>", help="Relative, 0 to 100.")
    ] = "",
    wbgt: Annotated[
        str, typer.Option("--wbgt", metavar="<n>", help="Measured on court: 29.5 or 85F.")
    ] = "",
    book: BookPath = None,
    clinic: ClinicName = None,
    date: On = None,
) -> None:
    """Keep a heat reading and print what it says.

    Without a reading it prints those of today.
    """

    actions.heat.keep_or_print(book, clinic, date, temperature, humidity, wbgt)
