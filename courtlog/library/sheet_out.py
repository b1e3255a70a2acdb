"""A sheet out: a ClinicRecord as the plain text that sheet_in reads back the same."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from zoneinfo import ZoneInfo

from courtlog import times
from courtlog.coaching.game.clinic_record import (
    BallRecord,
    CheckIn,
    ClinicRecord,
    DayRecord,
    RoundRecord,
)
from courtlog.library import sheet_times
from courtlog.library.sheet_in import KEYWORDS, NO_NUMBER
from courtlog.library.sheet_words import as_written, quoted

BALLS_A_LINE = 10


def write_sheet(clinic: ClinicRecord) -> str:
    """The sheet of a clinic, ending in a newline. Times of day are written to the second."""
    return "\n".join(_lines(clinic)) + "\n"


def _lines(clinic: ClinicRecord) -> Iterator[str]:
    place = times.zone(clinic.zone)
    planned = f"  days {clinic.planned_days}" if clinic.planned_days else ""
    yield f"clinic {as_written(clinic.name, KEYWORDS['clinic'])}  zone {clinic.zone}{planned}"
    for entry in clinic.roster:
        hand = f"  hand {entry.hand}" if entry.hand else ""
        yield f"roster {as_written(entry.name, KEYWORDS['roster'])}{hand}"
    for day in clinic.days:
        yield ""
        yield from _day(day, place)


def _day(day: DayRecord, place: ZoneInfo) -> Iterator[str]:
    line = f"day {day.date.isoformat()}"
    if day.court:
        line += f"  court {as_written(day.court, KEYWORDS['day'])}"
    if day.coach:
        line += f"  coach {as_written(day.coach, KEYWORDS['day'])}"
    yield line
    for check_in in day.check_ins:
        player = as_written(check_in.player, KEYWORDS["checkin"])
        yield "  ".join((f"checkin {player}", *_check_in(check_in, day.date, place)))
    for round_ in day.rounds:
        yield ""
        yield from _round(round_, day.date, place)


def _round(round_: RoundRecord, on: date, place: ZoneInfo) -> Iterator[str]:
    parts = [
        f"player {as_written(round_.player, KEYWORDS['player'])}",
        f"drill {round_.drill}",
        f"purpose {round_.purpose}",
        f"cues {' '.join(round_.cues)}",
    ]
    if round_.started is not None:
        parts.append(f"time {sheet_times.span_words(round_.started, round_.ended, on, place)}")
    if round_.paused:
        parts.append(f"paused {round_.paused}")
    if round_.order:
        parts.append("order " + "".join(str(spot + 1) for spot in round_.order))
    yield "  ".join(parts)
    for start in range(0, len(round_.balls), BALLS_A_LINE):
        balls = round_.balls[start : start + BALLS_A_LINE]
        yield " ".join(_ball(ball, on, place, round_.started) for ball in balls)
    for note in round_.notes:
        yield f"note {quoted(note)}"
    for check_in in round_.check_ins:
        not_before = sheet_times.said_from(round_, on, place)
        lines = list(_check_in(check_in, on, place, not_before))
        if all(part.startswith("note ") for part in lines):
            # A note alone would read back as a note on the round, and an empty check-in as nothing.
            lines.insert(0, f"pain {NO_NUMBER.text}")
        yield "  ".join(lines)


def _ball(record: BallRecord, on: date, place: ZoneInfo, started: int | None) -> str:
    token = record.ball.token()
    if record.ball.clip is not None:
        token += f"@{sheet_times.moment_words(record.ball.clip, on, place, started)}"
    return " ".join((token, *map(quoted, record.notes)))


def _check_in(
    check_in: CheckIn, on: date, place: ZoneInfo, not_before: int | None = None
) -> Iterator[str]:
    if check_in.pain is not None or check_in.place:
        where = as_written(check_in.place, KEYWORDS["pain"]) + " " if check_in.place else ""
        yield f"pain {where}{NO_NUMBER.text if check_in.pain is None else check_in.pain}"
    if check_in.signs:
        yield f"signs {', '.join(check_in.signs)}"
    if check_in.effort is not None:
        yield f"effort {check_in.effort}"
    if check_in.minutes is not None:
        yield f"minutes {check_in.minutes}"
    if check_in.moment is not None:
        yield f"when {check_in.moment}"
    if check_in.at_ms is not None:
        yield f"time {sheet_times.moment_words(check_in.at_ms, on, place, not_before)}"
    if check_in.note:
        yield f"note {quoted(check_in.note)}"
