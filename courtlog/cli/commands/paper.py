"""`courtlog paper`: sheets to print."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from courtlog.cli import actions
from courtlog.cli.commands.command_line import CommandLine
from courtlog.cli.commands.options import BookPath, ClinicName, On, OnePlayer
from courtlog.errors import CourtlogError

paper_app = CommandLine(invoke_without_command=True)

Html = Annotated[
    Path | None,
    typer.Option("--html", metavar="<file>", help="Write one HTML page to print to this new file."),
]
Spare = Annotated[
    int | None,
    typer.Option(
        "--spare",
        metavar="<n>",
        min=0,
        max=20,
        help="Spare rounds for each player, if not 1; half a page gets one more.",
    ),
]


@paper_app.callback()
def paper(
    context: typer.Context,
    date: On = None,
    player: OnePlayer = None,
    spare: Spare = None,
    html: Html = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Print sheets to write on, and cards to look at.

    Without a kind: today's court sheets, or tomorrow's once today was played.
    """
    context.obj = actions.paper.printing.WhichPaper(book, clinic, date, player, html, spare)
    if context.invoked_subcommand is None:
        actions.paper.printing.print_court(context.obj)


@paper_app.command()
def court(
    context: typer.Context,
    date: On = None,
    player: OnePlayer = None,
    spare: Spare = None,
    html: Html = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Print the rounds of each player, with boxes for every ball."""
    actions.paper.printing.print_court(_which(context, date, player, html, clinic, book, spare))


@paper_app.command()
def cues(
    context: typer.Context,
    date: On = None,
    player: OnePlayer = None,
    html: Html = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Print what made, near and missed look like, a card a stroke."""
    actions.paper.printing.print_cues(_which(context, date, player, html, clinic, book))


@paper_app.command()
def home(
    context: typer.Context,
    player: OnePlayer = None,
    html: Html = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Print the yardstick to fill in at home; no old grade stands on it."""
    actions.paper.printing.print_home(_which(context, None, player, html, clinic, book))


@paper_app.command()
def form(
    context: typer.Context,
    player: OnePlayer = None,
    blank: Annotated[
        int | None,
        typer.Option(
            "--blank", metavar="<n>", min=0, max=50, help="Forms without a name, for new players."
        ),
    ] = None,
    html: Html = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Print what is asked before the clinic, a page for each player.

    What is known stands there to be checked. A minor's contact never does.
    """
    which = _which(context, None, player, html, clinic, book)
    actions.paper.printing.print_forms(which, blank)


@paper_app.command("in")
def paper_in(
    context: typer.Context,
    code: Annotated[
        str, typer.Argument(help="The code at the top of the sheet, like K7D-3MX-2P4.")
    ],
    book: BookPath = None,
) -> None:
    """Type a filled-in sheet or form into the book, a key a box."""
    _refuse_unused(context)
    actions.paper.typing_in.type_sheet(code, book or context.obj.book)


def _which(
    context: typer.Context,
    date: str | None,
    player: str | None,
    html: Path | None,
    clinic: str | None,
    book: Path | None,
    spare: int | None = None,
) -> actions.paper.printing.WhichPaper:
    """The sheets named after the subcommand, else before it. Raises CourtlogError."""
    _refuse_unused(context)
    before: actions.paper.printing.WhichPaper = context.obj
    return actions.paper.printing.WhichPaper(
        book or before.book,
        clinic or before.clinic,
        date or before.on,
        player or before.player,
        html or before.html,
        before.spare if spare is None else spare,
    )


def _refuse_unused(context: typer.Context) -> None:
    """Refuse an option before the subcommand that the subcommand does not know."""
    paper = context.parent
    assert paper is not None
    known = {parameter.name for parameter in context.command.params}
    for parameter in paper.command.params:
        if paper.params.get(parameter.name or "") is not None and parameter.name not in known:
            name = f"courtlog paper {context.info_name}"
            raise CourtlogError(
                f"`{name}` does not use {parameter.opts[0]}.",
                f"Leave it out; `{name} --help` has its options.",
            )
