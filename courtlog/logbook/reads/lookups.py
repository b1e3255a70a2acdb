"""Look-ups for the court: where the book was left, who is there, the round as it stands."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from functools import lru_cache

from courtlog.coaching.game.cards import labels
from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.people import Clinic, Day, Player
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.on_court.feed_order import Feeds
from courtlog.coaching.on_court.feeding import Feeding, with_steps
from courtlog.coaching.on_court.live_round import Basket, Bookmark, LiveRound
from courtlog.errors import UnknownNameError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import feed_lookups, main_cue_lookups
from courtlog.logbook.rows.empty_rounds import EMPTIED_DAY, EMPTY_ROUND
from courtlog.logbook.rows.feed_rows import FEED_COLUMNS, feeds_of
from courtlog.logbook.rows.ids import in_time
from courtlog.logbook.rows.journal import as_step
from courtlog.measures.court_day.schedule import Turn
from courtlog.names import folded_name
from courtlog.values import take_json


def bookmark(book: Book) -> Bookmark | None:
    """Where the book was left; None in a new book."""
    row = book.db.execute(
        "SELECT clinic_id, day_id, round_id, basket_left, basket_size, paused_at FROM bookmark"
    ).fetchone()
    if row is None:
        return None
    clinic, day, round_id, left, size, paused = row
    return Bookmark(clinic, day, round_id, Basket(left, size), paused)


def clinics(book: Book) -> list[Clinic]:
    """All clinics, oldest first, without one that came with a sheet and was taken back with it."""
    return [
        Clinic(*row)
        for row in book.db.execute(
            "SELECT id, name, zone, planned_days FROM clinic"
            " WHERE EXISTS (SELECT 1 FROM roster WHERE clinic_id = clinic.id)"
            " OR NOT EXISTS (SELECT 1 FROM day WHERE clinic_id = clinic.id)"
            f" OR EXISTS (SELECT 1 FROM day WHERE clinic_id = clinic.id AND NOT {EMPTIED_DAY})"
            " ORDER BY id"
        )
    ]


def clinic(book: Book, clinic_id: int) -> Clinic:
    """The clinic of that id."""
    return Clinic(
        *book.db.execute(
            "SELECT id, name, zone, planned_days FROM clinic WHERE id = ?", [clinic_id]
        ).fetchone()
    )


def days(book: Book, clinic_id: int) -> list[Day]:
    """The clinic's days by date, without those taken back; courts of one date share its number."""
    rows = book.db.execute(
        "SELECT day.id, clinic_id, date, court, coach.name,"
        " dense_rank() OVER (ORDER BY date) FROM day JOIN coach ON coach.id = coach_id"
        f" WHERE clinic_id = ? AND NOT {EMPTIED_DAY} ORDER BY date, court",
        [clinic_id],
    )
    return [
        Day(row_id, clinic, date.fromisoformat(on), court, coach, number)
        for row_id, clinic, on, court, coach, number in rows
    ]


def dates(book: Book, clinic_id: int, until: date | None = None) -> list[date]:
    """The clinic's dates in order, up to one of them."""
    rows = book.db.execute(
        f"SELECT DISTINCT date FROM day WHERE clinic_id = :clinic AND NOT {EMPTIED_DAY}"
        " AND (:until IS NULL OR date <= :until) ORDER BY date",
        {"clinic": clinic_id, "until": until.isoformat() if until else None},
    )
    return [date.fromisoformat(on) for (on,) in rows]


def day(book: Book, day_id: int) -> Day:
    """The day of that id."""
    (clinic_id,) = book.db.execute("SELECT clinic_id FROM day WHERE id = ?", [day_id]).fetchone()
    return next(found for found in days(book, clinic_id) if found.id == day_id)


def players(book: Book, clinic_id: int) -> list[Player]:
    """The clinic's roster in its order."""
    rows = book.db.execute(
        "SELECT player.id, name, hand, short_name FROM roster JOIN player ON player.id = player_id"
        " WHERE clinic_id = ? ORDER BY place",
        [clinic_id],
    )
    return with_labels([Player(*row) for row in rows])


def with_labels(roster: list[Player]) -> list[Player]:
    """The same players; those who share a name get labels that differ."""
    shown = labels([(player.name, player.short) for player in roster])
    return [
        player if label == player.name else replace(player, label=label)
        for player, label in zip(roster, shown, strict=True)
    ]


def player_on_roster(book: Book, clinic_id: int, name: str) -> Player:
    """The one player of the roster who is meant. Raises UnknownNameError."""
    roster = players(book, clinic_id)
    found = players_fitting(roster, name)
    if len(found) == 1:
        return found[0]
    names = ", ".join(player.shown_name for player in found or roster) or "nobody yet"
    if found:
        raise UnknownNameError(f"More than one player fits {name!r}: {names}.", "Write more of it.")
    raise UnknownNameError(
        f"There is no player called {name!r}.",
        f"On the roster: {names}. --clinic names another clinic.",
    )


