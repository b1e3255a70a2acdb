"""Which of a player's cues the coach named the main one: it is judged first of a stroke.

A name counts when it was given before the first ball of the first yardstick, the last such name
alone. From that ball on the main cue is settled. A cue chosen by how its balls looked would look
better the next time by luck alone. Ids tell what came first, since a clock may be set.
"""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.ids import COUNT_BITS

SETTLED = (
    "The main cue stays: one named after the first yardstick ball would look better by luck alone."
)
"""Why another one is refused."""

_COUNT = 2**COUNT_BITS - 1
"""The part of an id that counts upwards; the rest names the book."""

_FIRST_BALL = (
    f"(SELECT min(ball.id & {_COUNT}) FROM day JOIN round ON round.day_id = day.id"
    " JOIN drill_used ON drill_used.id = drill_id JOIN ball ON ball.round_id = round.id AND taken"
    " WHERE day.clinic_id = :clinic AND round.player_id = :player"
    " AND drill_used.stroke = :stroke AND purpose = 'yardstick')"
)


@dataclass(frozen=True, slots=True)
class MainCue:
    """The main cue so far by its key, empty where there is none; and whether it is settled."""

    cue: str = ""
    is_settled: bool = False


def named_main(book: Book, clinic_id: int, player_id: int, stroke: str) -> str | None:
    """The cue named last before the first yardstick ball; None where there was none by then."""
    row = book.db.execute(
        "SELECT cue FROM main_cue"
        " WHERE clinic_id = :clinic AND player_id = :player AND stroke = :stroke"
        f" AND id & {_COUNT} < coalesce({_FIRST_BALL}, {_COUNT} + 1)"
        f" ORDER BY id & {_COUNT} DESC LIMIT 1",
        {"clinic": clinic_id, "player": player_id, "stroke": stroke},
    ).fetchone()
    return None if row is None else str(row[0])


def is_settled(book: Book, clinic_id: int, player_id: int, stroke: str) -> bool:
    """Whether a yardstick ball was taken, so that another main cue would be chosen by the balls."""
    (ball,) = book.db.execute(
        f"SELECT {_FIRST_BALL}",
        {"clinic": clinic_id, "player": player_id, "stroke": stroke},
    ).fetchone()
    return ball is not None
