"""The season as courtlog's own tallies and pages have it, book by book."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from courtlog.academy.season.models import Change, Season
from courtlog.coaching.answers.comparison import Comparison
from courtlog.coaching.answers.player_answer import stroke_answer
from courtlog.coaching.voice.change_voice import uncoached_change
from courtlog.coaching.voice.day_names import DayNames
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import open_existing
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.history_lookups import history, strokes_of
from tests.court import START

Line = tuple[object, ...]

_TALLIES = """
SELECT day.clinic_id, player_id, stroke, cue, purpose, sum(missed), sum(near), sum(made),
       sum(unseen)
FROM tally JOIN day ON day.id = day_id
GROUP BY 1, 2, 3, 4, 5 HAVING sum(missed + near + made + unseen) > 0
"""
_BALLS = """
SELECT day.clinic_id, day.date, player_id, count(DISTINCT round.id), count(*), sum(tough)
FROM ball JOIN round ON round.id = round_id JOIN day ON day.id = day_id
WHERE taken GROUP BY 1, 2, 3
"""


def own_lines(*paths: Path) -> list[Line]:
    """Missed, near, made and not seen by clinic, player, stroke, cue and purpose."""
    return _sorted(row for book in _opened(*paths) for row in book.db.execute(_TALLIES))


def lines(season: Season) -> list[Line]:
    """The same of an engine."""
    return _sorted(
        (
            *(one.clinic_id, one.player_id, one.stroke, one.cue, one.purpose),
            *(one.missed, one.near, one.made, one.not_seen),
        )
        for one in season.lines
    )


def own_balls(*paths: Path) -> list[Line]:
    """Rounds, balls and tough ones by clinic, date and player."""
    return _sorted(
        (clinic, date.fromisoformat(on), *rest)
        for book in _opened(*paths)
        for clinic, on, *rest in book.db.execute(_BALLS)
    )


def own_changes(*paths: Path) -> list[Line]:
    """Every yardstick that is compared on a player's own page, with its figures and its words."""
    return _sorted(line for book in _opened(*paths) for line in _of_book(book))


def changes(season: Season) -> list[Line]:
    """The same of an engine."""
    return _sorted(_line(one) for clinic in season.clinics for one in clinic.changes)


def _of_book(book: Book) -> list[Line]:
    found = []
    pairs = book.db.execute(
        "SELECT DISTINCT clinic_id, player_id FROM round JOIN day ON day.id = day_id"
    )
    for clinic, player in pairs.fetchall():
        dates = lookups.dates(book, clinic)
        for stroke in strokes_of(book, clinic, player):
            past = history(book, clinic, player, stroke)
            cues = list(dict.fromkeys(cue for ball in past.balls for cue in ball.grades))
            for cue in stroke_answer(past, dates, cues, curves=False).cues:
                if cue.learning is not None:
                    found.append(_own(clinic, player, stroke, cue.cue, cue.learning, dates))
    return found


def _own(
    clinic: int, player: int, stroke: str, cue: str, one: Comparison, dates: list[date]
) -> Line:
    result = one.result
    return (
        *(clinic, player, stroke, cue, one.early.on, one.late.on),
        *(one.early.made, one.early.seen, one.late.made, one.late.seen),
        *(_rounded(getattr(result, end, None)) for end in ("value", "low", "high")),
        *(str(one.verdict), one.verdict.direction, bool(one.tie)),
        uncoached_change(one, cue, DayNames.of(dates)).sentence,
    )


def _line(one: Change) -> Line:
    return (
        *(one.clinic_id, one.player_id, one.stroke, one.cue, one.first_on, one.latest_on),
        *(one.made_first, one.seen_first, one.made_latest, one.seen_latest),
        *map(_rounded, (one.value, one.low, one.high)),
        *(one.verdict, one.direction, "go alike" in one.reason, one.said),
    )


def _rounded(value: float | None) -> float | None:
    """Sums over rounds come in any order, so that the last digits differ."""
    return None if value is None else round(value, 9)


def _opened(*paths: Path) -> list[Book]:
    return [open_existing(path, START) for path in paths]


def _sorted(rows: object) -> list[Line]:
    return sorted(map(tuple, rows), key=repr)  # type: ignore[call-overload]
