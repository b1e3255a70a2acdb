"""The balls of a clinic with the moment of their first key, for a stretch of time such as a film.

A ball from a sheet has no key and so no moment: it is counted, and never guessed.
"""

from __future__ import annotations

import json
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import timedelta
from functools import lru_cache
from typing import NamedTuple
from zoneinfo import ZoneInfo

from courtlog import times
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.people import Clinic
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.rows.journal import ball_state

SAME_HIT_MS = 4000
"""A key that is taken back and pressed again within this time is of the same hit."""

_DAY = timedelta(days=1)


class SeenCue(NamedTuple):
    """A cue in view on a ball: its key, its name as shown, and its grade; None is not seen."""

    key: str
    name: str
    grade: Grade | None


class TimedBall(NamedTuple):  # ten thousand are made for a day of films
    """A taken ball and the moment of its first key."""

    ball_id: int
    """The ball."""
    first_key_at: int
    """The moment of its first key, milliseconds UTC."""
    player_id: int
    """The player."""
    player: str
    """The player's name as the clinic shows it."""
    court: str
    """The court of its day."""
    drill: str
    """The drill's name as shown."""
    number: int
    """Its place in the round, from 1."""
    cues: tuple[SeenCue, ...]
    """The cues in view, in the order of the round."""
    tough: bool
    """Whether it was harder than usual."""
    marked: bool
    """Whether it has a clip mark."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BallFilter:
    """Which balls are asked for; what is left out asks for all."""

    player_id: int | None = None
    """One player."""
    drill: str | None = None
    """One drill, by its full name."""
    court: str | None = None
    """One court, by its name."""
    cue: str | None = None
    """Only balls on which this cue was in view, by its key."""
    grades: tuple[Grade | None, ...] = ()
    """The grades that this cue, or without one any cue, may have; None in it is not seen."""
    marked: bool = False
    """Only balls with a clip mark."""

    def fits(self, cues: Iterable[SeenCue]) -> bool:
        """Whether a ball with these cues is asked for."""
        if self.cue is None and not self.grades:
            return True  # a ball without any cue in view, too
        return any(
            self.cue in (None, cue.key) and (not self.grades or cue.grade in self.grades)
            for cue in cues
        )


@dataclass(frozen=True, slots=True)
class BallsInTime:
    """The balls of a stretch of time, earliest first."""

    balls: tuple[TimedBall, ...]
    without_moment: int
    """Balls of the same dates without a key, such as those from a sheet."""


@dataclass(frozen=True, slots=True)
class TimedBalls:
    """The balls of a longer time, looked up once for the many films in it."""

    balls: tuple[TimedBall, ...]
    """Those with a moment, earliest first."""
    dates_without: tuple[str, ...]
    """The date of each ball without one."""
    place: ZoneInfo

    def within(self, begin: int, end: int, court: str | None = None) -> BallsInTime:
        """The balls of a stretch of that time, both its ends included; of one court or of all."""
        first = bisect_left(self.balls, begin, key=_moment)
        last = bisect_right(self.balls, end, key=_moment)
        dates = [times.local_date(at, self.place).isoformat() for at in (begin, end)]
        without = sum(dates[0] <= date <= dates[1] for date in self.dates_without)
        balls = self.balls[first:last]
        if court is not None:
            balls = tuple(ball for ball in balls if ball.court == court)
        return BallsInTime(balls, without)


def _moment(ball: TimedBall) -> int:
    return ball.first_key_at


ALL_BALLS = BallFilter()


class Key(NamedTuple):
    """A key of a ball: its moment, the ball before and after as the journal writes it."""

    at: int
    before: str
    after: str
    undone: bool


_BALLS = (
    "SELECT ball.id, round.id, date, court, player_id, number, tough, clip_at IS NOT NULL"
    " FROM day JOIN round ON round.day_id = day.id JOIN ball ON ball.round_id = round.id AND taken"
    " JOIN drill_used ON drill_used.id = drill_id"
    " WHERE clinic_id = :clinic AND date BETWEEN :first AND :last"
    # Of two balls of which one is rated, the other has no key of its own.
    " AND (number - 1) % rate_every = 0"
    " AND (:player IS NULL OR player_id = :player) AND (:drill IS NULL OR drill_used.name = :drill)"
    " AND (:court IS NULL OR court = :court) AND (NOT :marked OR clip_at IS NOT NULL)"
    # Most balls of other times are left out here, without a look at all their keys.
    " AND (taken_at IS NULL OR taken_at >= :begin)"
    " AND coalesce((SELECT min(at) FROM journal WHERE ball_id = ball.id), 0) <= :end"
)
_GRADES = "SELECT ball_id, row, grade FROM rating WHERE ball_id IN (SELECT value FROM json_each(?))"
_KEYS = (
    "SELECT ball_id, at, before, after,"
    " EXISTS (SELECT 1 FROM journal AS undo WHERE undo.undoes = journal.id)"
    " FROM journal WHERE kind = 'key' AND ball_id IN (SELECT value FROM json_each(?))"
    " AND NOT EXISTS (SELECT 1 FROM amended WHERE journal_id = journal.id)"
    " ORDER BY ball_id, id"
)
"""The keys of the court; what was put right afterwards has lines too, with moments of its own."""


def balls_in_time(
    book: Book, clinic: Clinic, begin: int, end: int, wanted: BallFilter = ALL_BALLS
) -> BallsInTime:
    """The clinic's taken balls whose first key lies between two moments, both included."""
    return timed_balls(book, clinic, begin, end, wanted).within(begin, end)


