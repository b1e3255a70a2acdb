"""Look-ups of care: reds, clinicians' words, cautions, who is held back, heat and load."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from courtlog import times
from courtlog.coaching.care.arm_care import (
    Caution,
    CautionLevel,
    DatedCheckIn,
    cautions,
    standing_amber,
)
from courtlog.coaching.care.arm_load import at_full_speed
from courtlog.coaching.care.heat_care import HeatReading
from courtlog.coaching.game.drills import Feed
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.red_flags import check_ins_of, is_minor
from courtlog.measures.court_day.load import session_load


@dataclass(frozen=True, slots=True)
class ClinicianWord:
    """A clinician's word on a red: who gave it, and when it was written down."""

    who: str
    text: str
    at_ms: int


@dataclass(frozen=True, slots=True)
class Red:
    """A red, which stays, with the clinicians' words on it."""

    id: int
    player_id: int
    date: date
    reason: str
    words: tuple[ClinicianWord, ...]


def reds(book: Book, clinic_id: int, until: date) -> list[Red]:
    """The clinic's reds up to a date, oldest first."""
    words: dict[int, list[ClinicianWord]] = {}
    for red, who, text, at in book.db.execute(
        "SELECT red_flag_id, who, text, at FROM clinician_word ORDER BY id"
    ):
        words.setdefault(red, []).append(ClinicianWord(who, text, at))
    rows = book.db.execute(
        "SELECT red_flag.id, player_id, date, reason FROM day"
        " JOIN red_flag ON red_flag.day_id = day.id"
        " WHERE clinic_id = ? AND date <= ? ORDER BY date, red_flag.id",
        [clinic_id, until.isoformat()],
    )
    return [
        Red(row_id, player, date.fromisoformat(on), reason, tuple(words.get(row_id, ())))
        for row_id, player, on, reason in rows
    ]


def standing_reds(book: Book, clinic_id: int, player_id: int, on: date) -> list[Red]:
    """A player's reds that hold on this date, oldest first: its own, and those without a word."""
    of_player = [red for red in reds(book, clinic_id, on) if red.player_id == player_id]
    return [red for red in of_player if red.date == on or not red.words]


def reds_in_words(book: Book, ids: Sequence[int]) -> list[str]:
    """`Tove, Tue 12 May: pain 6, more than 5`, for each of these reds."""
    rows = [
        book.db.execute(
            "SELECT player.name, date, reason FROM red_flag JOIN day ON day.id = day_id"
            " JOIN player ON player.id = player_id WHERE red_flag.id = ?",
            [red],
        ).fetchone()
        for red in ids
    ]
    return [
        f"{name}, {times.date_words(date.fromisoformat(on))}: {reason}" for name, on, reason in rows
    ]


def held_back(book: Book, clinic_id: int, day_id: int) -> dict[int, str]:
    """Players whom a red takes off the feed on this day, each with the reason in words.

    A red of the day always does; a red of an earlier day until there is a clinician's word on it.
    """
    return held_back_on(book, clinic_id, date_of(book, day_id))


def held_back_on(book: Book, clinic_id: int, today: date) -> dict[int, str]:
    """The same for a date that may have no day yet."""
    reasons: dict[int, list[str]] = {}
    for red in reds(book, clinic_id, today):
        if red.date == today:
            reasons.setdefault(red.player_id, []).append(f"red today: {red.reason}")
        elif not red.words:
            on = times.date_words(red.date)
            why = f"red on {on}, no clinician's word yet: {red.reason}"
            reasons.setdefault(red.player_id, []).append(why)
    return {player: "; ".join(why) for player, why in reasons.items()}


@dataclass(frozen=True, slots=True)
class StandingAmber:
    """An amber of an earlier day that nobody has asked about since, and what was told then."""

    date: date
    reason: str
    told: DatedCheckIn

    @property
    def words(self) -> str:
        """`amber on Mon 11 May: pain elbow 4, more than 2`."""
        return f"amber on {times.date_words(self.date)}: {self.reason}"


def ask_first_on(
    book: Book, clinic_id: int, on: date, known_on: date | None = None
) -> dict[int, StandingAmber]:
    """Players to ask about their arm before anything is planned for them on this date.

    Their last check-ins left an amber. Any check-in of this date ends that, and so does a
    clinician's word given after it. With `known_on` only what was said up to that date counts.
    """
    asked = book.db.execute(
        "SELECT DISTINCT player_id FROM day JOIN check_in ON check_in.day_id = day.id"
        " WHERE clinic_id = ? AND date < ? AND pain > 0",
        [clinic_id, on.isoformat()],
    )
    return {
        player: amber
        for (player,) in asked.fetchall()
        if (amber := standing_amber_of(book, clinic_id, player, on, known_on)) is not None
    }


