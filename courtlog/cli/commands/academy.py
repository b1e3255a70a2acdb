"""`courtlog academy`: many books in one folder, and the questions asked over all of them."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from courtlog.academy.engine_name import EngineName
from courtlog.cli import actions
from courtlog.cli.commands.command_line import CommandLine
from courtlog.cli.commands.options import AsJson, Figures, Full, Why

academy_app = CommandLine(help="Many books in one folder, and questions over all of them.")

InFolder = Annotated[Path, typer.Option("--in", metavar="<folder>", help="The academy's folder.")]


AnEngine = Annotated[
    EngineName,
    typer.Option("--engine", metavar=f"<{'|'.join(EngineName)}>", help="Which engine answers."),
]
Master = Annotated[
    str | None,
    typer.Option(
        "--master", metavar="<address>", help="Spark's cluster; without it, this machine."
    ),
]


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


@academy_app.command("season")
def academy_season(
    folder: InFolder,
    engine: AnEngine = EngineName.DUCKDB,
    master: Master = None,
    clinic: Annotated[
        str | None, typer.Option("--clinic", metavar="<clinic>", help="One clinic, by name.")
    ] = None,
    why: Why = False,
    figures: Figures = False,
    full: Full = False,
    as_json: AsJson = False,
) -> None:
    """Say what changed in the season, over all books of the folder."""

    actions.academy.season.print_season(folder, engine, master, clinic, why, figures, full, as_json)


@academy_app.command("ask")
def academy_ask(
    question: Annotated[str, typer.Argument(help="A file of SQL, or a question by its name.")],
    folder: InFolder,
    beside: Annotated[
        list[Path] | None,
        typer.Option("--from", metavar="<folder>", help="A folder of your own questions."),
    ] = None,
    engine: AnEngine = EngineName.DUCKDB,
    master: Master = None,
    as_json: AsJson = False,
) -> None:
    """Ask the folder a question in SQL: its rows, as in a CSV file."""

    actions.academy.ask.ask(folder, question, beside or [], engine, master, as_json)


@academy_app.command("questions")
def academy_questions() -> None:
    """List the questions that come with courtlog."""

    actions.academy.ask.list_questions()
