"""Look-ups for trends and summaries. Trends read tallies, so they cost by days, not by balls."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from courtlog.coaching.answers.drill_mix import DrillMix
from courtlog.coaching.game.clinic_record import (
    BallRecord,
    CheckIn,
    ClinicRecord,
    DayRecord,
    RosterEntry,
    RoundRecord,
)
from courtlog.coaching.game.counts import Counts, total
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.rounds import Purpose
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.rows.check_ins import COLUMNS, as_check_in
from courtlog.logbook.rows.ids import in_time

_RoundRow = tuple[int, int, str, int | None, int | None, int]


@dataclass(frozen=True, slots=True)
class DayCounts:
    """Counts of one player on one cue on one date, all drills together and each by its name."""

    player_id: int
    stroke: str
    cue: str
    date: date
    counts: Counts
    by_drill: Mapping[str, Counts]

    @property
    def drills(self) -> DrillMix:
        """The seen balls of each drill."""
        return {drill: counts.seen for drill, counts in self.by_drill.items()}


def counts_by_day(
    book: Book, clinic_id: int, player_id: int | None = None, stroke: str | None = None
) -> list[DayCounts]:
    """Counts by player, stroke, cue and date of a clinic, all drills and purposes together."""
    rows = book.db.execute(
        "SELECT player_id, tally.stroke, cue, date, name,"
        " sum(missed), sum(near), sum(made), sum(unseen)"
        " FROM tally JOIN day ON day.id = day_id JOIN drill_used ON drill_used.id = drill_id"
        " WHERE clinic_id = :clinic"
        " AND player_id IN (SELECT player_id FROM roster WHERE clinic_id = :clinic"
        "   AND (:player IS NULL OR player_id = :player))"
        " AND (:stroke IS NULL OR tally.stroke = :stroke)"
        " GROUP BY 1, 2, 3, 4, 5 HAVING sum(missed + near + made + unseen) > 0"
        " ORDER BY 1, 2, 3, 4, 5",
        {"clinic": clinic_id, "player": player_id, "stroke": stroke},
    )
    by_day: dict[tuple[int, str, str, str], dict[str, Counts]] = {}
    for who, of, cue, on, drill, *counts in rows:
        by_day.setdefault((who, of, cue, on), {})[drill] = Counts(*counts)
    return [
        DayCounts(who, of, cue, date.fromisoformat(on), total(drills.values()), drills)
        for (who, of, cue, on), drills in by_day.items()
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayedRound:
    """A round of a day as summaries need it: the drill as used, balls and minutes."""

    player_id: int
    """Whose round it was."""
    court: str
    """The court it was played on."""
    drill: str
    """The drill's full name, as `forehand/hand-feed`."""
    drill_name: str
    """The drill's name for people."""
    rung: int
    """The drill's rung on the ladder."""
    purpose: Purpose
    """What the round was for."""
    balls: int
    """Balls taken."""
    tough: int
    """Tough balls among them."""
    started_at: int | None
    """When it began, ms UTC; None when nobody noted it."""
    ended_at: int | None
    """When it ended, or its last ball was taken, ms UTC."""
    paused_ms: int
    """Pauses, in milliseconds."""

    @property
    def minutes(self) -> float | None:
        """Minutes from start to end without pauses; None when nobody noted the times."""
        if self.started_at is None or self.ended_at is None:
            return None
        return max(0, self.ended_at - self.started_at - self.paused_ms) / 60_000


def rounds_on(book: Book, clinic_id: int, on: date) -> list[PlayedRound]:
    """Rounds of a date with at least one ball, in their order."""
    rows = book.db.execute(
        "SELECT player_id, day.court, drill_used.name, card ->> '$.drill.name', rung, purpose,"
        " count(ball.id), sum(tough), started_at, coalesce(ended_at, max(taken_at)), paused_ms"
        " FROM day JOIN round ON round.day_id = day.id"
        " JOIN drill_used ON drill_used.id = drill_id"
        " JOIN ball ON ball.round_id = round.id AND ball.taken"
        f" WHERE clinic_id = ? AND date = ? GROUP BY round.id ORDER BY {in_time('round')}",
        [clinic_id, on.isoformat()],
    )
    return [
        PlayedRound(
            player_id=player,
            court=court,
            drill=drill,
            drill_name=name,
            rung=rung,
            purpose=Purpose(purpose),
            balls=balls,
            tough=tough,
            started_at=started,
            ended_at=ended,
            paused_ms=paused,
        )
        for player, court, drill, name, rung, purpose, balls, tough, started, ended, paused in rows
    ]


