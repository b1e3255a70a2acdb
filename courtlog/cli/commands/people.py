"""`courtlog clinic` and `courtlog roster`: a clinic and its players, set up without the screen."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from courtlog.cli import actions
from courtlog.cli.commands.command_line import CommandLine
from courtlog.cli.commands.options import BookPath, ClinicName

clinic_app = CommandLine(help="A clinic: begin one, show it, change it.", no_args_is_help=True)
roster_app = CommandLine(help="A clinic's players: add, edit, list, import.", no_args_is_help=True)

Text = str | None

Name = Annotated[str, typer.Argument(help="The name, in any letters.")]
Who = Annotated[str, typer.Argument(help="The player's name or short name, or its beginning.")]
Zone = Annotated[
    Text, typer.Option("--zone", metavar="<zone>", help="A time zone like Europe/Lisbon or UTC.")
]
Days = Annotated[Text, typer.Option("--days", metavar="<n>", help="How many days are planned.")]
Hand = Annotated[
    Text, typer.Option("--hand", metavar="<right|left>", help="The hand that holds the racquet.")
]
Backhand = Annotated[
    Text,
    typer.Option("--backhand", metavar="<one-handed|two-handed>", help="How many hands on it."),
]
Short = Annotated[Text, typer.Option("--short", metavar="<name>", help="A short name for lists.")]
Level = Annotated[
    Text, typer.Option("--level", metavar="<words>", help="The level, in your own words.")
]
Goal = Annotated[Text, typer.Option("--goal", metavar="<words>", help="What the player comes for.")]
Week = Annotated[
    Text,
    typer.Option(
        "--usual-week", metavar="<words>", help="Hours or balls a week before the clinic."
    ),
]
Complaints = Annotated[
    Text, typer.Option("--complaints", metavar="<words>", help="Old complaints; private.")
]
Limit = Annotated[Text, typer.Option("--limit", metavar="<n>", help="Balls a day at most.")]
Minor = Annotated[bool | None, typer.Option("--minor/--adult", help="A minor, or an adult.")]
Contact = Annotated[
    Text, typer.Option("--contact", metavar="<words>", help="Emergency contact; private.")
]
Filming = Annotated[
    Text,
    typer.Option("--filming", metavar="<asked|yes|no>", help="Whether filming is agreed."),
]
FilmingOn = Annotated[
    Text, typer.Option("--filming-on", metavar="<date>", help="The date of that word; else today.")
]
FilmingBy = Annotated[
    Text,
    typer.Option("--filming-by", metavar="<name>", help="Who said so; for a minor a guardian."),
]


@clinic_app.command("new")
def clinic_new(
    name: Name,
    zone: Zone = None,
    days: Days = None,
    court: Annotated[
        Text, typer.Option("--court", metavar="<court>", help="The court of the first day.")
    ] = None,
    coach: Annotated[
        Text, typer.Option("--coach", metavar="<name>", help="Your name, if not the usual one.")
    ] = None,
    book: BookPath = None,
) -> None:
    """Begin a clinic.

    Its first day is the one on which `courtlog` opens it.
    """

    actions.clinics.begin(book, name, zone, days, court, coach)


@clinic_app.command("show")
def clinic_show(clinic: ClinicName = None, book: BookPath = None) -> None:
    """Show a clinic: its days, stations, rotations and heat lines."""

    actions.clinics.show(book, clinic)


@clinic_app.command("edit")
def clinic_edit(
    name: Annotated[Text, typer.Option("--name", metavar="<name>", help="Another name.")] = None,
    zone: Zone = None,
    days: Days = None,
    stations: Annotated[
        Text, typer.Option("--stations", metavar="<names>", help="Names with commas.")
    ] = None,
    order: Annotated[
        Text,
        typer.Option("--order", metavar="<cyclic|williams|pairs>", help="The order of rotations."),
    ] = None,
    turn: Annotated[
        Text, typer.Option("--rotation-minutes", metavar="<n>", help="Length of a rotation.")
    ] = None,
    rest: Annotated[
        Text, typer.Option("--rest-minutes", metavar="<n>", help="Minutes between rests.")
    ] = None,
    modify: Annotated[
        Text,
        typer.Option(
            "--wbgt-modify", metavar="<n>", help="Your rule's WBGT (°C) to change play at."
        ),
    ] = None,
    stop: Annotated[
        Text,
        typer.Option("--wbgt-stop", metavar="<n>", help="Your rule's WBGT (°C) to stop play at."),
    ] = None,
    rule: Annotated[
        Text, typer.Option("--wbgt-rule", metavar="<words>", help="Whose rule that is.")
    ] = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Change a clinic.

    An empty value ("") takes away what was there.
    """

    how = {
        "stations": stations,
        "order": order,
        "turn_minutes": turn,
        "rest_minutes": rest,
        "wbgt_modify": modify,
        "wbgt_stop": stop,
        "wbgt_rule": rule,
    }
    given = {key: value for key, value in how.items() if value is not None}
    actions.clinics.edit(book, clinic, name, zone, days, given)


