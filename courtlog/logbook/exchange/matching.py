"""Which rows of two books mean the same thing: the lowest id replaces the others."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from courtlog.logbook.rows.matched_ids import Matching
from courtlog.logbook.schema.row_versions import RowHistories, RowHistory, as_json, version_columns
from courtlog.logbook.schema.tables import Table
from courtlog.names import folded_name


@dataclass(frozen=True, slots=True)
class Question:
    """Two clinics or players of one name: are they the same?"""

    table: str
    name: str
    here: str
    there: str


Ask = Callable[[Question], bool]


def with_kept_ids(
    histories: RowHistories, every: Sequence[Table], matching: Matching
) -> RowHistories:
    """Every row under the ids that stand; rows that come to lie on one another are joined."""
    if not matching.stands_for:
        return histories
    found: RowHistories = {}
    places = {table.name: id_places(table, matching) for table in every}
    for (name, key), history in histories.items():
        in_key, in_row = places.get(name, ([], []))
        key = with_ids(key, in_key, matching)
        if in_row:
            history = RowHistory(
                {(revision, with_ids(row, in_row, matching)) for revision, row in history.current},
                {(revision, with_ids(row, in_row, matching)) for revision, row in history.former},
            ).without_outdated()
        if name == "amended" and "drill_used" in matching.stands_for:
            history = RowHistory(
                {(revision, _drill(row, matching)) for revision, row in history.current}
            )
        known = found.get((name, key))
        found[name, key] = history if known is None else known.joined_with(history)
    return found


def _drill(text: str, matching: Matching) -> str:
    """What was put right about a round's drill names two drills in its last two values."""
    *row, before, after = json.loads(text)
    if "drill" not in row:
        return text
    values = [
        as_json(matching.kept_id("drill_used", json.loads(value))) for value in (before, after)
    ]
    return as_json([*row, *values])


_Places = list[tuple[int, str]]


def id_places(table: Table, matching: Matching) -> tuple[_Places, _Places]:
    """Where in a key and in a version of the table ids stand that may be replaced."""
    parents = {link.name: str(link.parent) for link in table.links}
    if table.key == ("id",):
        parents["id"] = table.name
    parents = {name: parent for name, parent in parents.items() if parent in matching.stands_for}
    return (
        [(at, parents[name]) for at, name in enumerate(table.key) if name in parents],
        [(at, parents[name]) for at, name in enumerate(version_columns(table)) if name in parents],
    )


def with_ids(text: str, places: _Places, matching: Matching) -> str:
    """The JSON list with the ids that are kept at these places."""
    if not places:
        return text
    values = json.loads(text)
    new = list(values)
    for at, parent in places:
        if new[at] is not None:
            new[at] = matching.kept_id(parent, new[at])
    return text if new == values else as_json(new)


def unite_equals(histories: RowHistories, every: Mapping[str, Table], matching: Matching) -> None:
    """Coaches of one name, drills of one card, days of one clinic, date and court."""
    first: dict[tuple[object, ...], int] = {}
    for table, by in _SAME_BY.items():
        for row, values in _rows(histories, every[table]):
            if "clinic_id" in by:
                values["clinic_id"] = matching.kept_id("clinic", int(str(values["clinic_id"])))
            same = (table, *(values[name] for name in by))
            matching.unite(table, first.setdefault(same, row), row)


_SAME_BY = {"coach": ("name",), "drill_used": ("digest",), "day": ("clinic_id", "date", "court")}


def ask_clinics(
    histories: RowHistories,
    every: Mapping[str, Table],
    sides: tuple[set[int], set[int]],
    matching: Matching,
    ask: Ask,
) -> None:
    """Clinics of one name and zone that each book made for itself."""
    named = {
        row: (folded_name(str(values["name"])), values["zone"], values["name"])
        for row, values in _rows(histories, every["clinic"])
    }
    for first, second in _candidates(named, sides, matching, "clinic"):
        _ask_and_note(
            matching, Question("clinic", str(named[first][2]), "", ""), first, second, ask
        )


def ask_players(
    histories: RowHistories,
    every: Mapping[str, Table],
    sides: tuple[set[int], set[int]],
    matching: Matching,
    ask: Ask,
) -> None:
    """Players of one name on the roster of one clinic that each book made for itself."""
    clinics: dict[int, set[int]] = {}
    for (table, key), history in histories.items():
        if table == "roster" and history.current:
            clinic, player = json.loads(key)
            clinics.setdefault(player, set()).add(matching.kept_id("clinic", clinic))
    people = dict(_rows(histories, every["player"]))
    named = {row: (folded_name(str(values["name"])),) for row, values in people.items()}
    for first, second in _candidates(named, sides, matching, "player"):
        if clinics.get(first, set()) & clinics.get(second, set()):
            here, there = (_person_words(people[row]) for row in (first, second))
            question = Question("player", str(people[first]["name"]), here, there)
            _ask_and_note(matching, question, first, second, ask)


def _candidates(
    named: Mapping[int, tuple[object, ...]],
    sides: tuple[set[int], set[int]],
    matching: Matching,
    table: str,
) -> Iterator[tuple[int, int]]:
    """Pairs to ask about; two that one book knows as two are never made one."""
    by_name: dict[object, list[int]] = {}
    for row in sorted(named):
        by_name.setdefault(named[row][:2], []).append(row)
    for rows in by_name.values():
        for first in rows:
            for second in rows:
                here, there = (
                    _sides_knowing(matching, table, first, sides),
                    _sides_knowing(matching, table, second, sides),
                )
                new = here == (True, False) and there == (False, True)
                if new and not matching.are_apart(table, first, second):
                    yield first, second


def _sides_knowing(
    matching: Matching, table: str, row: int, sides: tuple[set[int], set[int]]
) -> tuple[bool, bool]:
    """Whether the first book, and the second, knows anyone of those that are one with this row."""
    stands = matching.kept_id(table, row)
    return (
        any(matching.kept_id(table, second) == stands for second in sides[0]),
        any(matching.kept_id(table, second) == stands for second in sides[1]),
    )


def _ask_and_note(
    matching: Matching, question: Question, first: int, second: int, ask: Ask
) -> None:
    if ask(question):
        matching.unite(question.table, first, second)
    else:
        low, high = sorted((first, second))
        matching.apart.add((question.table, low, high))


def _rows(histories: RowHistories, table: Table) -> Iterator[tuple[int, dict[str, object]]]:
    names = version_columns(table)
    for name, key in sorted(first for first in histories if first[0] == table.name):
        if (reading := histories[name, key].merged_values()) is not None:
            yield json.loads(key)[0], dict(zip(names, json.loads(reading), strict=True))


def _person_words(values: Mapping[str, object]) -> str:
    told: Iterable[object] = (values[name] for name in ("short_name", "hand", "level"))
    return ", ".join(str(value) for value in told if value)
