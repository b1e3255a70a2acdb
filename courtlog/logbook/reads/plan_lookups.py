"""Look-ups of the plan the coach kept for a date."""

from __future__ import annotations

from datetime import date

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.logbook.file.opening import Book
from courtlog.logbook.reads import lookups


def planned(book: Book, clinic_id: int, on: date) -> tuple[PlannedRound, ...]:
    """The kept plan of a date in its order; nothing where none was kept."""
    roster = {player.id: player for player in lookups.players(book, clinic_id)}
    rows = book.db.execute(
        "SELECT player_id, drill, purpose, balls FROM planned_round"
        " WHERE clinic_id = ? AND date = ? ORDER BY place",
        [clinic_id, on.isoformat()],
    )
    return tuple(
        PlannedRound(roster[player], drill, Purpose(purpose), balls)
        for player, drill, purpose, balls in rows
        if player in roster
    )


def left_to_play(book: Book, clinic_id: int, on: date, player_id: int) -> tuple[PlannedRound, ...]:
    """The player's planned rounds of a date, less as many as were played with a ball that day."""
    (played,) = book.db.execute(
        "SELECT count(DISTINCT round.id) FROM day JOIN round ON round.day_id = day.id"
        " JOIN ball ON ball.round_id = round.id AND taken"
        " WHERE clinic_id = ? AND date = ? AND player_id = ?",
        [clinic_id, on.isoformat(), player_id],
    ).fetchone()
    theirs = [round_ for round_ in planned(book, clinic_id, on) if round_.player.id == player_id]
    return tuple(theirs[played:])


def next_planned(book: Book, clinic_id: int, after: date) -> date | None:
    """The first date after this one with a kept plan, unless the clinic played in between."""
    (found,) = book.db.execute(
        "SELECT min(date) FROM planned_round WHERE clinic_id = :clinic AND date > :after"
        " AND date <= coalesce("
        "   (SELECT min(date) FROM day WHERE clinic_id = :clinic AND date > :after), date)",
        {"clinic": clinic_id, "after": after.isoformat()},
    ).fetchone()
    return None if found is None else date.fromisoformat(found)