def timed_balls(
    book: Book, clinic: Clinic, begin: int, end: int, wanted: BallFilter = ALL_BALLS
) -> TimedBalls:
    """The same for a time with many films in it, each of which then takes its own."""
    dates = times.local_date(begin, clinic.place), times.local_date(end, clinic.place)
    rows = book.db.execute(
        _BALLS,
        {
            "clinic": clinic.id,
            # A day's balls may go on after midnight.
            "first": (dates[0] - _DAY).isoformat(),
            "last": (dates[1] + _DAY).isoformat(),
            "player": wanted.player_id,
            "drill": wanted.drill,
            "court": wanted.court,
            "marked": wanted.marked,
            "begin": begin,
            "end": end,
        },
    ).fetchall()
    ids = json.dumps([row[0] for row in rows])
    by_number = {grade.value: grade for grade in Grade}
    grades: dict[int, dict[int, Grade]] = {}
    for ball, row, grade in book.db.execute(_GRADES, [ids]):
        grades.setdefault(ball, {})[row] = by_number[grade]
    keys = first_keys(book, [row[0] for row in rows])
    names = {player.id: player.shown_name for player in lookups.players(book, clinic.id)}
    in_view = {round_id: _drill_and_cues(book, round_id) for round_id in {row[1] for row in rows}}
    found, without = [], []
    for ball, round_id, date, court, player, number, tough, marked in rows:
        of_ball = grades.get(ball, {})
        drill, in_round = in_view[round_id]
        cues = tuple(SeenCue(key, name, of_ball.get(row)) for row, key, name in in_round)
        if not wanted.fits(cues):
            continue
        at = keys.get(ball)
        if at is None:
            without.append(str(date))
        elif begin <= at <= end:
            found.append(
                TimedBall(
                    ball_id=ball,
                    first_key_at=at,
                    player_id=player,
                    player=names.get(player, ""),
                    court=court,
                    drill=drill,
                    number=number,
                    cues=cues,
                    tough=bool(tough),
                    marked=bool(marked),
                )
            )
    in_order = sorted(found, key=lambda ball: (ball.first_key_at, ball.ball_id))
    return TimedBalls(tuple(in_order), tuple(without), clinic.place)


def first_keys(book: Book, balls: Sequence[int]) -> dict[int, int]:
    """The moment of each ball's first key, ms UTC; a ball without one is not there."""
    keys: dict[int, list[Key]] = {}
    for ball, *key in book.db.execute(_KEYS, [json.dumps(balls)]):
        keys.setdefault(ball, []).append(Key._make(key))
    found = ((ball, _first_key(of_ball)) for ball, of_ball in keys.items())
    return {ball: at for ball, at in found if at is not None}


def _first_key(keys: Sequence[Key]) -> int | None:
    """The moment of the first key that speaks of the hit; None without one.

    A tough or clip mark may come before the ball is fed. A key that was taken back counts when
    another followed so soon that both are of one hit; else there was no hit to it.
    """
    of_the_hit = [key for key in keys if _is_of_the_hit(key.before, key.after)]
    first = min((key.at for key in of_the_hit if not key.undone), default=None)
    for key in reversed(of_the_hit):
        if first is not None and 0 < first - key.at <= SAME_HIT_MS:
            first = key.at
    return first


@lru_cache(4096)
def _is_of_the_hit(before: str, after: str) -> bool:
    """Whether the key gave a grade or took the ball."""
    (old, was_open), (new, is_open) = ball_state(before), ball_state(after)
    return old.grades != new.grades or was_open is not is_open


def _drill_and_cues(book: Book, round_id: int) -> tuple[str, list[tuple[int, str, str]]]:
    """The round's drill as shown, and each of its cues: row, key, and name as shown."""
    (card,) = book.db.execute(
        "SELECT card FROM drill_used JOIN round ON drill_id = drill_used.id WHERE round.id = ?",
        [round_id],
    ).fetchone()
    used = lookups.used_drill(card)
    named = {cue.key: cue.name for cue in used.cues}
    rows = book.db.execute(
        "SELECT row, cue FROM round_cue WHERE round_id = ? ORDER BY row", [round_id]
    )
    return used.drill.name, [(row, cue, named.get(cue, cue)) for row, cue in rows]
