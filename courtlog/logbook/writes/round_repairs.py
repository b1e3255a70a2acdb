"""Put rounds right: move balls, split, join, change purpose or drill; each is one amendment.

`who` is the coach who does it, `at_ms` the moment, milliseconds UTC.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence

from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.rounds import Purpose
from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.feed_rows import FEED_COLUMNS, feed_values, feeds_of
from courtlog.logbook.rows.row_changes import drill_id, end_pause
from courtlog.logbook.writes.amendments import (
    AmendedValue,
    Amendment,
    AmendmentKind,
    Value,
    open_amendment,
)
from courtlog.plain_text import many

_NOT_COPIED = {"id", "player_id", "place", "started_at", "ended_at", "paused_ms"}
"""What a round that comes out of another does not take from it."""


def move_balls(
    book: Book, round_id: int, numbers: Sequence[int], player: int, who: str, at_ms: int
) -> int:
    """Move balls that were another player's to a round of their own, right after this one.

    Returns its id. In the round on court, the last balls take the open ball with them, and the
    court continues there.
    """
    return _move_to_new_round(book, AmendmentKind.MOVE, round_id, numbers, player, who, at_ms)


def split_round(book: Book, round_id: int, number: int, who: str, at_ms: int) -> int:
    """Begin a new round with this ball; returns its id."""
    taken = count_taken(book.db, round_id)
    if not 2 <= number <= taken:
        raise BookError(f"This round has {many(taken, 'ball')}: split it at one from 2 on.")
    (player,) = book.db.execute("SELECT player_id FROM round WHERE id = ?", [round_id]).fetchone()
    numbers = range(number, taken + 1)
    return _move_to_new_round(book, AmendmentKind.SPLIT, round_id, numbers, player, who, at_ms)


def join_rounds(book: Book, first: int, second: int, who: str, at_ms: int) -> None:
    """Join two rounds of a day: the balls of the second go into the first, in their order.

    Raises BookError unless player, drill, purpose and cues are the same.
    """
    if first == second or _join_key(book.db, first) != _join_key(book.db, second):
        raise BookError(
            "Only rounds of one day, player, drill, purpose and cues can be joined.",
            "Change the purpose or the drill of one first.",
        )
    if _open_balls(book.db, first) and _open_balls(book.db, second):
        raise BookError("Both rounds have a ball half rated.", "Take one of them first.")
    with open_amendment(book, AmendmentKind.JOIN, (first, second), who, at_ms, second) as amendment:
        db = amendment.db
        spots = spots_by_ball(db, first) | spots_by_ball(db, second)
        times = _joined_times(db, first, second)
        for (row,) in db.execute("SELECT id FROM ball WHERE round_id = ?", [second]).fetchall():
            amendment.move(row, first)
        for table, what in (("note", AmendedValue.NOTE), ("check_in", AmendedValue.CHECK_IN)):
            rows = db.execute(f"SELECT id FROM {table} WHERE round_id = ?", [second]).fetchall()
            for (row,) in rows:
                amendment.change(what, row, first)
        if times is not None and not _is_on_court(db, first):
            amendment.change(AmendedValue.ENDED, first, times[0])
            amendment.change(AmendedValue.PAUSED, first, times[1])
        keep_spots(amendment, first, spots)
        db.execute("UPDATE bookmark SET round_id = ? WHERE round_id = ?", [first, second])


def change_purpose(book: Book, round_id: int, purpose: Purpose, who: str, at_ms: int) -> None:
    """Give the round another purpose."""
    if round_value(book.db, round_id, "purpose") == purpose:
        return
    with open_amendment(book, AmendmentKind.PURPOSE, (round_id,), who, at_ms) as amendment:
        amendment.change(AmendedValue.PURPOSE, round_id, str(purpose))


def change_drill(book: Book, round_id: int, used: UsedDrill, who: str, at_ms: int) -> None:
    """Give the round another drill of the same stroke, with the same cues.

    Raises BookError for another stroke, or when a cue of the round is not in the drill's text.
    """
    (stroke,) = book.db.execute(
        "SELECT stroke FROM round JOIN drill_used ON drill_used.id = drill_id WHERE round.id = ?",
        [round_id],
    ).fetchone()
    cues = {
        cue
        for (cue,) in book.db.execute("SELECT cue FROM round_cue WHERE round_id = ?", [round_id])
    }
    if used.stroke != stroke or not cues <= {cue.key for cue in used.cues}:
        raise BookError(
            "The balls of a round were seen on its cues.", "Choose a drill of the same stroke."
        )
    with book.writing() as db:
        drill = drill_id(db, book.ids, at_ms, used)
        if drill != round_value(db, round_id, "drill_id"):
            with open_amendment(book, AmendmentKind.DRILL, (round_id,), who, at_ms) as amendment:
                amendment.change(AmendedValue.DRILL, round_id, drill)


def _move_to_new_round(
    book: Book,
    kind: AmendmentKind,
    source: int,
    numbers: Sequence[int],
    player: int,
    who: str,
    at_ms: int,
) -> int:
    balls = taken_balls(book.db, source, numbers)
    pairs = {(number + 1) // 2 for number in numbers}
    if round_value(book.db, source, "rate_every") == 2 and 2 * len(pairs) != len(balls):
        raise BookError(
            "Every second ball is rated here: move an even number of balls, each rated one with"
            " the one fed after it."
        )
    last_ones = min(numbers) + len(balls) - 1 == count_taken(book.db, source)
    with book.writing() as db:
        twin = _new_round_like(book, db, source, player, (balls[0], min(numbers)), at_ms)
        with open_amendment(book, kind, (source, twin), who, at_ms, twin) as amendment:
            spots = spots_by_ball(db, source)
            if last_ones:
                balls += [
                    row
                    for (row,) in db.execute(
                        "SELECT id FROM ball WHERE round_id = ? AND NOT taken AND number > 0",
                        [source],
                    )
                ]
            for row in balls:
                amendment.move(row, twin)
            if last_ones:
                _share_times(amendment, source, twin)
            keep_spots(amendment, source, spots)
            keep_spots(amendment, twin, spots)
    return twin


def _new_round_like(
    book: Book, db: sqlite3.Connection, source: int, player: int, first: tuple[int, int], at_ms: int
) -> int:
    """A round like the source right after it, fed from where its first ball was.

    `first` is that ball's id and its number in the source.
    """
    ball, number = first
    (began,) = db.execute("SELECT taken_at FROM ball WHERE id = ?", [ball]).fetchone()
    feeds = db.execute(f"SELECT {FEED_COLUMNS} FROM round WHERE id = ?", [source]).fetchone()
    day, place = db.execute("SELECT day_id, place FROM round WHERE id = ?", [source]).fetchone()
    # Rounds after it move up one; negative places first, since no two may share one.
    db.execute("UPDATE round SET place = -(place + 1) WHERE day_id = ? AND place > ?", [day, place])
    db.execute("UPDATE round SET place = -place WHERE day_id = ? AND place < 0", [day])
    names = [
        name
        for (name,) in db.execute("SELECT name FROM pragma_table_info('round')")
        if name not in _NOT_COPIED
    ]
    twin = book.ids.next(at_ms)
    db.execute(
        f"INSERT INTO round (id, player_id, place, started_at, {', '.join(names)})"
        f" SELECT ?, ?, ?, ?, {', '.join(names)} FROM round WHERE id = ?",
        [twin, player, place + 1, None if began is None else began - began % 1000, source],
    )
    for name, value in feed_values(feeds_of(*feeds).begun_at(number)).items():
        db.execute(f"UPDATE round SET {name} = ? WHERE id = ?", [value, twin])
    db.execute(
        "INSERT INTO round_cue SELECT ?, row, cue FROM round_cue WHERE round_id = ?",
        [twin, source],
    )
    return twin


def _share_times(amendment: Amendment, source: int, twin: int) -> None:
    """The first round ends with its last ball, the second where the first had ended.

    The court shows the second if it showed the first, over or not. Without the moments of balls
    (they came from a sheet) nobody knows when the second began, and the first keeps its times.
    """
    ended = round_value(amendment.db, source, "ended_at")
    (last,) = amendment.db.execute(
        "SELECT max(taken_at) FROM ball WHERE round_id = ? AND taken", [source]
    ).fetchone()
    (has_moments,) = amendment.db.execute(
        "SELECT count(taken_at) FROM ball WHERE round_id IN (?, ?) AND taken", [source, twin]
    ).fetchone()
    if _is_on_court(amendment.db, source):
        end_pause(amendment.db, amendment.at_ms)
        cut = amendment.at_ms if last is None else last
        amendment.change(AmendedValue.ENDED, source, cut - cut % 1000)
    elif has_moments:
        if last is not None:
            amendment.change(AmendedValue.ENDED, source, last - last % 1000)
        amendment.change(AmendedValue.ENDED, twin, ended)
    amendment.db.execute("UPDATE bookmark SET round_id = ? WHERE round_id = ?", [twin, source])


def keep_spots(amendment: Amendment, round_id: int, spots: dict[int, str]) -> None:
    """Every ball keeps the spot it was fed to, and the order goes on from there."""
    order = str(round_value(amendment.db, round_id, "feed_order"))
    if len(set(order)) < 2:
        return
    rows = amendment.db.execute(
        "SELECT id FROM ball WHERE round_id = ? AND number > 0 AND taken ORDER BY id", [round_id]
    ).fetchall()
    fed = "".join(spots[row] for (row,) in rows)
    if any(spot != order[at % len(order)] for at, spot in enumerate(fed)):
        done = len(fed) % len(order)
        amendment.change(AmendedValue.ORDER, round_id, fed + order[done:] + order[:done])


def spots_by_ball(db: sqlite3.Connection, round_id: int) -> dict[int, str]:
    """The spot, as a digit of the feed order, to which each taken ball went."""
    order = str(round_value(db, round_id, "feed_order"))
    return {
        row: order[(number - 1) % len(order)] if order else ""
        for row, number in db.execute(
            "SELECT id, number FROM ball WHERE round_id = ? AND number > 0", [round_id]
        )
    }


def _join_key(db: sqlite3.Connection, round_id: int) -> list[tuple[object, ...]]:
    return db.execute(
        "SELECT day_id, player_id, drill_id, purpose, rate_every, row, cue FROM round"
        " JOIN round_cue ON round_id = round.id WHERE round.id = ? ORDER BY row",
        [round_id],
    ).fetchall()


def round_value(db: sqlite3.Connection, round_id: int, column: str) -> Value:
    value: Value = db.execute(f"SELECT {column} FROM round WHERE id = ?", [round_id]).fetchone()[0]
    return value


def _joined_times(db: sqlite3.Connection, first: int, second: int) -> tuple[int | None, int] | None:
    """End and pause (ms) of two rounds made one; the time between them is a pause.

    None when nobody noted when one of them began.
    """
    (began, ended, paused), (second_began, at_last, more) = (
        db.execute(
            "SELECT started_at, ended_at, paused_ms FROM round WHERE id = ?", [round_id]
        ).fetchone()
        for round_id in (first, second)
    )
    if began is None or second_began is None:
        return None
    between = 0 if ended is None else max(0, second_began - ended)
    return at_last, paused + more + between


def _open_balls(db: sqlite3.Connection, round_id: int) -> int:
    """Balls that are touched and not taken."""
    (count,) = db.execute(
        "SELECT count(*) FROM ball WHERE round_id = ? AND NOT taken AND number > 0"
        " AND (tough OR clip_at IS NOT NULL"
        "   OR EXISTS (SELECT 1 FROM rating WHERE ball_id = ball.id))",
        [round_id],
    ).fetchone()
    return int(count)


def _is_on_court(db: sqlite3.Connection, round_id: int) -> bool:
    return bool(
        db.execute(
            "SELECT 1 FROM bookmark JOIN round ON round.id = round_id"
            " WHERE round_id = ? AND ended_at IS NULL",
            [round_id],
        ).fetchone()
    )


def count_taken(db: sqlite3.Connection, round_id: int) -> int:
    (taken,) = db.execute(
        "SELECT count(*) FROM ball WHERE round_id = ? AND taken", [round_id]
    ).fetchone()
    return int(taken)


def taken_balls(db: sqlite3.Connection, round_id: int, numbers: Sequence[int]) -> list[int]:
    """Ids of a round's taken balls of these numbers. Raises BookError when one is not there."""
    found = dict(
        db.execute(
            "SELECT number, id FROM ball WHERE round_id = ? AND taken ORDER BY number", [round_id]
        ).fetchall()
    )
    if not numbers or not set(numbers) <= set(found):
        asked = ", ".join(map(str, numbers)) or "none"
        raise BookError(f"This round has {many(len(found), 'ball')}; {asked} is not among them.")
    return [found[number] for number in sorted(set(numbers))]