def standing_amber_of(
    book: Book, clinic_id: int, player_id: int, on: date, known_on: date | None = None
) -> StandingAmber | None:
    """The same for one player; None where nothing has to be asked first."""
    until = on if known_on is None else min(on, known_on)
    check_ins = [
        said for _, said in check_ins_of(book.db, clinic_id, player_id) if said.date <= until
    ]
    amber = standing_amber(check_ins, is_minor(book.db, player_id))
    if amber is None or check_ins[amber.place].date == on:
        return None
    said = check_ins[amber.place]
    flags = [red for red in reds(book, clinic_id, on) if red.player_id == player_id]
    if any(_answers(said, red, word) for red in flags for word in red.words):
        return None
    return StandingAmber(said.date, amber.reason, said)


def _answers(said: DatedCheckIn, red: Red, word: ClinicianWord) -> bool:
    """Whether a clinician's word came after the check-in; by date where its time is not known."""
    if said.check_in.at_ms is None:
        return red.date >= said.date
    return word.at_ms >= said.check_in.at_ms


def cautions_on(book: Book, clinic_id: int, player_id: int, on: date) -> tuple[Caution, ...]:
    """The cautions of the player's check-ins of one date, held against the days before."""
    check_ins = [s for _, s in check_ins_of(book.db, clinic_id, player_id) if s.date <= on]
    raised = cautions(check_ins, is_minor(book.db, player_id))
    return tuple(caution for caution in raised if check_ins[caution.place].date == on)


def worst_amber_on(book: Book, clinic_id: int, player_id: int, on: date) -> str:
    """The reason of the amber with the most pain on that date; empty without one."""
    check_ins = [s for _, s in check_ins_of(book.db, clinic_id, player_id) if s.date <= on]
    ambers = [
        caution
        for caution in cautions(check_ins, is_minor(book.db, player_id))
        if caution.level is CautionLevel.AMBER and check_ins[caution.place].date == on
    ]
    worst = max(ambers, key=lambda c: check_ins[c.place].check_in.pain or 0, default=None)
    return worst.reason if worst is not None else ""


def levels_on(book: Book, clinic_id: int, day_id: int) -> dict[int, CautionLevel]:
    """Who has an amber of this day or a red of the clinic up to it; a red outlasts everything."""
    today = date_of(book, day_id)
    asked = book.db.execute(
        "SELECT DISTINCT player_id FROM day JOIN check_in ON check_in.day_id = day.id"
        " WHERE clinic_id = ? AND date = ? AND pain > 0",
        [clinic_id, today.isoformat()],
    )
    levels = {
        player: CautionLevel.AMBER
        for (player,) in asked.fetchall()
        if cautions_on(book, clinic_id, player, today)
    }
    return levels | {red.player_id: CautionLevel.RED for red in reds(book, clinic_id, today)}


def date_of(book: Book, day_id: int) -> date:
    """The date of the day of that id."""
    (on,) = book.db.execute("SELECT date FROM day WHERE id = ?", [day_id]).fetchone()
    return date.fromisoformat(on)


def heat_on(book: Book, clinic_id: int, on: date) -> list[HeatReading]:
    """The clinic's readings of a date, oldest first."""
    rows = book.db.execute(
        "SELECT celsius, humidity, wbgt, at FROM day JOIN heat ON heat.day_id = day.id"
        " WHERE clinic_id = ? AND date = ? ORDER BY at, heat.id",
        [clinic_id, on.isoformat()],
    )
    return [HeatReading(*row) for row in rows]


def full_speed_hits(book: Book, clinic_id: int, player_id: int, on: date) -> Mapping[str, int]:
    """Balls taken at full speed on a date by stroke, the most hit first; nothing where none was."""
    rows = book.db.execute(
        "SELECT stroke, feed, rung, count(*) FROM day JOIN round ON round.day_id = day.id"
        " JOIN drill_used ON drill_used.id = drill_id"
        " JOIN ball ON ball.round_id = round.id AND taken"
        " WHERE clinic_id = ? AND date = ? AND player_id = ? GROUP BY stroke, feed, rung",
        [clinic_id, on.isoformat(), player_id],
    )
    hits: dict[str, int] = {}
    for stroke, feed, rung, balls in rows:
        if at_full_speed(stroke, Feed(feed), rung):
            hits[stroke] = hits.get(stroke, 0) + balls
    return dict(sorted(hits.items(), key=lambda row: (-row[1], row[0])))


def loads_by_date(book: Book, clinic_id: int, player_id: int) -> Mapping[date, float]:
    """Effort times minutes by date, for dates on which the player gave both."""
    loads: dict[date, float] = {}
    for _, on_date in check_ins_of(book.db, clinic_id, player_id):
        effort, minutes = on_date.check_in.effort, on_date.check_in.minutes
        if effort is not None and minutes is not None:
            loads[on_date.date] = loads.get(on_date.date, 0.0) + session_load(effort, minutes)
    return loads


def usual_week(book: Book, clinic_id: int, player_id: int) -> str:
    """The player's word on a usual week before the clinic; empty where nobody asked."""
    row = book.db.execute(
        "SELECT usual_week FROM roster WHERE clinic_id = ? AND player_id = ?",
        [clinic_id, player_id],
    ).fetchone()
    return "" if row is None else str(row[0])
