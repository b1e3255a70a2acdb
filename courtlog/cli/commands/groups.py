"""Which command is for which part of a coach's work: the order of `--help` and of the manual."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeVar

GROUPS = {
    "At the court": ("demo", "heat"),
    "In the evening": ("day", "player", "trend", "evening", "takehome"),
    "People and plans": ("clinic", "roster", "plan", "drills"),
    "Film and paper": ("paper", "sheet", "film", "agree"),
    "The book": ("history", "backup", "restore", "doctor", "export", "import", "erase", "views"),
    "Many courts": ("courts", "gather", "academy"),
    "This laptop": ("manual", "settings", "version"),
}
"""Every command once, by when one needs it; in a group the one that is used most comes first."""

Command = TypeVar("Command")


def groups(commands: Mapping[str, Command]) -> Iterator[tuple[str, dict[str, Command]]]:
    """Each group's title, and its commands by name. Raises KeyError where there is no such one."""
    for title, names in GROUPS.items():
        yield title, {name: commands[name] for name in names}