def players_fitting(people: Sequence[Player], name: str) -> list[Player]:
    """Players whom the name may mean: by name, label or short name, else by a beginning."""
    wanted = folded_name(name)
    ways: tuple[Callable[[Player], bool], ...] = (
        lambda player: name in (player.name, player.shown_name),
        lambda player: wanted in (folded_name(player.name), folded_name(player.shown_name)),
        lambda player: wanted == folded_name(player.short),
        lambda player: any(
            folded_name(called).startswith(wanted) for called in (player.shown_name, player.short)
        ),
    )
    return next((fits for way in ways if (fits := list(filter(way, people)))), [])


def next_drill(book: Book, clinic_id: int, player_id: int) -> str | None:
    """The drill a taken rung call put down for the player's next round, if there is one."""
    row = book.db.execute(
        "SELECT next_drill FROM roster WHERE clinic_id = ? AND player_id = ?",
        [clinic_id, player_id],
    ).fetchone()
    return None if row is None else row[0]


def turns(book: Book, day_id: int) -> list[Turn]:
    """The day's turns at the ball, oldest first, players named by id."""
    rows = book.db.execute(
        "SELECT player_id, count(ball.id) FROM round"
        " JOIN ball ON ball.round_id = round.id AND ball.taken"
        " WHERE day_id = ? GROUP BY round.id ORDER BY place",
        [day_id],
    )
    return [Turn(str(player), balls) for player, balls in rows]


def last_activity(book: Book, round_id: int, long: int) -> int:
    """The moment of the round's last key, or of its beginning, with the pauses counted since.

    A pause has no row of its own. `long` milliseconds or more between two keys are taken as a pause
    counted then. What is left of the round's pauses came after the last key.
    """
    last, between, paused = book.db.execute(
        "WITH sign AS (SELECT 0 AS id, started_at AS at FROM round WHERE id = :round"
        "   UNION ALL SELECT journal.id, journal.at FROM ball JOIN journal ON ball_id = ball.id"
        "   WHERE round_id = :round),"
        " gap AS (SELECT at - lag(at) OVER (ORDER BY id) AS length FROM sign)"
        " SELECT coalesce((SELECT max(at) FROM sign), 0),"
        "   coalesce((SELECT sum(length) FROM gap WHERE length >= :long), 0), paused_ms"
        " FROM round WHERE id = :round",
        {"round": round_id, "long": long},
    ).fetchone()
    return int(last + max(0, paused - between))


def last_round_before(book: Book, round_id: int) -> int | None:
    """The round of the same day that was on court before this one, if its player is still here."""
    row = book.db.execute(
        "SELECT earlier.id FROM round JOIN round AS earlier"
        " ON earlier.day_id = round.day_id AND earlier.place < round.place"
        " AND EXISTS (SELECT 1 FROM ball WHERE round_id = earlier.id AND taken)"
        " JOIN day ON day.id = earlier.day_id JOIN roster"
        " ON roster.clinic_id = day.clinic_id AND roster.player_id = earlier.player_id"
        " WHERE round.id = ? ORDER BY earlier.place DESC LIMIT 1",
        [round_id],
    ).fetchone()
    return None if row is None else int(row[0])


@lru_cache(16)
def used_drill(card: str) -> UsedDrill:
    """A drill from its card; a clinic reads the same few again and again."""
    return take_json(UsedDrill, card)


def last_drill_of(
    book: Book, player_id: int, clinic_id: int
) -> tuple[UsedDrill, tuple[str, ...]] | None:
    """The drill and cues of the player's latest round in this clinic, one with balls first."""
    row = book.db.execute(
        "SELECT round.id, card FROM round JOIN drill_used ON drill_used.id = drill_id"
        " JOIN day ON day.id = day_id WHERE player_id = ? AND clinic_id = ?"
        f" ORDER BY {EMPTY_ROUND}, date DESC, {in_time('round', descending=True)} LIMIT 1",
        [player_id, clinic_id],
    ).fetchone()
    if row is None:
        return None
    return used_drill(row[1]), _cue_keys(book, row[0])


def first_drill(book: Book, clinic_id: int, stroke: str) -> str | None:
    """The drill (full name) that the clinic began this stroke with, the round on court counted."""
    row = book.db.execute(
        "SELECT drill_used.name FROM round JOIN drill_used ON drill_used.id = drill_id"
        f" JOIN day ON day.id = day_id WHERE clinic_id = ? AND stroke = ? AND NOT {EMPTY_ROUND}"
        " ORDER BY date, round.id LIMIT 1",
        [clinic_id, stroke],
    ).fetchone()
    return None if row is None else str(row[0])


