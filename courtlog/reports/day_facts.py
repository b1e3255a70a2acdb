"""The facts of a day as printed and as JSON: counts and shares, and no claim about change."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from datetime import date
from typing import TypeVar

from pydantic import BaseModel, ConfigDict

from courtlog.coaching import times
from courtlog.coaching.counts import Counts
from courtlog.coaching.grades import DIGITS, LOOKS
from courtlog.coaching.people import Clinic, Day, Player
from courtlog.coaching.records import CheckIn
from courtlog.errors import UnknownNameError
from courtlog.logbook import day_lookups, lookups
from courtlog.logbook.day_lookups import DayCounts, Noted, PlayedRound
from courtlog.logbook.opening import Book

Row = TypeVar("Row", PlayedRound, Noted)


class _Facts(BaseModel):
    model_config = ConfigDict(frozen=True)


class CueDay(_Facts):
    """One cue on one date: balls missed, near, made and not seen, and the share made of seen."""

    date: date
    missed: int
    near: int
    made: int
    unseen: int
    share: float | None

    @property
    def counts(self) -> Counts:
        """The same as counts."""
        return Counts(self.missed, self.near, self.made, self.unseen)


class CueFacts(_Facts):
    """One cue of one stroke across the clinic's dates, oldest first."""

    stroke: str
    cue: str
    name: str
    days: tuple[CueDay, ...]

    @property
    def today(self) -> Counts:
        """Counts on the last of the dates."""
        return self.days[-1].counts

    @property
    def before(self) -> tuple[int, Counts] | None:
        """The last earlier day with a ball seen: its number from 1 and counts; None if none."""
        for at in range(len(self.days) - 2, -1, -1):
            if self.days[at].counts.seen:
                return at + 1, self.days[at].counts
        return None


class RoundFacts(_Facts):
    """One round as played."""

    drill: str
    name: str
    rung: int
    purpose: str
    balls: int
    tough: int
    minutes: float | None


class NoteFacts(_Facts):
    """A note or clip mark, with its drill, ball (none: the whole round) and time of day."""

    drill: str
    ball: int | None
    text: str
    time: str | None


class PlayerDay(_Facts):
    """One player's day."""

    player: str
    balls: int
    tough: int
    minutes: float | None
    rounds: tuple[RoundFacts, ...]
    cues: tuple[CueFacts, ...]
    notes: tuple[NoteFacts, ...]
    clips: tuple[NoteFacts, ...]
    check_ins: tuple[str, ...]


class DayFacts(_Facts):
    """One date of a clinic, on all its courts."""

    clinic: str
    zone: str
    date: date
    number: int
    courts: tuple[str, ...]
    coaches: tuple[str, ...]
    players: tuple[PlayerDay, ...]


class TrendFacts(_Facts):
    """One player's cues across all dates of a clinic."""

    clinic: str
    player: str
    dates: tuple[date, ...]
    cues: tuple[CueFacts, ...]


def day_facts(book: Book, clinic: Clinic, on: date | None, player: str | None) -> DayFacts:
    """The facts of a date (None: the latest). Raises UnknownNameError for a date or player."""
    days = lookups.days(book, clinic.id)
    chosen = _days_of(days, on)
    on = chosen[0].date
    roster = lookups.players(book, clinic.id)
    if player is not None:
        roster = [lookups.player_named(book, clinic.id, player)]
    rounds = _by_player(day_lookups.rounds_on(book, clinic.id, on))
    notes = _by_player(day_lookups.notes_on(book, clinic.id, on))
    clips = _by_player(day_lookups.clips_on(book, clinic.id, on))
    check_ins = day_lookups.check_ins_on(book, clinic.id, on)
    dates = _dates(days, on)
    present = [
        who for who in roster if who.id in rounds or who.id in check_ins or player is not None
    ]
    return DayFacts(
        clinic=clinic.name,
        zone=clinic.zone,
        date=on,
        number=chosen[0].number,
        courts=tuple(day.court for day in chosen if day.court),
        coaches=tuple(dict.fromkeys(day.coach for day in chosen if day.coach)),
        players=tuple(
            _player_day(
                book,
                clinic,
                who,
                dates,
                rounds[who.id],
                notes[who.id],
                clips[who.id],
                check_ins.get(who.id, []),
            )
            for who in present
        ),
    )


