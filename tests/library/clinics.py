"""Clinics drawn at random: every text a coach could paste, over the drills that are shipped."""

from __future__ import annotations

from datetime import date, time, timedelta

from hypothesis import strategies as st

from courtlog import times
from courtlog.coaching.game.clinic_record import (
    BallRecord,
    CheckIn,
    CheckInMoment,
    ClinicRecord,
    DayRecord,
    RosterEntry,
    RoundRecord,
    Sign,
)
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from tests.library.shelf import shipped

ZONES = (
    *("UTC", "Europe/Lisbon", "Asia/Tokyo", "Asia/Kathmandu", "America/St_Johns"),
    *("Australia/Lord_Howe", "Pacific/Apia", "Africa/Casablanca", "America/Asuncion"),
)
"""With clocks that move by an hour, by half of one, at midnight, in Ramadan, and by a whole day."""

DAYS = st.dates(date(2011, 1, 1), date(2027, 12, 31)) | st.sampled_from(
    [
        *(date(2026, 10, 25), date(2026, 3, 29), date(2026, 11, 1), date(2026, 4, 5)),
        *(date(2011, 12, 29), date(2011, 12, 31), date(2026, 2, 15), date(2024, 3, 24)),
    ]
)
"""Any date, and those on which these zones move their clocks; Samoa had no 30 December 2011."""

NASTY = (
    *("Maren", "Tove", " ", "  ", '"', "'", "\\", "\\n", "#", "# no comment", "@", ":", "!", "."),
    *("clinic", "days", "player", "drill", "court", "cues", "note", "pain", "time", "when", "zone"),
    *("222", "2-0!", "0", "-", "=1+1", "../x", "[b]bold[/b]", "\t", "\n", "\r", "\r\n", "\0"),
    *("\x1b[31m", "\x07", "\x7f", "\x85", "\x9b", "\u00a0", "\u200d", "\u200f", "\u202e"),
    *(
        "\u2028",
        "\ufeff",
        "\ufffd",
        "é",
        "e\u0301",
        "木村",
        "😀",
        "👩‍👧",
        "\U000e0001",
        "\U0010ffff",
    ),
)
ANY = st.characters(exclude_categories=["Cs"])
NAMES = st.lists(st.sampled_from(NASTY) | ANY, min_size=1, max_size=4).map("".join)
TEXTS = st.just("") | NAMES

LONGEST = 4 * 24 * 3600
"""A round lies open for days where a laptop was shut on it."""


def _seconds(most: int) -> st.SearchStrategy[int]:
    return st.integers(0, most).map(lambda seconds: 1000 * seconds)


@st.composite
def _on_the_day(draw: st.DrawFn, day: date, zone: str) -> int:
    """Mostly of that date; a day goes on after midnight for whoever goes on with it."""
    clock = draw(st.times(time(0), time(23, 59, 59)))
    date_there = day + timedelta(days=draw(st.sampled_from((0, 0, 0, 1, 2))))
    clock = clock.replace(microsecond=0, fold=draw(st.sampled_from((0, 1))))
    return times.moment(date_there, clock, times.zone(zone))


@st.composite
def _ball(draw: st.DrawFn, cues: int, first: int | None, day: date, zone: str) -> BallRecord:
    grade = st.sampled_from((*Grade, None))
    clip = None
    if draw(st.booleans()):
        clip = draw(_on_the_day(day, zone)) if first is None else first + draw(_seconds(LONGEST))
    ball = Ball(draw(st.tuples(*[grade] * cues)), draw(st.booleans()), clip)
    return BallRecord(ball, draw(st.lists(TEXTS, max_size=2).map(tuple)))


@st.composite
def check_ins(draw: st.DrawFn, player: str, day: date, zone: str) -> CheckIn:
    """What a player said, down to nothing at all: that somebody asked stays in the book too."""
    return CheckIn(
        player=player,
        moment=draw(st.none() | st.sampled_from(CheckInMoment)),
        pain=draw(st.none() | st.integers(0, 10)),
        place=draw(TEXTS),
        effort=draw(st.none() | st.integers(0, 10)),
        minutes=draw(st.none() | st.integers(0, 1440)),
        note=draw(TEXTS),
        at_ms=draw(st.none() | _on_the_day(day, zone)),
        signs=tuple(sign for sign in Sign if draw(st.booleans())),
    )


@st.composite
def _round(draw: st.DrawFn, players: list[str], day: date, zone: str) -> RoundRecord:
    ladder, drill = shipped().drill(name := draw(st.sampled_from(shipped().names())))
    keys = st.sampled_from([cue.key for cue in ladder.cues])
    cues = draw(st.lists(keys, min_size=1, max_size=4, unique=True))
    player = draw(st.sampled_from(players))
    started = draw(st.none() | _on_the_day(day, zone))
    ended = None if started is None else draw(st.none() | _seconds(LONGEST))
    balls = st.lists(_ball(len(cues), started, day, zone), max_size=12)
    spots = st.integers(0, len(drill.spots) - 1)
    last = None if started is None or ended is None else started + ended
    said = check_ins(player, day, zone)
    return RoundRecord(
        player=player,
        drill=name,
        purpose=draw(st.sampled_from(Purpose)),
        cues=tuple(cues),
        balls=tuple(draw(balls)),
        started=started,
        ended=last,
        paused=draw(st.just(0) | st.integers(0, LONGEST)),
        order=tuple(draw(st.lists(spots, max_size=12))),
        notes=tuple(draw(st.lists(NAMES, max_size=2))),
        check_ins=tuple(draw(st.lists(said, max_size=2))),
    )


@st.composite
def _day(draw: st.DrawFn, players: list[str], day: date, court: str, zone: str) -> DayRecord:
    said = st.sampled_from(players).flatmap(lambda who: check_ins(who, day, zone))
    return DayRecord(
        day,
        court,
        draw(TEXTS),
        tuple(draw(st.lists(_round(players, day, zone), max_size=3))),
        tuple(draw(st.lists(said, max_size=3))),
    )


@st.composite
def clinics(draw: st.DrawFn) -> ClinicRecord:
    """A clinic whose days stand in order of date and court, with everyone on the roster."""
    zone = draw(st.sampled_from(ZONES))
    players = draw(st.lists(NAMES, min_size=1, max_size=3, unique=True))
    where = draw(st.lists(st.tuples(DAYS, TEXTS), max_size=3, unique=True))
    return ClinicRecord(
        draw(NAMES),
        zone,
        tuple(RosterEntry(name, draw(st.sampled_from(("", "left", "right")))) for name in players),
        tuple(draw(_day(players, day, court, zone)) for day, court in sorted(where)),
        draw(st.none() | st.integers(1, 366)),
    )