@roster_app.command("add")
def roster_add(
    name: Name,
    short: Short = None,
    hand: Hand = None,
    backhand: Backhand = None,
    level: Level = None,
    goal: Goal = None,
    usual_week: Week = None,
    complaints: Complaints = None,
    limit: Limit = None,
    minor: Minor = None,
    contact: Contact = None,
    filming: Filming = None,
    filming_on: FilmingOn = None,
    filming_by: FilmingBy = None,
    another: Annotated[
        bool, typer.Option("--another", help="Another person of a name that is there already.")
    ] = False,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Add a player to the end of the roster."""

    card = _typed(
        name,
        short,
        hand,
        backhand,
        level,
        goal,
        usual_week,
        complaints,
        limit,
        minor,
        contact,
        filming,
        filming_on,
        filming_by,
    )
    actions.rosters.add(book, clinic, card, another)


@roster_app.command("edit")
def roster_edit(
    player: Who,
    name: Annotated[Text, typer.Option("--name", metavar="<name>", help="Another name.")] = None,
    short: Short = None,
    hand: Hand = None,
    backhand: Backhand = None,
    level: Level = None,
    goal: Goal = None,
    usual_week: Week = None,
    complaints: Complaints = None,
    limit: Limit = None,
    minor: Minor = None,
    contact: Contact = None,
    filming: Filming = None,
    filming_on: FilmingOn = None,
    filming_by: FilmingBy = None,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Change a player's card.

    An empty value ("") takes away what was there.
    """

    card = _typed(
        name,
        short,
        hand,
        backhand,
        level,
        goal,
        usual_week,
        complaints,
        limit,
        minor,
        contact,
        filming,
        filming_on,
        filming_by,
    )
    actions.rosters.edit(book, clinic, player, card)


@roster_app.command("list")
def roster_list(
    player: Annotated[Text, typer.Argument(help="One player: the whole card.")] = None,
    cards: Annotated[
        bool, typer.Option("--cards", help="Everyone's whole card, contacts too.")
    ] = False,
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """List the players and what is still to be asked."""

    actions.rosters.print_roster(book, clinic, player, cards)


@roster_app.command("import")
def roster_import(
    file: Annotated[Path, typer.Argument(help="A CSV file in UTF-8.", readable=False)],
    clinic: ClinicName = None,
    book: BookPath = None,
) -> None:
    """Add the players of a CSV file; with a mistake in it, nobody.

    Its first line names the columns, in any order: name, short, hand, backhand, level, goal, usual
    week, complaints, limit, age, contact. Three more are filming, filming on and filming by. A hand
    is right or left, a backhand one-handed or two-handed, an age adult or minor, filming asked, yes
    or no. Only name is needed.
    """

    actions.rosters.bring_in(book, clinic, file)


def _typed(
    name: Text,
    short: Text,
    hand: Text,
    backhand: Text,
    level: Text,
    goal: Text,
    usual_week: Text,
    complaints: Text,
    limit: Text,
    minor: bool | None,
    contact: Text,
    filming: Text,
    filming_on: Text,
    filming_by: Text,
) -> dict[str, str]:
    """The options that were given, by the keys of the card."""
    values = {
        "name": name,
        "short": short,
        "hand": hand,
        "backhand": backhand,
        "level": level,
        "goal": goal,
        "usual_week": usual_week,
        "complaints": complaints,
        "limit": limit,
        "age": None if minor is None else "minor" if minor else "adult",
        "contact": contact,
        "filming": filming,
        "filming_on": filming_on,
        "filming_by": filming_by,
    }
    return {key: value for key, value in values.items() if value is not None}
