"""One player's cues round by round, over every clinic of the book or in one of them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from courtlog.coaching.answers.cue_rounds import CueRound
from courtlog.coaching.game.rounds import Purpose
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.ids import in_time

CueRounds = Mapping[str, tuple[CueRound, ...]]
"""By cue; every cue has a place for every round of the stroke, so that columns stand in line."""


def cue_rounds(
    book: Book,
    player_id: int,
    stroke: str,
    until: date | None = None,
    clinic_id: int | None = None,
    drill: str | None = None,
    without: int | None = None,
) -> CueRounds:
    """Each cue of the stroke that was ever watched, round by round, up to a date.

    The clinic that began first is first; None asks for all clinics, and for all drills. The
    round with the id `without` is left out.
    """
    rows = book.db.execute(
        "SELECT round.id, clinic_id, date, purpose, cue, sum(grade = 2), count(grade)"
        " FROM round JOIN day ON day.id = day_id JOIN drill_used ON drill_used.id = drill_id"
        " JOIN round_cue ON round_cue.round_id = round.id"
        " JOIN ball ON ball.round_id = round.id AND taken"
        " LEFT JOIN rating ON ball_id = ball.id AND rating.row = round_cue.row"
        " WHERE player_id = :player AND stroke = :stroke"
        " AND (:until IS NULL OR date <= :until) AND (:clinic IS NULL OR clinic_id = :clinic)"
        " AND (:drill IS NULL OR drill_used.name = :drill)"
        " AND (:without IS NULL OR round.id <> :without)"
        " GROUP BY round.id, cue"
        " ORDER BY (SELECT min(date) FROM day AS first WHERE first.clinic_id = day.clinic_id),"
        f" clinic_id, date, {in_time('round')}",
        {
            "player": player_id,
            "stroke": stroke,
            "until": until.isoformat() if until else None,
            "clinic": clinic_id,
            "drill": drill,
            "without": without,
        },
    )
    rounds: dict[int, CueRound] = {}
    watched: dict[str, dict[int, CueRound]] = {}
    for round_id, clinic, on, purpose, cue, made, seen in rows:
        blank = CueRound(date.fromisoformat(on), Purpose(purpose), 0, 0, clinic)
        rounds.setdefault(round_id, blank)
        found = CueRound(blank.on, blank.purpose, made or 0, seen, clinic)
        watched.setdefault(cue, {})[round_id] = found
    return {
        cue: tuple(of_cue.get(round_id, blank) for round_id, blank in rounds.items())
        for cue, of_cue in watched.items()
    }
