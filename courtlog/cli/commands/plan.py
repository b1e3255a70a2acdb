"""`courtlog plan`: the plan of a day, printed; its subcommands keep and change it."""

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
    Full,
    On,
    PlayerName,
)
from courtlog.cli.output import Form

plan_app = CommandLine(invoke_without_command=True)

Place = Annotated[int, typer.Argument(help="The round's number in the printed plan.")]
Stroke = Annotated[
    str | None,
    typer.Option(
        "--stroke", metavar="<stroke>", help="One stroke for all, if not each player's own."
    ),
]
Turns = Annotated[
    int | None,
    typer.Option(
        "--practice-rounds", metavar="<n>", min=1, max=20, help="Practice rounds for each player."
    ),
]
Courts = Annotated[
    int | None,
    typer.Option(
        "--courts", metavar="<n>", min=1, max=15, help="Deal the players to so many courts."
    ),
]
Drill = Annotated[
    str | None, typer.Option("--drill", metavar="<drill>", help="A drill like forehand/hand-feed.")
]
Purposed = Annotated[
    str | None,
    typer.Option(
        "--purpose", metavar="<purpose>", help="choosing, yardstick, practice, hold, transfer."
    ),
]
Balls = Annotated[int | None, typer.Option("--balls", metavar="<n>", help="Balls of the round.")]


@plan_app.callback()
def plan(
    context: typer.Context,
    book: BookPath = None,
    clinic: ClinicName = None,
    date: On = None,
    stroke: Stroke = None,
    turns: Turns = None,
    hours: Annotated[
        float | None,
        typer.Option("--hours", metavar="<n>", min=0.1, max=24, help="Hours the day has."),
    ] = None,
    courts: Courts = None,
    rounds: Annotated[
        bool, typer.Option("--rounds", help="Every round by number, in a table.")
    ] = False,
    why: Annotated[bool, typer.Option("--why", help="Add the reasons.")] = False,
    figures: Annotated[
        bool, typer.Option("--figures", help="Add the counts, and what the balls can tell.")
    ] = False,
    full: Full = False,
    as_json: AsJson = False,
    as_plain: AsPlain = False,
) -> None:
    """Print the plan of a day.

    It is today's, or tomorrow's once today was played.
    """
    context.obj = actions.plan.WhichPlan(book, clinic, date, courts)
    if context.invoked_subcommand is None:
        asked = actions.plan.request(stroke, turns, hours, courts)
        shown = actions.plan.PlanDepth(rounds or full, why or full, figures or full)
        actions.plan.print_plan(context.obj, asked, Form.wished(as_json, as_plain), shown)


def _which(
    context: typer.Context, clinic: str | None, date: str | None, book: Path | None
) -> actions.plan.WhichPlan:
    """The plan named after the subcommand, else before it."""
    before: actions.plan.WhichPlan = context.obj
    return actions.plan.WhichPlan(
        book or before.book, clinic or before.clinic, date or before.on, before.courts
    )


@plan_app.command()
def keep(
    context: typer.Context,
    stroke: Stroke = None,
    turns: Turns = None,
    courts: Courts = None,
    date: On = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Keep the proposal as the plan of the day.

    The court then goes by it.
    """

    which = _which(context, clinic, date, book)
    actions.plan.keep_proposal(which, stroke, turns, courts or which.courts)


@plan_app.command("set")
def set_round(
    context: typer.Context,
    place: Place,
    drill: Drill = None,
    purpose: Purposed = None,
    balls: Balls = None,
    date: On = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Change a round's drill, purpose or balls, and keep the plan."""

    actions.plan.change_round(_which(context, clinic, date, book), place, drill, purpose, balls)


@plan_app.command()
def move(
    context: typer.Context,
    place: Place,
    to: Annotated[int, typer.Argument(help="Its new number.")],
    date: On = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Move a round to another place, and keep the plan."""

    actions.plan.move_round(_which(context, clinic, date, book), place, to)


@plan_app.command()
def drop(
    context: typer.Context,
    place: Place,
    date: On = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Leave a round out, and keep the plan."""

    actions.plan.drop_round(_which(context, clinic, date, book), place)


@plan_app.command()
def add(
    context: typer.Context,
    player: PlayerName,
    drill: Drill = None,
    purpose: Purposed = None,
    balls: Balls = None,
    date: On = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Add a round at the end, and keep the plan."""

    actions.plan.add_round(_which(context, clinic, date, book), player, drill, purpose, balls)


@plan_app.command()
def forget(
    context: typer.Context,
    date: On = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Forget the kept plan: back to the proposal."""

    actions.plan.forget_plan(_which(context, clinic, date, book))
