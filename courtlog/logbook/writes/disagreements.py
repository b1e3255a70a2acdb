"""Contradictions left after books were joined: the version here, and the other ones.

An amended ball is decided, and so is a line that somebody confirms; both travel when books are
joined. A decided row leaves the list; a ball's journal keeps both changes. A paper sheet that two
books read in differently is two rounds, and both count, until one is taken back.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass

from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.ball_conflicts import FORKS, IS_DECIDED, decide_forks
from courtlog.logbook.rows.matched_ids import call_two_rounds
from courtlog.logbook.schema import row_versions
from courtlog.logbook.schema.row_versions import Key
from courtlog.logbook.writes.past_steps import number_of_step
from courtlog.plain_text import many

_NO_MATTER = {("roster", "place")}
"""Two courts number their own rosters."""


@dataclass(frozen=True, slots=True)
class Disagreement:
    """One contradiction: where it is, what each book holds, and whether it is decided.

    `row` is the table and key that it is about; a ball is its id, two rounds are both ids.
    """

    where: str
    here: str
    elsewhere: str
    row: Key
    decided: bool = False

    @property
    def counts_twice(self) -> bool:
        """Whether both versions count, as two rounds do until one of them is taken back."""
        return self.row[0] == "sheet_round"

    @property
    def sentence(self) -> str:
        """What stands, and what was said elsewhere."""
        end = "; decided" if self.decided else ""
        if self.counts_twice:
            return f"{self.where}: {self.here} and {self.elsewhere} both count{end}."
        return f"{self.where}: {self.here} stands; another book said {self.elsewhere}{end}."


def disagreements(book: Book) -> list[Disagreement]:
    """All of them: rows column by column, then balls, then paper sheets with two versions."""
    return [*_of_rows(book), *_of_balls(book), *_of_sheets(book)]


def decide(book: Book, numbers: Iterable[int]) -> None:
    """Confirm this book's version in these lines of the list, counted from 1. Raises BookError.

    A line on one column of a row decides the whole row, one on a ball the whole ball.
    """
    listed = dict(enumerate(disagreements(book), 1))
    missing = [number for number in numbers if number not in listed]
    if missing:
        raise BookError(
            f"There is no line {missing[0]} in the list.", "`courtlog gather --show` prints it."
        )
    with book.writing() as db:
        for number in numbers:
            name, key = listed[number].row
            if name == "ball":
                decide_forks(db, json.loads(key)[0])
            elif name == "sheet_round":
                call_two_rounds(db, *json.loads(key))
            else:
                row_versions.accept_current(db, (name, key))


def _of_rows(book: Book) -> list[Disagreement]:
    every = {table.name: table for table in row_versions.versioned_tables(book.db)}
    listed = []
    histories = row_versions.load_histories(
        book.db, only=dict.fromkeys(every, "false")
    )  # what stands in conflict
    people = dict(book.db.execute("SELECT id, name FROM player").fetchall())
    for (name, key), history in sorted(histories.items()):
        here = history.merged_values()
        if len(history.current) < 2 or here is None:
            continue
        table = every[name]
        values = dict(zip(table.key, json.loads(key), strict=True))
        values |= dict(zip(row_versions.version_columns(table), json.loads(here), strict=True))
        who = people.get(values.get("player_id") or values.get("id"), values.get("name"))
        where = name.replace("_", " ") + (f" of {who}" if who and name != "player" else "")
        where = f"player {who}" if name == "player" else where
        for index, column in enumerate(row_versions.version_columns(table)):
            others = {json.loads(row)[index] for _, row in history.current} - {values[column]}
            if (name, column) in _NO_MATTER:
                continue
            other_values = sorted(str(other) for other in others if other not in (None, ""))
            if other_values:
                what = f"{where}, {column.replace('_', ' ')}"
                listed.append(
                    Disagreement(what, str(values[column]), " or ".join(other_values), (name, key))
                )
    return listed


def _of_balls(book: Book) -> list[Disagreement]:
    """A ball that two books went on with: as the first of them left it, and as it stands."""
    rows = book.db.execute(
        "SELECT player.name, date, round.place, number, was, (SELECT journal.after FROM journal"
        "   WHERE journal.ball_id = ball.id AND kind <> 'move' ORDER BY id DESC LIMIT 1),"
        f" ball.id, {IS_DECIDED}"
        f" FROM ({FORKS}) AS fork JOIN ball ON ball.id = fork.ball_id"
        " JOIN round ON round.id = ball.round_id JOIN day ON day.id = day_id"
        " JOIN player ON player.id = player_id ORDER BY date, round.place, number, was"
    )
    return [
        Disagreement(
            f"{who}, {on}, round {place}, ball {abs(number)}",
            stands,
            was,
            ("ball", row_versions.as_json([ball])),
            bool(decided),
        )
        for who, on, place, number, was, stands, ball, decided in rows
        if was != stands
    ]


def _of_sheets(book: Book) -> list[Disagreement]:
    """Rounds of one player, date and sheet number; not those that somebody called two rounds."""
    rows = book.db.execute(
        "WITH typed AS (SELECT round.id, clinic_id, date, player_id, sheet_round.number, court,"
        "   round.place, (SELECT min(amendment_id) FROM amended"
        "     WHERE what = 'struck' AND row_id = first_ball_id) AS came,"
        "   (SELECT count(*) FROM ball WHERE round_id = round.id AND taken) AS balls"
        "   FROM sheet_round JOIN round ON round.id = round_id JOIN day ON day.id = day_id"
        "   WHERE sheet_round.number > 0)"
        " SELECT player.name, one.date, number, one.court, one.place, one.balls, one.came,"
        " other.court, other.place, other.balls, other.came, one.id, other.id"
        " FROM typed AS one JOIN typed AS other USING (clinic_id, date, player_id, number)"
        " JOIN player ON player.id = player_id"
        " WHERE one.id < other.id AND one.balls AND other.balls AND NOT EXISTS (SELECT 1"
        "   FROM matched WHERE (tbl, one_id, other_id, same) = ('round', one.id, other.id, 0))"
        " ORDER BY one.date, player.name, number, one.id, other.id"
    )
    return [
        Disagreement(
            f"{who}, {on}, sheet {number} was read in twice",
            _round_words(book, *rounds[:4]),
            _round_words(book, *rounds[4:8]),
            ("sheet_round", row_versions.as_json(rounds[8:])),
        )
        for who, on, number, *rounds in rows
    ]


def _round_words(book: Book, court: str, place: int, balls: int, came: int | None) -> str:
    """`round 2 on court 2 (20 balls, step 3)`; a round that was rated live came by no step."""
    on_court = f" on court {court}" if court else ""
    step = "rated live" if came is None else f"step {number_of_step(book, came)}"
    return f"round {place}{on_court} ({many(balls, 'ball')}, {step})"