def trend_facts(book: Book, clinic: Clinic, player: str) -> TrendFacts:
    """All cues of one player over the clinic. Raises UnknownNameError."""
    who = lookups.player_named(book, clinic.id, player)
    dates = _dates(lookups.days(book, clinic.id), None)
    rows = day_lookups.counts_by_day(book, clinic.id, who.id)
    return TrendFacts(
        clinic=clinic.name, player=who.name, dates=tuple(dates), cues=_cues(book, rows, dates)
    )


def _days_of(days: list[Day], on: date | None) -> list[Day]:
    if not days:
        raise UnknownNameError("This clinic has no day yet.", "`courtlog` begins one.")
    wanted = days[-1].date if on is None else on
    found = [day for day in days if day.date == wanted]
    if not found:
        known = ", ".join(dict.fromkeys(day.date.isoformat() for day in days))
        raise UnknownNameError(f"The clinic has no day on {wanted}.", f"It has {known}.")
    return found


def _dates(days: Iterable[Day], until: date | None) -> list[date]:
    return sorted({day.date for day in days if until is None or day.date <= until})


def _by_player(rows: list[Row]) -> dict[int, list[Row]]:
    found: dict[int, list[Row]] = defaultdict(list)
    for row in rows:
        found[row.player_id].append(row)
    return found


def _player_day(
    book: Book,
    clinic: Clinic,
    player: Player,
    dates: list[date],
    rounds: list[PlayedRound],
    notes: list[Noted],
    clips: list[Noted],
    check_ins: list[CheckIn],
) -> PlayerDay:
    rows = day_lookups.counts_by_day(book, clinic.id, player.id)
    seen_today = {(row.stroke, row.cue) for row in rows if row.date == dates[-1]}
    cues = [cue for cue in _cues(book, rows, dates) if (cue.stroke, cue.cue) in seen_today]
    minutes = [round_.minutes for round_ in rounds if round_.minutes is not None]
    return PlayerDay(
        player=player.name,
        balls=sum(round_.balls for round_ in rounds),
        tough=sum(round_.tough for round_ in rounds),
        minutes=round(sum(minutes), 1) if minutes else None,
        rounds=tuple(
            RoundFacts(
                drill=round_.drill,
                name=round_.drill_name,
                rung=round_.rung,
                purpose=round_.purpose,
                balls=round_.balls,
                tough=round_.tough,
                minutes=None if round_.minutes is None else round(round_.minutes, 1),
            )
            for round_ in rounds
        ),
        cues=tuple(cues),
        notes=tuple(_note(note, clinic) for note in notes),
        clips=tuple(_clip(clip, clinic) for clip in clips),
        check_ins=tuple(check_in.words() for check_in in check_ins),
    )


def _cues(book: Book, rows: list[DayCounts], dates: list[date]) -> tuple[CueFacts, ...]:
    """Cues in stroke order, each over all these dates; dates without a ball have zero counts."""
    found: dict[tuple[str, str], dict[date, Counts]] = defaultdict(dict)
    for row in rows:
        if row.date in dates:
            found[row.stroke, row.cue][row.date] = row.counts
    names = day_lookups.cue_names(book)
    order = list(names)
    known = sorted(found, key=lambda key: order.index(key) if key in names else len(order))
    return tuple(
        CueFacts(
            stroke=stroke,
            cue=cue,
            name=names.get((stroke, cue), cue),
            days=tuple(_cue_day(on, found[stroke, cue].get(on, Counts())) for on in dates),
        )
        for stroke, cue in known
    )


def _cue_day(on: date, counts: Counts) -> CueDay:
    return CueDay(
        date=on,
        missed=counts.missed,
        near=counts.near,
        made=counts.made,
        unseen=counts.unseen,
        share=counts.share,
    )


def _note(note: Noted, clinic: Clinic) -> NoteFacts:
    time = None if note.at is None else times.clock_words(note.at, clinic.place)
    return NoteFacts(drill=note.drill, ball=note.ball, text=note.text, time=time)


def _clip(clip: Noted, clinic: Clinic) -> NoteFacts:
    pieces = clip.text.split()
    words = [
        f"{cue} {LOOKS[DIGITS[digit]].word}"
        for cue, digit in zip(pieces[::2], pieces[1::2], strict=True)
    ]
    text = ", ".join(words) or "no cue seen"
    return _note(clip, clinic).model_copy(update={"text": text})