@dataclass(frozen=True, slots=True)
class BallNote:
    """A note or a clip mark: whose, on which drill, on which ball (None: the whole round)."""

    player_id: int
    drill: str
    ball_number: int | None
    text: str
    at_ms: int | None


def notes_on(book: Book, clinic_id: int, on: date) -> list[BallNote]:
    """Notes of a date in the order of the balls."""
    rows = book.db.execute(
        "SELECT player_id, drill_used.name, ball.number, text, at FROM day"
        " JOIN round ON round.day_id = day.id JOIN drill_used ON drill_used.id = drill_id"
        " JOIN note ON note.round_id = round.id LEFT JOIN ball ON ball.id = ball_id"
        " WHERE clinic_id = ? AND date = ? AND coalesce(ball.number, 1) > 0"
        f" ORDER BY {in_time('round')}, ball.number IS NULL, ball.number, note.id",
        [clinic_id, on.isoformat()],
    )
    return [BallNote(*row) for row in rows]


def clips_on(book: Book, clinic_id: int, on: date) -> list[BallNote]:
    """Clip marks of a date by time; the text gives cues and grades (`turn 2 finish 0`)."""
    rows = book.db.execute(
        "SELECT player_id, drill_used.name, ball.number,"
        " coalesce((SELECT group_concat(cue || ' ' || grade, ' ') FROM (SELECT cue, grade"
        "   FROM round_cue JOIN rating ON ball_id = ball.id AND rating.row = round_cue.row"
        "   WHERE round_cue.round_id = round.id ORDER BY round_cue.row)), ''), clip_at"
        " FROM day JOIN round ON round.day_id = day.id"
        " JOIN drill_used ON drill_used.id = drill_id"
        " JOIN ball ON ball.round_id = round.id AND clip_at IS NOT NULL AND taken"
        " WHERE clinic_id = ? AND date = ? ORDER BY clip_at",
        [clinic_id, on.isoformat()],
    )
    return [BallNote(*row) for row in rows]


@dataclass(frozen=True, slots=True)
class CueWords:
    """A cue's name, the same for whoever was not there, and the two phrases to say."""

    name: str
    plain_name: str
    say_inner: str
    say_outer: str


def cue_words(book: Book) -> dict[tuple[str, str], CueWords]:
    """What is said of all cues by stroke and key, as the latest drill used had them."""
    cards = book.db.execute(
        "SELECT stroke, cue.value ->> '$.key', cue.value ->> '$.name',"
        " cue.value ->> '$.plain_name', cue.value ->> '$.say_inner', cue.value ->> '$.say_outer'"
        " FROM drill_used, json_each(card, '$.cues') AS cue"
        " WHERE drill_used.id IN (SELECT max(id) FROM drill_used GROUP BY stroke)"
        " ORDER BY stroke, cue.key",
    )
    return {
        (stroke, key): CueWords(name, plain_name or name, inner, outer)
        for stroke, key, name, plain_name, inner, outer in cards
    }


def cue_names(book: Book) -> dict[tuple[str, str], str]:
    """Names of all cues by stroke and key, in stroke order, as the latest drill used had them."""
    return {key: words.name for key, words in cue_words(book).items()}


def stroke_titles(book: Book) -> dict[str, str]:
    """Titles of all strokes, as the latest drill used had them."""
    rows = book.db.execute("SELECT stroke, card ->> '$.title' FROM drill_used ORDER BY id")
    return dict(rows.fetchall())


def drill_names(book: Book) -> dict[str, str]:
    """Names of all drills by full name, as they read when last used."""
    rows = book.db.execute("SELECT name, card ->> '$.drill.name' FROM drill_used ORDER BY id")
    return dict(rows.fetchall())


def balls_until(book: Book, clinic_id: int, player_id: int, until: date) -> int:
    """Balls of a player in a clinic up to a date."""
    (balls,) = book.db.execute(
        "SELECT count(*) FROM day JOIN round ON round.day_id = day.id"
        " JOIN ball ON ball.round_id = round.id AND taken"
        " WHERE player_id = ? AND clinic_id = ? AND date <= ?",
        [player_id, clinic_id, until.isoformat()],
    ).fetchone()
    return int(balls)


def check_ins_on(book: Book, clinic_id: int, on: date) -> dict[int, list[CheckIn]]:
    """Check-ins of a date by player."""
    found: dict[int, list[CheckIn]] = {}
    for player, _, check_in in _check_ins(book, clinic_id, on):
        found.setdefault(player, []).append(check_in)
    return found


