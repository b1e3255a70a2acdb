"""`courtlog agree`: are balls rated alike twice; its subcommands take the second ratings."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from courtlog.cli import actions
from courtlog.cli.commands.command_line import CommandLine
from courtlog.cli.commands.options import (
    AsJson,
    BookPath,
    ClinicName,
    On,
    OnePlayer,
    keep_book,
)

agree_app = CommandLine(
    help="Compare balls that were rated twice: by two coaches, or by one.",
    invoke_without_command=True,
)

Rater = Annotated[
    str | None,
    typer.Option("--coach", metavar="<name>", help="Who rates, if not the coach of the settings."),
]

Blind = Annotated[
    bool, typer.Option("--blind", help="The clips of the latest page of `courtlog film blind`.")
]
PageCode = Annotated[
    str | None,
    typer.Option("--page", metavar="<letters>", help="Or of the page with these four letters."),
]


@agree_app.callback()
def agree(
    context: typer.Context,
    book: BookPath = None,
    clinic: ClinicName = None,
    as_json: AsJson = False,
) -> None:
    """Print how alike balls were rated twice, by stroke and cue."""
    keep_book(book)
    if context.invoked_subcommand is None:
        actions.agree.print_agreement(book, clinic, as_json)


@agree_app.command("rate")
def agree_rate(
    book: BookPath = None,
    clinic: ClinicName = None,
    date: On = None,
    player: OnePlayer = None,
    coach: Rater = None,
    anew: Annotated[
        bool, typer.Option("--anew", help="Rate all of them again, also those rated before.")
    ] = False,
    blind: Blind = False,
    page: PageCode = None,
) -> None:
    """Rate balls with a clip mark once more, or a blind page's clips.

    Their first grades are not shown.
    """

    if blind or page is not None:
        actions.film.blind_ratings.rate_blind(book, clinic, date, player, coach, page, anew)
    else:
        actions.agree.rate_again(book, clinic, date, player, coach, anew)


@agree_app.command("in")
def agree_in(
    file: Annotated[
        Path,
        typer.Argument(help="Lines like 09:31:07 Maren 212; --blind: 7 212.", readable=False),
    ],
    book: BookPath = None,
    clinic: ClinicName = None,
    date: On = None,
    player: OnePlayer = None,
    coach: Rater = None,
    blind: Blind = False,
    page: PageCode = None,
) -> None:
    """Read second ratings of a date, or of a blind page, from a text file.

    With a mistake in it none is read in.
    """

    if blind or page is not None:
        actions.film.blind_ratings.take_in_blind(file, book, clinic, date, player, coach, page)
    else:
        actions.agree.take_in(file, book, clinic, date, player, coach)
