"""The counts of the first-depth sentences, counted once more from the rows of the book.

Nothing of `courtlog.coaching.answers` is asked: the rules stand here a second time, in few words.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from courtlog.logbook.file.book import Book

Counts = tuple[int, int]
"""Made and seen."""

WARM_UP, LEAST_MORNING, LAST_COACHED = 5, 8, 20


@dataclass(frozen=True, slots=True)
class Row:
    """A taken ball: `grades` by cue, None where it was watched and not seen."""

    day: str
    purpose: str
    drill: str
    tough: bool
    morning: bool
    """Whether the player had no practice of this stroke yet that day."""
    grades: dict[str, int | None]


def rows_of(book: Book, player: str, stroke: str, until: date) -> list[Row]:
    """The player's balls of the stroke up to that date, in order."""
    found = book.db.execute(
        "SELECT ball.id, date, purpose, drill_used.name, tough, cue, grade"
        " FROM day JOIN round ON round.day_id = day.id JOIN player ON player.id = player_id"
        " JOIN drill_used ON drill_used.id = drill_id"
        " JOIN ball ON ball.round_id = round.id AND taken"
        " JOIN round_cue ON round_cue.round_id = round.id"
        " LEFT JOIN rating ON rating.ball_id = ball.id AND rating.row = round_cue.row"
        " WHERE player.name = ? AND stroke = ? AND date <= ? ORDER BY date, round.place, ball.id",
        [player, stroke, until.isoformat()],
    )
    rows: list[Row] = []
    practised: set[str] = set()
    for (_, day, purpose, drill, tough), cues in groupby(found, key=lambda row: tuple(row[:5])):
        if purpose == "practice":
            practised.add(day)
        grades = {cue: grade for *_, cue, grade in cues}
        rows.append(Row(day, purpose, drill, bool(tough), day not in practised, grades))
    return rows


def made_of_seen(rows: Iterable[Row], cue: str) -> Counts:
    """How often the cue was made, of the balls on which it was seen."""
    seen = [grade for row in rows if (grade := row.grades.get(cue)) is not None]
    return sum(grade == 2 for grade in seen), len(seen)


def whole_stroke(rows: Sequence[Row], cues: Sequence[str]) -> list[Row]:
    """The balls with one grade for all cues: the worst of them, None unless all were seen."""
    alike = []
    for row in rows:
        grades = [row.grades.get(cue) for cue in cues]
        worst = None if None in grades else min(grade for grade in grades if grade is not None)
        alike.append(Row(row.day, row.purpose, row.drill, row.tough, row.morning, {"all": worst}))
    return alike


def yardsticks(rows: Sequence[Row], cue: str) -> list[Counts]:
    """The first yardstick, and the latest uncoached balls on its drill; tough balls count too."""
    tests = [row for row in rows if row.purpose == "yardstick" and cue in row.grades]
    holds = [row for row in rows if row.purpose == "hold" and row.morning]
    if not tests:
        return []
    first = [row for row in tests if row.day == tests[0].day]
    again = [row for row in tests if row.day == tests[-1].day]
    drills = {row.drill for row in again}
    again += [row for row in holds if row.day == tests[-1].day and row.drill in drills]
    held = [row for row in holds if cue in row.grades]
    held = [row for row in held if row.day == held[-1].day]
    for late in (again, held):
        if late and late[0].day > first[0].day and (both := _shared(first, late, cue, _drill)):
            return both
    return []


def night(rows: Sequence[Row], cue: str) -> list[Counts]:
    """The evening before the latest morning's hold, and that morning."""
    rows = [row for row in rows if cue in row.grades]
    holds = [row for row in rows if row.purpose == "hold" and row.morning]
    if not holds:
        return []
    morning = [row for row in holds if row.day == holds[-1].day]
    drills = {row.drill for row in morning}
    before = [
        row for row in rows if not row.morning and row.day < morning[0].day and row.drill in drills
    ]
    before = [row for row in before if row.purpose in ("hold", "transfer", "practice")]
    if not before:
        return []
    coached = [row for row in before if row.purpose == "practice"]
    alone = [row for row in before if row.purpose != "practice"]
    if alone and not (coached and coached[-1].day > alone[-1].day):
        evening = [row for row in alone if row.day == alone[-1].day]
        warm = morning[WARM_UP:]
        return _shared(evening, warm if len(warm) >= LEAST_MORNING else morning, cue, _drill)
    evening = [row for row in coached if row.day == coached[-1].day][-LAST_COACHED:]
    return _shared(evening, morning, cue, _kind)


def practice(rows: Sequence[Row], cue: str) -> list[Counts]:
    """The first day's practice and the latest day's, on kinds of ball of both."""
    coached = [row for row in rows if row.purpose == "practice" and cue in row.grades]
    if not coached or coached[0].day == coached[-1].day:
        return []
    first, last = (
        [row for row in coached if row.day == end.day] for end in (coached[0], coached[-1])
    )
    return _shared(first, last, cue, _kind)


def tough(rows: Sequence[Row], cue: str) -> list[Counts]:
    """Tough balls, and usual ones of the same drills."""
    rows = [row for row in rows if row.purpose not in ("yardstick", "hold")]
    hard = [row for row in rows if row.tough]
    usual = [row for row in rows if not row.tough]
    return _shared(hard, usual, cue, _drill)


def _drill(row: Row) -> object:
    return row.drill


def _kind(row: Row) -> object:
    return row.drill, row.tough


def _shared(
    one: Sequence[Row], other: Sequence[Row], cue: str, kind: Callable[[Row], object]
) -> list[Counts]:
    """Counts of both on the kinds on which each has a seen ball; nothing without such a kind."""
    seen = [{kind(row) for row in side if row.grades.get(cue) is not None} for side in (one, other)]
    both = seen[0] & seen[1]
    sides = [[row for row in side if kind(row) in both] for side in (one, other)]
    return [made_of_seen(side, cue) for side in sides] if both else []
