"""Drill files (TOML) in: the shipped ladders, and the coach's own laid over them.

A mistake is a value (a Problem with file and line or key path) and never an exception. So
`courtlog drills check` can report all of them at once.
"""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path

from courtlog import given_files
from courtlog.coaching.game.drills import Drill, Ladder, SwingPart
from courtlog.errors import LibraryError, NotAFileError, Problem, UnknownNameError
from courtlog.values import WrongValueError, take

_MOST_BYTES = 1_000_000
"""Most bytes of a drill file; the longest shipped one holds a hundredth."""

_FIELDS = {"cue": "cues", "drill": "drills"}
"""What the file's [[tables]] are called once they are read."""

_TABLES = {field: table for table, field in _FIELDS.items()}

_TOML_LINE = re.compile(r"\(at line (\d+), column \d+\)")


@dataclass(frozen=True, slots=True)
class Library:
    """Every ladder by stroke; a drill is named `stroke/key` as the sheet writes it."""

    ladders: dict[str, Ladder] = field(default_factory=dict)

    def ladder(self, stroke: str) -> Ladder:
        """The ladder of a stroke. Raises UnknownNameError."""
        try:
            return self.ladders[stroke]
        except KeyError:
            known = ", ".join(sorted(self.ladders))
            raise UnknownNameError(
                f"There is no stroke called {stroke!r}.", f"Known strokes: {known}."
            ) from None

    def drill(self, name: str) -> tuple[Ladder, Drill]:
        """A drill by its full name, `stroke/key`. Raises UnknownNameError."""
        stroke, _, key = name.partition("/")
        ladder = self.ladder(stroke)
        drill = ladder.drill(key)
        if drill is None:
            raise UnknownNameError(
                f"There is no drill called {name!r}.",
                f"`courtlog drills list {stroke}` names them.",
            )
        return ladder, drill

    def names(self) -> list[str]:
        """Full names of all drills, strokes in order and rungs upwards."""
        return [
            f"{stroke}/{drill.key}"
            for stroke, ladder in sorted(self.ladders.items())
            for drill in ladder.in_rung_order()
        ]


def read_folders(folders: Iterable[Path]) -> tuple[Library, list[Problem]]:
    """All ladders of these folders; a later folder adds to and overrides an earlier one."""
    ladders: dict[str, Ladder] = {}
    origin: dict[str, Path] = {}
    problems: list[Problem] = []
    for folder in dict.fromkeys(folder.resolve() for folder in folders):
        for file in sorted(folder.glob("*.toml")):
            ladder, mistakes = read_file(file)
            problems += mistakes
            if ladder is None:
                continue
            earlier = ladders.get(ladder.stroke)
            if earlier is not None and origin[ladder.stroke].parent == file.parent:
                other = origin[ladder.stroke].name
                problems.append(
                    Problem(str(file), "stroke", f"{ladder.stroke!r} is also in {other}.")
                )
                continue
            problems += _doubled_keys(str(file), ladder)
            merged = ladder if earlier is None else _laid_over(ladder, earlier)
            problems += _ladder_problems(str(file), merged)
            ladders[ladder.stroke] = merged
            origin[ladder.stroke] = file
    return Library(ladders), problems


def load(folders: Iterable[Path]) -> Library:
    """The library, or a LibraryError that carries every mistake found."""
    library, problems = read_folders(folders)
    if problems:
        raise LibraryError(
            f"The drill files have {len(problems)} mistake{'s' * (len(problems) > 1)}.",
            problems,
            "Mend them, or see `courtlog drills check`.",
        )
    return library


def read_file(file: Path) -> tuple[Ladder | None, list[Problem]]:
    """One drill file as a ladder, or None with the reasons."""
    try:
        text = given_files.read_ordinary(file, "drill file", _MOST_BYTES).decode("utf-8-sig")
    except NotAFileError as error:
        return None, [Problem(str(file), "", error.happened)]
    except (OSError, UnicodeDecodeError) as error:
        return None, [Problem(str(file), "", f"it cannot be read as UTF-8 text ({error}).")]
    try:
        table = tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        return None, [_toml_problem(file, text, error)]
    table = {_FIELDS.get(key, key): value for key, value in table.items()}
    try:
        return take(Ladder, table), []
    except WrongValueError as error:
        return None, [
            Problem(str(file), _key_path(path, table), f"{sentence}.")
            for path, sentence in error.faults
        ]


def _toml_problem(file: Path, text: str, error: Exception) -> Problem:
    place = _TOML_LINE.search(str(error))
    line = place.group(1) if place else str(text.count("\n") + 1)
    reason = _TOML_LINE.sub("", str(error)).strip().removesuffix("(at end of document)").strip()
    return Problem(str(file), line, f"not valid TOML: {reason}.")


def _key_path(loc: tuple[int | str, ...], table: dict[str, object]) -> str:
    """`drill "hand-feed".balls` reads better than `drills.3.balls`."""
    path = ""
    node: object = table
    for step in loc:
        if isinstance(step, int):
            node = node[step] if isinstance(node, list) and step < len(node) else None
            key = node.get("key") if isinstance(node, dict) else None
            path += f' "{key}"' if isinstance(key, str) else f"[{step + 1}]"
        else:
            node = node.get(step) if isinstance(node, dict) else None
            path += f".{step}" if path else _TABLES.get(step, step)
    return path


def _laid_over(own: Ladder, shipped: Ladder) -> Ladder:
    """The shipped ladder with the coach's own drills: one of a known key replaces, others join."""
    cues = {cue.key: cue for cue in shipped.cues} | {cue.key: cue for cue in own.cues}
    in_stroke_order = sorted(cues.values(), key=lambda cue: list(SwingPart).index(cue.part))
    drills = {drill.key: drill for drill in shipped.drills}
    drills |= {drill.key: drill for drill in own.drills}
    return replace(own, cues=tuple(in_stroke_order), drills=tuple(drills.values()))


def _doubled_keys(file: str, ladder: Ladder) -> Iterator[Problem]:
    for kind, keys in (
        ("cue", [cue.key for cue in ladder.cues]),
        ("drill", [drill.key for drill in ladder.drills]),
    ):
        for key, times in Counter(keys).items():
            if times > 1:
                yield Problem(file, f'{kind} "{key}"', f"this key is used {times} times.")


def _ladder_problems(file: str, ladder: Ladder) -> Iterator[Problem]:
    for key in ladder.first_cues:
        if ladder.cue(key) is None:
            yield Problem(file, "first_cues", f"there is no cue called {key!r}.")
    rungs = {drill.rung for drill in ladder.drills}
    for rung in range(1, ladder.top):
        if rung not in rungs:
            yield Problem(file, "drill", f"rung {rung} is missing: rungs run 1 to {ladder.top}.")
    for drill in ladder.drills:
        if drill.tough > drill.most_tough:
            yield Problem(
                file,
                f'drill "{drill.key}".tough',
                f"at most half of the balls can be planned tough, here {drill.most_tough}.",
            )
        if drill.spot_words and len(drill.spot_words) != len(drill.spots):
            yield Problem(
                file,
                f'drill "{drill.key}".spot_words',
                f"there is one word for each of the spots, here {len(drill.spots)}.",
            )
    parts = [cue.part for cue in ladder.cues]
    if parts != sorted(parts, key=list(SwingPart).index):
        yield Problem(file, "cue", "cues must stand in stroke order: preparation, contact, finish.")
