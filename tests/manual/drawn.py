"""What the program itself says of its keys, commands and settings, as parts of the manual."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, fields
from functools import cache
from pathlib import Path
from typing import Any, get_args, get_type_hints

import typer

from courtlog import manual
from courtlog.cli.commands.groups import GROUPS
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.plans.rotation import TurnOrder
from courtlog.courtside.commands.base import Command
from courtlog.courtside.commands.table import COMMANDS
from courtlog.courtside.desk.keymap import PADS
from courtlog.courtside.sound.sounds import IN_WORDS
from courtlog.settings import Settings, descriptions
from courtlog.values import LengthRule, NumberRule, TextRule
from tests.faults.test_table import every
from tests.faults.words import commands

PROGRAM = dict(commands())
"""Every command and group by its words."""

PAGES = Path(manual.__file__).parent

OPENS_THE_COURT = "demo"
"""Where courtlog stands that is typed alone: beside the command that opens the court too."""

OFTEN = 3
"""An option that so many commands have, in the same words, is explained once."""


def with_drawn_parts(name: str, page: str) -> str:
    """The page with what stands between its marks drawn again."""
    for mark, draw in DRAWN.get(name, {}).items():
        before, opening, rest = page.partition(f"<!-- {mark} -->\n")
        _, closing, after = rest.partition(f"<!-- /{mark} -->\n")
        assert opening
        assert closing
        page = f"{before}{opening}\n{draw()}\n{closing}{after}"
    return page


def pad_rows() -> str:
    """The table of the pads."""
    return _table(
        ["pad", "cue 1", "cue 2", "cue 3", "a fourth cue", "clean ball"],
        (
            [
                pad.title,
                *(" ".join(f"`{keys[grade]}`" for grade in Grade) for keys in pad.rows),
                ", ".join("Space" if key == "space" else f"`{key}`" for key in pad.clean),
            ]
            for pad in PADS.values()
        ),
    )


def key_rows() -> str:
    """The table of the court's commands."""
    return _table(
        ["key", "what it does"],
        ([", ".join(shown_keys(command)), command.help()] for command in COMMANDS),
    )


def shown_keys(command: type[Command]) -> list[str]:
    """A command's keys as a reader writes them."""
    first, *over_escape = command.all_shown()
    also = (key.upper() for key in command.keys if key in ("f1", "+", "#"))
    return [first, *(key for key in also if key != first), *over_escape]


def setting_rows() -> str:
    """The table of the settings."""
    said, types = descriptions(), get_type_hints(Settings, include_extras=True)
    return _table(
        ["setting", "values", "at first", "what it does"],
        (
            [
                f"`{field.name}`",
                _values(types[field.name]),
                _as_typed(field.default),
                said[field.name],
            ]
            for field in fields(Settings)
        ),
    )


def _values(annotated: Any) -> str:
    """What may be typed for a setting of this type."""
    kind, *rules = get_args(annotated)
    for rule in rules:
        match rule:
            case NumberRule():
                return f"{rule.least} to {rule.most}"
            case LengthRule():
                return f"up to {rule.most} keys"
            case TextRule():
                return f"up to {rule.longest} letters"
    words = ("true", "false") if kind is bool else get_args(kind)
    return ", ".join(f"`{word}`" for word in words)


def _as_typed(value: object) -> str:
    words = str(value).lower() if isinstance(value, bool) else str(value)
    return "nothing" if value in ((), "") else f"`{words}`"


def sounds() -> str:
    """What each sound says."""
    return "".join(f"- {words}.\n" for words in IN_WORDS.values())


def station_orders() -> str:
    """How players can go through the stations."""
    return "".join(f"- `{order}`: {order.meaning}.\n" for order in TurnOrder)


@dataclass(frozen=True)
class Line:
    """A command as typed, how it is used, its help, and what it takes: name and help of each."""

    words: str
    usage: str
    help: str
    takes: tuple[tuple[str, str], ...]


@cache
def command_lines() -> dict[tuple[str, ...], Line]:
    """Every command that does something by itself, by its words, in the order of the help."""
    return {words: _line(PROGRAM[words], words) for words in sorted(every(PROGRAM[()]), key=_place)}


def _place(words: tuple[str, ...]) -> tuple[int, ...]:
    ways = [name for names in GROUPS.values() for name in names]
    below = list(PROGRAM)
    return (ways.index(words[0]) if words else -1, below.index(words))


def _line(command: Any, words: tuple[str, ...]) -> Line:
    context = typer.Context(command, info_name=words[-1] if words else "courtlog")
    takes = command.takes(context)
    pieces = [
        piece
        for piece in command.collect_usage_pieces(context)
        if piece != "[OPTIONS]" and "COMMAND" not in piece
    ]
    return Line(
        " ".join(["courtlog", *words]),
        " ".join(["courtlog", *words, *pieces]),
        " ".join((command.help or "").split()),
        tuple(
            (name, " ".join(says.split()))
            for name, says in [*takes["Arguments"], *takes["Options"]]
            if name != "--help"
        ),
    )


def shared() -> dict[str, str]:
    """The options that many commands have in the same words."""
    told = Counter(taken for line in command_lines().values() for taken in line.takes)
    return {
        name: says
        for (name, says), count in told.items()
        if count >= OFTEN and name.startswith("--")
    }


def command_parts() -> str:
    """Every command in its group: how it is typed, what it does, what it takes."""
    parts = ["## Options of several commands", ""]
    parts += [f"- `{name}`: {says}" for name, says in shared().items()]
    for title, names in GROUPS.items():
        parts += ["", f"## {title}"]
        for words, line in command_lines().items():
            if (words or (OPENS_THE_COURT,))[0] in names:
                parts += _command_part(line)
    return "\n".join([*parts, ""])


def _command_part(line: Line) -> list[str]:
    part = ["", f"### {line.words}", ""]
    part += [f"    {line.usage}", ""] if line.usage != line.words else []
    part += [line.help]
    own = [f"- `{name}`: {says}" for name, says in line.takes if shared().get(name) != says]
    also = [f"`{name.split()[0]}`" for name, says in line.takes if shared().get(name) == says]
    part += ["", *own] if own else []
    part += ["", f"Also: {', '.join(also)}."] if also else []
    return part


DRAWN = {
    "keys": {"pads": pad_rows, "commands": key_rows},
    "screen": {"sounds": sounds},
    "roster": {"orders": station_orders},
    "settings": {"settings": setting_rows},
    "commands": {"commands": command_parts},
}
"""By page: each mark, and what stands between it."""


def _table(head: list[str], rows: Any) -> str:
    lines = [head, ["---"] * len(head), *rows]
    return "".join(f"| {' | '.join(cells)} |\n" for cells in lines)
