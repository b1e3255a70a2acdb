"""Moments on a sheet: a clock where that says enough, else with the date: `2026-05-14T00:10:00`.

An hour that comes twice, when clocks go back, is told apart by UTC: `2026-10-25T01:10:00Z`.
"""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from courtlog import times
from courtlog.coaching.game.clinic_record import RoundRecord
from courtlog.library import sheet_values

_DATED = re.compile(r"(?P<date>\d{4}-\d\d-\d\d)T(?P<clock>[^Z]*)(?P<utc>Z?)")
_START = re.compile(r"(\d{4}-\d\d-\d\dT)?[^-]*")


def moment(text: str, on: date, place: ZoneInfo, not_before: int | None = None) -> int:
    """The first moment of that clock on that day, or on the next, that is not before `not_before`.

    A clock with its date is taken on that date. Raises ValueError with one sentence.
    """
    dated = _DATED.fullmatch(text)
    if dated:
        day, clock = sheet_values.day(dated["date"]), sheet_values.clock(dated["clock"])
        return (
            times.as_moment(datetime.combine(day, clock, UTC))
            if dated["utc"]
            else (times.moment(day, clock, place))
        )
    clock = sheet_values.clock(text)
    first = times.moment(on, clock, place)
    if not_before is None or first >= (earliest := not_before - not_before % 1000):
        return first
    again = times.moment(on, clock.replace(fold=1), place)  # where clocks were put back
    return again if again >= earliest else times.moment(on + timedelta(days=1), clock, place)


def moment_words(at_ms: int, on: date, place: ZoneInfo, not_before: int | None = None) -> str:
    """The text that `moment` reads back as this moment, to the second."""
    clock = times.clock_words(at_ms, place)
    dated = f"{times.local_date(at_ms, place).isoformat()}T{clock}"
    for words in (clock, dated):
        if moment(words, on, place, not_before) == at_ms - at_ms % 1000:
            return words
    return f"{times.local(at_ms, times.zone('UTC')):%Y-%m-%dT%H:%M:%SZ}"


def span(text: str, on: date, place: ZoneInfo) -> tuple[int | None, int | None]:
    """`09:30:00-09:38:20`; a round that ends before it starts went past midnight."""
    start = _START.match(text)
    if not text or start is None:
        return None, None
    started = moment(start[0], on, place)
    end = text[start.end() :].removeprefix("-")
    return started, moment(end, on, place, started) if end else None


def span_words(started: int, ended: int | None, on: date, place: ZoneInfo) -> str:
    """The text that `span` reads back as these moments."""
    start = moment_words(started, on, place)
    return start if ended is None else f"{start}-{moment_words(ended, on, place, started)}"


def said_from(round_: RoundRecord, on: date, place: ZoneInfo) -> int | None:
    """The beginning of a round that went past midnight: its check-ins were not before it."""
    if round_.ended is None or times.local_date(round_.ended, place) <= on:
        return None
    return round_.started
