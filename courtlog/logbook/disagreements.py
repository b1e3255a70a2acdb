"""What stands against what after books were joined: the reading here and the other ones."""

from __future__ import annotations

import json
from dataclasses import dataclass

from courtlog.logbook import readings
from courtlog.logbook.joined_balls import FORKS
from courtlog.logbook.opening import Book

_NO_MATTER = {("roster", "place")}
"""Two courts number their own rosters."""


@dataclass(frozen=True, slots=True)
class Disagreement:
    """Where, what is said here, and what else was said."""

    where: str
    here: str
    elsewhere: str


def disagreements(book: Book) -> list[Disagreement]:
    """All of them: rows column by column, then balls."""
    return [*_of_rows(book), *_of_balls(book)]


def _of_rows(book: Book) -> list[Disagreement]:
    every = {table.name: table for table in readings.kept(book.db)}
    found = []
    pasts = readings.load(book.db, only=dict.fromkeys(every, "false"))  # what stands in conflict
    people = dict(book.db.execute("SELECT id, name FROM player").fetchall())
    for (name, key), past in sorted(pasts.items()):
        here = past.reading()
        if len(past.heads) < 2 or here is None:
            continue
        table = every[name]
        values = dict(zip(table.key, json.loads(key), strict=True))
        values |= dict(zip(readings.columns(table), json.loads(here), strict=True))
        who = people.get(values.get("player_id") or values.get("id"), values.get("name"))
        where = name.replace("_", " ") + (f" of {who}" if who and name != "player" else "")
        where = f"player {who}" if name == "player" else where
        for at, column in enumerate(readings.columns(table)):
            others = {json.loads(reading)[at] for _, reading in past.heads} - {values[column]}
            if (name, column) in _NO_MATTER:
                continue
            said = sorted(str(other) for other in others if other not in (None, ""))
            if said:
                what = f"{where}, {column.replace('_', ' ')}"
                found.append(Disagreement(what, str(values[column]), " or ".join(said)))
    return found


def _of_balls(book: Book) -> list[Disagreement]:
    """A ball that two books went on with: as the first of them left it, and as it stands."""
    rows = book.db.execute(
        "SELECT player.name, date, round.place, number, was, (SELECT journal.after FROM journal"
        "   WHERE journal.ball_id = ball.id AND kind <> 'move' ORDER BY id DESC LIMIT 1)"
        f" FROM ({FORKS}) AS fork JOIN ball ON ball.id = fork.ball_id"
        " JOIN round ON round.id = ball.round_id JOIN day ON day.id = day_id"
        " JOIN player ON player.id = player_id ORDER BY date, round.place, number, was"
    )
    return [
        Disagreement(f"{who}, {on}, round {place}, ball {number}", stands, was)
        for who, on, place, number, was, stands in rows
        if was != stands
    ]
