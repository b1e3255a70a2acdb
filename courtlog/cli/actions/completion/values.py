"""What may stand for a value, by what the help calls it: `<player>`, or an argument's own name.

Names of the book, of drills and of settings load when they are asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from courtlog import manual
from courtlog.cli.actions import completion

FILES = frozenset({"file", "files", "books", "others"})
FOLDERS = frozenset({"folder"})

_VALUES: dict[str, Callable[[Mapping[str, str]], list[str]]] = {
    "player": lambda given: completion.book_names.players(given),
    "clinic": lambda given: completion.book_names.clinics(given),
    "date": lambda given: completion.book_names.dates(given),
    "court": lambda given: completion.book_names.courts(given),
    "drill": lambda _: completion.drill_names.drills(),
    "stroke": lambda _: completion.drill_names.strokes(),
    "cue": lambda _: completion.drill_names.cues(),
    "grade": lambda _: ["missed", "near", "made", "not-seen"],
    "purpose": lambda _: ["choosing", "yardstick", "practice", "hold", "transfer"],
    "setting": lambda _: completion.setting_names.settings(),
    "topic": lambda _: list(manual.TOPICS),
}


def values_of(kind: str, given: Mapping[str, str]) -> list[str]:
    """All that may stand there, with the options typed before. Raises CourtlogError, OSError."""
    if "|" in kind:
        return kind.split("|")
    return _VALUES[kind](given) if kind in _VALUES else []