def record(book: Book, clinic: Clinic, on: date | None = None) -> ClinicRecord:
    """The clinic, or one date of it, as the values a sheet is written from.

    Rounds that are nobody's any more (their player was removed) are on no sheet.
    """
    roster = lookups.players(book, clinic.id)
    kept = [day for day in lookups.days(book, clinic.id) if on is None or day.date == on]
    days = []
    for day in kept:
        check_ins = loose_check_ins(book, clinic.id, day.date, day.id)
        rounds = tuple(round_ for _, round_ in recorded_rounds(book, clinic.id, day.date, day.id))
        days.append(DayRecord(day.date, day.court, day.coach, rounds, check_ins))
    entries = tuple(RosterEntry(player.shown_name, player.hand) for player in roster)
    return ClinicRecord(clinic.name, clinic.zone, entries, tuple(days), clinic.planned_days)


def recorded_rounds(
    book: Book, clinic_id: int, on: date, day_id: int
) -> list[tuple[int, RoundRecord]]:
    """The rounds of a day in which anything was said, with their ids, in their order."""
    names = {player.id: player.shown_name for player in lookups.players(book, clinic_id)}
    by_round: dict[int, list[CheckIn]] = {}
    for _, round_id, check_in in _check_ins(book, clinic_id, on, day_id):
        if round_id is not None:
            by_round.setdefault(round_id, []).append(check_in)
    rows = [row for row in _round_rows(book, day_id) if row[1] in names]
    rounds = [(row[0], _round(book, row, names, by_round)) for row in rows]
    return [(round_id, round_) for round_id, round_ in rounds if round_.has_something]


def loose_check_ins(book: Book, clinic_id: int, on: date, day_id: int) -> tuple[CheckIn, ...]:
    """The check-ins of a day that belong to no round."""
    said = _check_ins(book, clinic_id, on, day_id)
    return tuple(check_in for _, round_id, check_in in said if round_id is None)


def rounds_of_nobody(book: Book, clinic_id: int, on: date | None = None) -> int:
    """How many rounds `record` leaves out, since their player was removed."""
    (count,) = book.db.execute(
        "SELECT count(*) FROM day JOIN round ON round.day_id = day.id"
        " WHERE day.clinic_id = ?1 AND (?2 IS NULL OR date = ?2)"
        " AND player_id NOT IN (SELECT player_id FROM roster WHERE clinic_id = ?1)"
        " AND EXISTS (SELECT 1 FROM ball WHERE round_id = round.id AND taken)",
        [clinic_id, on.isoformat() if on else None],
    ).fetchone()
    return int(count)


def _round_rows(book: Book, day_id: int) -> list[_RoundRow]:
    rows: list[_RoundRow] = book.db.execute(
        "SELECT id, player_id, (SELECT name FROM drill_used WHERE id = drill_id),"
        " started_at, ended_at, paused_ms FROM round WHERE day_id = ? ORDER BY place",
        [day_id],
    ).fetchall()
    return rows


def _round(
    book: Book,
    row: _RoundRow,
    names: dict[int, str],
    check_ins: dict[int, list[CheckIn]],
) -> RoundRecord:
    round_id, player, drill, started, ended, paused_ms = row
    live = lookups.live_round(book, round_id)
    by_ball: dict[int | None, list[str]] = {}
    for number, text in book.db.execute(
        "SELECT number, text FROM note LEFT JOIN ball ON ball.id = ball_id"
        " WHERE note.round_id = ? ORDER BY note.id",
        [round_id],
    ):
        by_ball.setdefault(number, []).append(text)
    return RoundRecord(
        player=names[player],
        drill=drill,
        purpose=live.purpose,
        cues=live.cue_keys,
        balls=tuple(
            BallRecord(ball, tuple(by_ball.get(number, ())))
            for number, ball in enumerate(live.feeding.taken, 1)
        ),
        started=started,
        ended=ended,
        paused=paused_ms // 1000,
        order=live.feeding.feeds.spots,
        notes=tuple(by_ball.get(None, ())),
        check_ins=tuple(check_ins.get(round_id, ())),
    )


def _check_ins(
    book: Book, clinic_id: int, on: date, day_id: int | None = None
) -> list[tuple[int, int | None, CheckIn]]:
    rows = book.db.execute(
        f"SELECT player_id, round_id, {COLUMNS} FROM day JOIN check_in ON check_in.day_id = day.id"
        " JOIN player ON player.id = player_id"
        " WHERE clinic_id = ? AND date = ? AND (? IS NULL OR day.id = ?) ORDER BY check_in.id",
        [clinic_id, on.isoformat(), day_id, day_id],
    )
    names = {player.id: player.shown_name for player in lookups.players(book, clinic_id)}
    return [
        (player, round_id, replace(as_check_in(*columns), player=names[player]))
        for player, round_id, *columns in rows
    ]
