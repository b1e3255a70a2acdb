"""Every step of the book: each key on a ball and each amendment, and the taking back of it.

A step's number is its place in the whole book. Steps are only ever added, so it stays the same.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from courtlog.coaching.game.people import Clinic
from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.writes import undo_amendment
from courtlog.logbook.writes.paper.home_yardstick_writer import (
    put_home_yardstick_forward,
    take_back_home_yardstick,
)
from courtlog.logbook.writes.sheets.sheet_undo import rounds_of_amendment

KEY = "key"
"""The kind of a step that was a key at the court; the others are kinds of amendments."""

HOME = "at home"
"""The kind of a step that was a yardstick at home, typed in."""


@dataclass(frozen=True, slots=True)
class Change:
    """One value before and after; for a ball's grades as the journal writes them."""

    value: str
    """Which value it is, as AmendedValue names it."""
    before: str
    after: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PastStep:
    """One step: a key on a ball, or an amendment, with what it changed."""

    number: int
    """Its place in the whole book, from 1."""
    id: int
    """Of its line in the journal, or of the amendment."""
    kind: str
    """KEY, or a kind of amendment."""
    at_ms: int
    """When it was done, ms UTC."""
    day: date
    """The round's date."""
    player: str
    """The round's player."""
    drill: str
    """The drill's name."""
    who: str
    """Who amended; empty for a key."""
    ball: int | None
    """The ball's number in its round now, below 0 for one struck out."""
    changes: tuple[Change, ...]
    """Every value it changed."""
    undoes: int | None
    """The number of the step it takes back."""
    is_undone: bool
    """Whether it was taken back itself."""
    other: str = ""
    """The player of the other round, where two rounds were amended."""
    is_sheet: bool = False
    """Whether it is a sheet that joined its days, with the players of all its rounds."""
    rounds: int = 1
    """How many rounds it is about."""


def past_steps(
    book: Book,
    clinic: Clinic,
    on: date | None = None,
    player_id: int | None = None,
    amendments_only: bool = False,
) -> list[PastStep]:
    """The clinic's steps, or those of one date or player, latest last."""
    numbers = _numbers(book)
    of: dict[str, str | int | None] = {"clinic": clinic.id, "player": player_id}
    of["on"] = on.isoformat() if on else None
    found = _amendments(book, of, numbers)
    found += _at_home(book, of, numbers)
    if not amendments_only:
        found += _keys(book, of, numbers)
    return sorted(found, key=lambda step: step.number)


def number_of_step(book: Book, row: int) -> int:
    """The number by which `history` lists the amendment or line of the journal of that id."""
    return _numbers(book)[row]


def any_amendment(book: Book) -> bool:
    """Whether anything was ever put right, or typed in from home."""
    return any(
        book.db.execute(f"SELECT 1 FROM {table} LIMIT 1").fetchone()
        for table in ("amendment", "home_yardstick")
    )


def take_back_step(book: Book, number: int, who: str, at_ms: int) -> None:
    """Take back the step of that number. Raises BookError, with the reason, when it cannot be."""
    with book.reading():
        row = _row_of_step(book, number)
        table = _table_of_step(book, row)
    if table == "home_yardstick":
        take_back_home_yardstick(book, row)
    elif table == "amendment":
        undo_amendment.take_back_amendment(book, row, who, at_ms)
    else:
        undo_amendment.take_back_key(book, row, at_ms)


def put_forward_step(book: Book, number: int, who: str, at_ms: int) -> None:
    """Put a step that was taken back forward again. Raises BookError when it cannot be."""
    with book.reading():
        row = _row_of_step(book, number)
        table = _table_of_step(book, row)
    if table == "home_yardstick":
        put_home_yardstick_forward(book, row)
    elif table == "amendment":
        undo_amendment.put_amendment_forward(book, row, who, at_ms)
    else:
        raise BookError(
            "A key that was taken back is pressed again, not put forward.",
            "Ctrl+A at the court puts any ball right.",
        )


def _row_of_step(book: Book, number: int) -> int:
    steps = list(_numbers(book))
    if not 1 <= number <= len(steps):
        raise BookError("There is no such step.", "`courtlog history` lists them.")
    return steps[number - 1]


def _table_of_step(book: Book, row: int) -> str:
    """The table that holds the step."""
    for table in ("home_yardstick", "amendment"):
        if book.db.execute(f"SELECT 1 FROM {table} WHERE id = ?", [row]).fetchone():
            return table
    return "journal"


def _numbers(book: Book) -> dict[int, int]:
    """Every step's number by its id; an amendment and its journal lines are one step."""
    rows = book.db.execute(
        "SELECT id FROM journal WHERE kind <> 'move'"
        " AND NOT EXISTS (SELECT 1 FROM amended WHERE journal_id = journal.id)"
        " UNION ALL SELECT id FROM amendment UNION ALL SELECT id FROM home_yardstick ORDER BY id"
    )
    return {row: number for number, (row,) in enumerate(rows, 1)}


