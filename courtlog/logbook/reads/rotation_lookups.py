"""Look-ups of the rotation: who begins a day, its rotations, who is there, and their stations."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.rotation import Court, FedTurn, Presence, Swap, fewest_first
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import clinic_lookups, day_lookups, lookups
from courtlog.logbook.reads.care_lookups import ask_first_on, held_back_on


@dataclass(frozen=True, slots=True)
class StationNow:
    """A station, where the player stood before, and since when (milliseconds UTC)."""

    station: str
    before: str
    since: int


@dataclass(frozen=True, slots=True)
class Solo:
    """Repetitions that a player reported at a station alone."""

    player_id: int
    station: str
    reps: int


def court(
    book: Book,
    clinic_id: int,
    day_id: int,
    roster: Sequence[Player],
    off: Mapping[int, str],
) -> Court:
    """The rotation of a day on its court; `off` says why a player is kept off the feed."""
    plan = clinic_lookups.plan(book, clinic_id)
    turns = _turns(book, day_id)
    rows = book.db.execute(
        "SELECT player_id, state, head_start, at FROM attendance WHERE day_id = ?", [day_id]
    ).fetchall()
    swaps = book.db.execute(
        "SELECT one_id, other_id FROM queue_swap WHERE day_id = ? AND turn = ? ORDER BY id",
        [day_id, len(turns)],
    ).fetchall()
    return Court(
        roster=tuple(roster),
        stations=plan.stations,
        order=plan.order,
        turns=turns,
        away={who: Presence(state) for who, state, _, _ in rows if state != Presence.HERE},
        arrived={who: at for who, state, _, at in rows if state == Presence.HERE},
        head_start={who: start for who, _, start, _ in rows},
        off=off,
        swaps=tuple(Swap(*row) for row in swaps),
    )


def noted_away(book: Book, days: Sequence[int]) -> set[int]:
    """The ids of the players who were noted as late or gone on one of these days."""
    rows = book.db.execute(
        "SELECT player_id FROM attendance WHERE state <> ?"
        " AND day_id IN (SELECT value FROM json_each(?))",
        [str(Presence.HERE), json.dumps(list(days))],
    )
    return {who for (who,) in rows}


def over_limit(book: Book, clinic_id: int, day_id: int) -> dict[int, str]:
    """Players who have had their limit of balls on that date, with the reason in words."""
    rows = book.db.execute(
        "SELECT roster.player_id, ball_limit, count(ball.id) FROM roster"
        " JOIN day ON day.clinic_id = roster.clinic_id"
        "   AND date = (SELECT date FROM day WHERE id = :day)"
        " JOIN round ON round.day_id = day.id AND round.player_id = roster.player_id"
        " JOIN ball ON ball.round_id = round.id AND taken"
        " WHERE roster.clinic_id = :clinic AND ball_limit IS NOT NULL"
        " GROUP BY roster.player_id HAVING count(ball.id) >= ball_limit",
        {"clinic": clinic_id, "day": day_id},
    )
    return {who: f"{balls} balls, limit {limit}" for who, limit, balls in rows}


def limited(book: Book, clinic_id: int) -> frozenset[int]:
    """Players with a limit of balls for the day."""
    rows = book.db.execute(
        "SELECT player_id FROM roster WHERE clinic_id = ? AND ball_limit IS NOT NULL", [clinic_id]
    )
    return frozenset(player for (player,) in rows)


def stations_now(book: Book, day_id: int) -> dict[int, StationNow]:
    """Each player's station now, by player id."""
    rows = book.db.execute(
        "SELECT player_id, station, before, since FROM standing WHERE day_id = ?", [day_id]
    )
    return {player: StationNow(*rest) for player, *rest in rows}


def solos(book: Book, day_id: int) -> list[Solo]:
    """Repetitions alone on a day, summed by player and station in the order they were reported."""
    rows = book.db.execute(
        "SELECT player_id, station, sum(reps) FROM solo WHERE day_id = ?"
        " GROUP BY player_id, station ORDER BY min(id)",
        [day_id],
    )
    return [Solo(*row) for row in rows]


def _turns(book: Book, day_id: int) -> tuple[FedTurn, ...]:
    """The day's turns: rounds with a ball, and the one on court; one player's run is one turn."""
    rows = book.db.execute(
        "SELECT player_id, count(ball.id), started_at,"
        "   coalesce(ended_at, max(taken_at)), paused_ms,"
        "   round.id = (SELECT round_id FROM bookmark) AND ended_at IS NULL AS live"
        " FROM round LEFT JOIN ball ON ball.round_id = round.id AND ball.taken"
        " WHERE day_id = ? GROUP BY round.id HAVING count(ball.id) OR live"
        "   OR round.id = (SELECT round_id FROM bookmark) ORDER BY place",
        [day_id],
    )
    turns: list[FedTurn] = []
    for player, balls, started, ended, paused, live in rows:
        turn = FedTurn(player, balls, started, None if live else ended, paused)
        if turns and turns[-1].player == player:
            before = turns.pop()
            turn = FedTurn(
                player,
                before.balls + balls,
                before.started_at if before.started_at is not None else started,
                turn.ended_at,
                before.paused_ms + paused,
            )
        turns.append(turn)
    return tuple(turns)


def next_order(book: Book, clinic_id: int, played: date) -> list[Player]:
    """Who comes first on the day after this one."""
    on = clinic_lookups.next_planned(book, clinic_id, played) or played + timedelta(days=1)
    return order_on(book, clinic_id, on)


def order_on(book: Book, clinic_id: int, on: date) -> list[Player]:
    """Who comes first on a date: as the coach planned it, else fewest balls before that day.

    Without a kept plan whoever is red is left out.
    """
    kept = clinic_lookups.planned(book, clinic_id, on)
    if kept:
        return list(dict.fromkeys(round_.player for round_ in kept))
    held_back, ask_first = held_back_on(book, clinic_id, on), ask_first_on(book, clinic_id, on)
    until = on - timedelta(days=1)
    balls = {
        player: day_lookups.balls_until(book, clinic_id, player.id, until)
        for player in lookups.players(book, clinic_id)
        if player.id not in held_back
    }
    return fewest_first(balls, {player for player in balls if player.id in ask_first})