def last_cues_of(book: Book, player_id: int, clinic_id: int, stroke: str) -> tuple[str, ...] | None:
    """The cues of the player's latest round on that stroke in this clinic."""
    row = book.db.execute(
        "SELECT round.id FROM round JOIN drill_used ON drill_used.id = drill_id"
        " JOIN day ON day.id = day_id WHERE player_id = ? AND clinic_id = ? AND stroke = ?"
        f" AND NOT {EMPTY_ROUND}"
        f" ORDER BY date DESC, {in_time('round', descending=True)} LIMIT 1",
        [player_id, clinic_id, stroke],
    ).fetchone()
    return None if row is None else _cue_keys(book, row[0])


def all_cues_of(book: Book, player_id: int, clinic_id: int, stroke: str) -> list[tuple[str, ...]]:
    """The cues of each of the player's rounds on that stroke in this clinic, the latest first."""
    rows = book.db.execute(
        "SELECT round.id FROM round JOIN drill_used ON drill_used.id = drill_id"
        " JOIN day ON day.id = day_id WHERE player_id = ? AND clinic_id = ? AND stroke = ?"
        f" AND NOT {EMPTY_ROUND} ORDER BY date DESC, {in_time('round', descending=True)}",
        [player_id, clinic_id, stroke],
    ).fetchall()
    return list(dict.fromkeys(_cue_keys(book, row) for (row,) in rows))


def live_round(book: Book, round_id: int) -> LiveRound:
    """A round as it stands: every ball, the open one, and the keys that can be taken back."""
    row = book.db.execute(
        "SELECT day_id, clinic_id, player_id, card, purpose, started_at, ended_at, planned_balls,"
        f" {FEED_COLUMNS} FROM round JOIN drill_used ON drill_used.id = drill_id"
        " JOIN day ON day.id = day_id"
        " WHERE round.id = ?",
        [round_id],
    ).fetchone()
    if row is None:
        raise UnknownNameError("That round is not in the book.")
    day_id, clinic_id, player_id, card, purpose, started, ended, balls, *feeds = row
    cue_keys = _cue_keys(book, round_id)
    used = used_drill(card)
    main = main_cue_lookups.named_main(book, clinic_id, player_id, used.stroke)
    return LiveRound(
        id=round_id,
        day_id=day_id,
        player=_player_of_round(book, clinic_id, player_id),
        drill=used,
        purpose=Purpose(purpose),
        cue_keys=cue_keys,
        feeding=_feeding(book, round_id, len(cue_keys), feeds_of(*feeds)),
        started_at=started,
        ended_at=ended,
        plan_balls=balls,
        main=main or "",
        before=feed_lookups.rounds_before(book, round_id),
        wordings_said=feed_lookups.spoken_after(book, round_id),
    )


def _player_of_round(book: Book, clinic_id: int, player_id: int) -> Player:
    roster = players(book, clinic_id)
    row = book.db.execute(
        "SELECT id, name, hand, short_name FROM player WHERE id = ?", [player_id]
    ).fetchone()
    return next((player for player in roster if player.id == player_id), Player(*row))


def _cue_keys(book: Book, round_id: int) -> tuple[str, ...]:
    rows = book.db.execute("SELECT cue FROM round_cue WHERE round_id = ? ORDER BY row", [round_id])
    return tuple(cue for (cue,) in rows)


def _feeding(book: Book, round_id: int, cues: int, feeds: Feeds) -> Feeding:
    grades: dict[int, list[Grade | None]] = {}
    for number, row, grade in book.db.execute(
        "SELECT number, row, grade FROM ball JOIN rating ON ball_id = ball.id WHERE round_id = ?",
        [round_id],
    ):
        grades.setdefault(number, [None] * cues)[row] = Grade(grade)
    taken: list[Ball] = []
    open_ball = None
    for number, is_taken, tough, clip in book.db.execute(
        "SELECT number, taken, tough, clip_at FROM ball WHERE round_id = ? AND number > 0"
        " ORDER BY number DESC",
        [round_id],
    ):
        ball = Ball(tuple(grades.get(number, [None] * cues)), bool(tough), clip)
        if is_taken:
            taken.append(ball)
        else:
            open_ball = ball  # the lowest open number wins: later ones were taken back to nothing
    steps = book.db.execute(
        "SELECT number, before, after FROM journal JOIN ball ON ball.id = ball_id"
        " WHERE round_id = ? AND number > 0 AND kind = 'key'"
        " AND NOT EXISTS (SELECT 1 FROM journal AS undo WHERE undo.undoes = journal.id)"
        " ORDER BY journal.id",
        [round_id],
    )
    if open_ball is None:
        open_ball = Ball.unseen(cues, feeds.is_tough(len(taken) + 1))
    state = Feeding(cues, tuple(reversed(taken)), open_ball, (), feeds)
    return with_steps(state, [as_step(*step) for step in steps])