def _at_home(
    book: Book, of: dict[str, str | int | None], numbers: dict[int, int]
) -> list[PastStep]:
    """The yardsticks at home that were typed in."""
    rows = book.db.execute(
        "SELECT home_yardstick.id, at, date, player.name, card ->> '$.drill.name', watcher,"
        " taken_back FROM home_yardstick JOIN player ON player.id = player_id"
        " JOIN drill_used ON drill_used.id = drill_id WHERE clinic_id = :clinic"
        " AND (:on IS NULL OR date = :on) AND (:player IS NULL OR player_id = :player)",
        of,
    )
    return [
        PastStep(
            number=numbers[row],
            id=row,
            kind=HOME,
            at_ms=at,
            day=date.fromisoformat(on),
            player=player,
            drill=drill,
            who=watcher,
            ball=None,
            changes=(),
            undoes=None,
            is_undone=bool(undone),
        )
        for row, at, on, player, drill, watcher, undone in rows
    ]


_OF = (
    " JOIN day ON day.id = round.day_id JOIN player ON player.id = round.player_id"
    " JOIN drill_used ON drill_used.id = round.drill_id WHERE clinic_id = :clinic"
    " AND (:on IS NULL OR date = :on)"
)
_PLAYED = "date, player.name, card ->> '$.drill.name'"


def _keys(book: Book, of: dict[str, str | int | None], numbers: dict[int, int]) -> list[PastStep]:
    rows = book.db.execute(
        f"SELECT journal.id, journal.at, {_PLAYED}, number, before, after, undoes,"
        " EXISTS (SELECT 1 FROM journal AS undo WHERE undo.undoes = journal.id)"
        " FROM journal JOIN ball ON ball.id = ball_id JOIN round ON round.id = ball.round_id"
        f"{_OF} AND (:player IS NULL OR player_id = :player)",
        of,
    )
    return [
        PastStep(
            number=numbers[row],
            id=row,
            kind=KEY,
            at_ms=at,
            day=date.fromisoformat(on),
            player=player,
            drill=drill,
            who="",
            ball=ball,
            changes=(Change("state", before, after),),
            undoes=numbers.get(undoes),
            is_undone=bool(undone),
        )
        for row, at, on, player, drill, ball, before, after, undoes, undone in rows
        if row in numbers
    ]


def _amendments(
    book: Book, of: dict[str, str | int | None], numbers: dict[int, int]
) -> list[PastStep]:
    rows = book.db.execute(
        f"SELECT amendment.id, kind, amendment.at, {_PLAYED}, who, undoes,"
        " EXISTS (SELECT 1 FROM amendment AS undo WHERE undo.undoes = amendment.id)"
        " OR EXISTS (SELECT 1 FROM amended JOIN journal AS undo ON undo.undoes = journal_id"
        "   WHERE amendment_id = amendment.id),"
        " coalesce((SELECT other.name FROM round AS twin JOIN player AS other"
        "   ON other.id = twin.player_id WHERE twin.id = other_id), ''),"
        " (SELECT number FROM amended JOIN ball ON ball.id = row_id WHERE amendment_id ="
        "   amendment.id AND what IN ('state', 'struck') ORDER BY amended.id LIMIT 1),"
        " kind = 'join' AND other_id IS NULL"
        f" FROM amendment JOIN round ON round.id = amendment.round_id{_OF}"
        " AND (:player IS NULL OR :player IN (round.player_id,"
        "   (SELECT player_id FROM round AS twin WHERE twin.id = other_id))"
        "   OR kind = 'join' AND other_id IS NULL AND :player IN (SELECT player_id FROM amended"
        "     JOIN ball ON ball.id = row_id AND what IN ('struck', 'state')"
        "     JOIN round AS its ON its.id = ball.round_id WHERE amendment_id = amendment.id))",
        of,
    ).fetchall()
    steps = []
    for row, kind, at, on, player, drill, who, undoes, undone, other, ball, is_sheet in rows:
        players, rounds = _of_sheet(book, row) if is_sheet else ([player], 1)
        steps.append(
            PastStep(
                number=numbers[row],
                id=row,
                kind=kind,
                at_ms=at,
                day=date.fromisoformat(on),
                player=", ".join(players) or player,
                drill=drill,
                who=who,
                ball=ball,
                changes=_changes(book, row),
                undoes=numbers.get(undoes),
                is_undone=bool(undone),
                other=other,
                is_sheet=bool(is_sheet),
                rounds=rounds,
            )
        )
    return steps


def _of_sheet(book: Book, amendment: int) -> tuple[list[str], int]:
    """The names of all players of a sheet, and how many rounds it is about."""
    rounds = rounds_of_amendment(book.db, amendment)
    marks = ", ".join("?" * len(rounds))
    names = book.db.execute(
        f"SELECT DISTINCT name FROM round JOIN player ON player.id = player_id"
        f" WHERE round.id IN ({marks}) ORDER BY name",
        list(rounds),
    )
    return [name for (name,) in names], len(rounds)


def _changes(book: Book, amendment: int) -> tuple[Change, ...]:
    names: dict[str, Callable[[object], str]] = {"drill": lambda row: _drill(book, row)}
    return tuple(
        Change(what, *(names.get(what, str)(json.loads(value)) for value in values))
        for what, *values in book.db.execute(
            "SELECT what, before, after FROM amended WHERE amendment_id = ? ORDER BY id",
            [amendment],
        ).fetchall()
    )


def _drill(book: Book, row: object) -> str:
    (name,) = book.db.execute(
        "SELECT card ->> '$.drill.name' FROM drill_used WHERE id = ?", [row]
    ).fetchone()
    return str(name)
