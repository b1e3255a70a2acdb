"""A sheet in: plain text to a ClinicRecord, or every mistake with its line number.

    clinic Harbour Week  zone Europe/Lisbon  days 5
    roster Maren  hand right
    day 2026-05-12  court 2  coach Ines
    player Maren   drill forehand/racquet-feed   purpose practice   cues turn spacing finish
    222 212 2-0! 022 . 221@09:31:07 "late on the high one"
    pain elbow 2   effort 6   note "tension on high balls"
    checkin Maren  when arrival  pain elbow 1  effort 2  minutes 30  time 09:00:00

`pain elbow -` has a place and no number; `pain -` is a check-in in which neither was said.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import lru_cache
from zoneinfo import ZoneInfo

from courtlog import times
from courtlog.coaching.game.clinic_record import (
    BallRecord,
    CheckIn,
    CheckInMoment,
    ClinicRecord,
    DayRecord,
    RosterEntry,
    RoundRecord,
    signs_of,
)
from courtlog.coaching.game.rounds import Ball
from courtlog.errors import LibraryError, Problem, UnknownNameError
from courtlog.library import sheet_times, sheet_values
from courtlog.library.drill_files import Library
from courtlog.library.sheet_words import Word, by_keyword, text_of, words

KEYWORDS = {
    "clinic": ("clinic", "zone", "days"),
    "roster": ("roster", "hand"),
    "day": ("day", "court", "coach"),
    "player": ("player", "drill", "purpose", "cues", "time", "paused", "order"),
    "pain": ("pain", "signs", "effort", "minutes", "when", "note", "time"),
    "checkin": ("checkin", "pain", "signs", "effort", "minutes", "when", "note", "time"),
}
"""The first keyword of a line says its kind; the others may follow in any order."""

MOST_PAUSED = 366 * 86_400
"""Most seconds of a pause: a laptop may be left for days with a round open."""

NO_NUMBER = Word("-")
"""The sign for a pain without a number."""

_KIND = dict.fromkeys(("signs", "effort", "minutes", "note", "when", "time"), "pain")
_ball = lru_cache(maxsize=1024)(Ball.from_token)
"""Tokens read before: a sheet has many balls and few tokens."""


def read_sheet(text: str, file: str, library: Library, zone: str) -> ClinicRecord:
    """The clinic of a sheet; `zone` is used where the sheet names none.

    Raises LibraryError with every mistake of the whole sheet.
    """
    reader = _Reader(file=file, library=library, zone_name=zone)
    for number, line in enumerate(text.split("\n"), 1):
        reader.line(number, line)
    return reader.finish()


@dataclass(slots=True, kw_only=True)
class _Reader:
    """Reads line by line and collects what is wrong instead of stopping at the first."""

    file: str
    """The file's name, for mistakes."""
    library: Library
    """The drills a sheet may name."""
    zone_name: str
    """The zone where the sheet names none."""
    problems: list[Problem] = field(default_factory=list)
    """Mistakes so far."""
    name: str | None = None
    """The clinic's name, once read."""
    planned_days: int | None = None
    """How many days were planned."""
    place: ZoneInfo = field(init=False)
    """The clinic's time zone."""
    roster: list[RosterEntry] = field(default_factory=list)
    """The roster so far."""
    days: list[DayRecord] = field(default_factory=list)
    """Days so far."""
    rounds: list[RoundRecord] = field(default_factory=list)
    """Rounds of the day being read."""
    check_ins: list[CheckIn] = field(default_factory=list)
    """Check-ins of the day being read."""
    balls: list[BallRecord] = field(default_factory=list)
    """Balls of the round being read."""
    skipping: bool = False
    """The player line was wrong: its balls have no round to go to and are not judged."""
    lost: bool = False
    """The day line was wrong: nothing under it is judged."""

    def __post_init__(self) -> None:
        self.place = times.zone(self.zone_name)

    def line(self, number: int, line: str) -> None:
        try:
            by_key = words(line)
            if by_key:
                self._reading(by_key)
        except (ValueError, UnknownNameError) as error:
            sentence = str(error).rstrip(".") + "."
            self.problems.append(Problem(self.file, str(number), sentence))

    def finish(self) -> ClinicRecord:
        self._close_day()
        if self.name is None:
            self.problems.append(Problem(self.file, "1", "the sheet has no `clinic` line."))
        if self.problems:
            count = len(self.problems)
            raise LibraryError(
                f"The sheet has {count} mistake{'s' * (count > 1)}; nothing was written.",
                sorted(self.problems, key=lambda problem: int(problem.place)),
                "Mend the lines and read it in again.",
            )
        sheet = ClinicRecord(
            self.name or "",
            self.place.key,
            tuple(self.roster),
            tuple(self.days),
            self.planned_days,
        )
        return sheet.with_everyone_on_the_roster()

    def _reading(self, line: list[Word]) -> None:
        first = line[0]
        kind = _KIND.get(first.text, first.text)
        if self.lost and kind != "day":
            return
        if first.quoted or kind not in KEYWORDS:
            self._read_balls(line)
            return
        handlers: dict[str, Callable[[dict[str, list[Word]]], None]] = {
            "clinic": self._read_clinic,
            "roster": self._read_roster,
            "day": self._read_day,
            "player": self._read_player,
            "pain": self._read_short_check_in,
            "checkin": self._read_check_in,
        }
        if kind == "player":
            self.skipping = True
        handlers[kind](by_keyword(line, KEYWORDS[kind]))
        if kind == "player":
            self.skipping = False

    def _read_clinic(self, by_key: dict[str, list[Word]]) -> None:
        if self.name is not None:
            raise ValueError("a sheet holds one clinic, and this is a second `clinic` line")
        if self.days:
            raise ValueError("the `clinic` line stands before the first day")
        self.name = sheet_values.needed(by_key, "clinic")
        if "days" in by_key:
            days = text_of(by_key["days"])
            self.planned_days = sheet_values.number(days, 1, 366, "days")
        if "zone" in by_key:
            self.place = times.zone(text_of(by_key["zone"]))

    def _read_roster(self, by_key: dict[str, list[Word]]) -> None:
        hand = text_of(by_key.get("hand", []))
        if hand not in ("", "left", "right"):
            raise ValueError(f"hand is left or right, not {hand!r}")
        name = sheet_values.needed(by_key, "roster")
        if any(entry.name == name for entry in self.roster):
            raise ValueError(f"{name} is on the roster twice")
        self.roster.append(RosterEntry(name, hand))

    def _read_day(self, by_key: dict[str, list[Word]]) -> None:
        self._close_day()
        self.lost = True
        day = sheet_values.day(sheet_values.needed(by_key, "day"))
        court, coach = text_of(by_key.get("court", [])), text_of(by_key.get("coach", []))
        if any(d.date == day and d.court == court for d in self.days):
            raise ValueError(f"{day} on this court is on the sheet twice")
        self.days.append(DayRecord(day, court, coach))
        self.lost = False

    def _read_player(self, by_key: dict[str, list[Word]]) -> None:
        self._close_round()
        day = self._day()
        player = sheet_values.needed(by_key, "player")
        drill = sheet_values.needed(by_key, "drill")
        ladder, card = self.library.drill(drill)
        order = sheet_values.order(text_of(by_key.get("order", [])), len(card.spots))
        time = text_of(by_key.get("time", []))
        started, ended = sheet_times.span(time, day.date, self.place)
        self.rounds.append(
            RoundRecord(
                player=player,
                drill=drill,
                purpose=sheet_values.purpose(text_of(by_key.get("purpose", []))),
                cues=sheet_values.cues(by_key.get("cues", []), ladder),
                started=started,
                ended=ended,
                paused=sheet_values.number(text_of(by_key["paused"]), 0, MOST_PAUSED, "paused")
                if "paused" in by_key
                else 0,
                order=order,
            )
        )

    def _read_balls(self, line: list[Word]) -> None:
        if self.skipping:
            return
        if not self.rounds:
            raise ValueError(f"{line[0].text!r} is no keyword, and no player's round is open here")
        round_ = self.rounds[-1]
        for word in line:
            if word.quoted:
                if not self.balls:
                    raise ValueError("a note on a ball stands after the ball")
                last = self.balls[-1]
                self.balls[-1] = replace(last, notes=(*last.notes, word.text))
                continue
            token, at_sign, clock = word.text.partition("@")
            if at_sign and not (token and clock):
                token, clock = word.text, ""  # no moment of a clip, and so no ball either
            ball = _ball(token, len(round_.cues))
            if clock:
                ball = replace(ball, clip=self._moment(clock, round_.started))
            self.balls.append(BallRecord(ball))

    def _read_short_check_in(self, by_key: dict[str, list[Word]]) -> None:
        if self.skipping:
            return
        if not self.rounds:
            raise ValueError("this line follows a player's round, and none is open here")
        self._close_balls()
        round_ = self.rounds[-1]
        if set(by_key) == {"note"}:
            noted = (*round_.notes, sheet_values.needed(by_key, "note"))
            self.rounds[-1] = replace(round_, notes=noted)
        else:
            not_before = sheet_times.said_from(round_, self._day().date, self.place)
            check_in = self._check_in(round_.player, by_key, not_before)
            self.rounds[-1] = replace(round_, check_ins=(*round_.check_ins, check_in))

    def _read_check_in(self, by_key: dict[str, list[Word]]) -> None:
        self._day()
        self.check_ins.append(self._check_in(sheet_values.needed(by_key, "checkin"), by_key, None))

    def _check_in(
        self, player: str, by_key: dict[str, list[Word]], not_before: int | None
    ) -> CheckIn:
        pain, place = None, ""
        if "pain" in by_key:
            *where, how_much = by_key["pain"] or [Word("")]
            place = text_of(where)
            if how_much != NO_NUMBER:
                pain = sheet_values.number(how_much.text, 0, 10, "pain")
        when = text_of(by_key.get("when", []))
        if when and when not in set(CheckInMoment):
            raise ValueError(f"when is one of {', '.join(CheckInMoment)}, not {when!r}")
        effort, minutes = text_of(by_key.get("effort", [])), text_of(by_key.get("minutes", []))
        clock = text_of(by_key.get("time", []))
        return CheckIn(
            player=player,
            moment=CheckInMoment(when) if when else None,
            pain=pain,
            place=place,
            effort=sheet_values.number(effort, 0, 10, "effort") if "effort" in by_key else None,
            minutes=sheet_values.number(minutes, 0, 1440, "minutes")
            if "minutes" in by_key
            else None,
            note=text_of(by_key.get("note", [])),
            at_ms=self._moment(clock, not_before) if clock else None,
            signs=signs_of(text_of(by_key.get("signs", []))),
        )

    def _day(self) -> DayRecord:
        if not self.days:
            raise ValueError("a `day` line must come first")
        return self.days[-1]

    def _moment(self, text: str, not_before: int | None) -> int:
        return sheet_times.moment(text, self._day().date, self.place, not_before)

    def _close_balls(self) -> None:
        if self.rounds and self.balls:
            last = self.rounds[-1]
            self.rounds[-1] = replace(last, balls=(*last.balls, *self.balls))
        self.balls = []

    def _close_round(self) -> None:
        self._close_balls()

    def _close_day(self) -> None:
        self._close_round()
        if self.days:
            self.days[-1] = replace(
                self.days[-1], rounds=tuple(self.rounds), check_ins=tuple(self.check_ins)
            )
        self.rounds, self.check_ins, self.skipping = [], [], False
