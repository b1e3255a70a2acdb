"""Moments as milliseconds UTC since 1970, and the wall clock of a clinic's zone. Reads no clock."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)

FIRST_YEAR, LAST_YEAR = 1900, 2200
"""Years that a clinic can have had, or may have."""


def zone(name: str) -> ZoneInfo:
    """The time zone of that IANA name. Raises ValueError with one sentence."""
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise ValueError(f"{name!r} is no time zone; write one like Europe/Lisbon or UTC") from None


def moment(day: date, clock: time, place: ZoneInfo) -> int:
    """The moment when a clock in that zone shows this time on that date."""
    return as_moment(datetime.combine(day, clock, place))


def as_moment(when: datetime) -> int:
    """A zoned datetime as milliseconds UTC."""
    return (when - _EPOCH) // timedelta(milliseconds=1)


def local(at_ms: int, place: ZoneInfo) -> datetime:
    """The wall clock of that zone at this moment."""
    return (_EPOCH + timedelta(milliseconds=at_ms)).astimezone(place)


def local_date(at_ms: int, place: ZoneInfo) -> date:
    """The calendar date in that zone at this moment."""
    return local(at_ms, place).date()


def clock_words(at_ms: int, place: ZoneInfo) -> str:
    """`09:41:07` in that zone."""
    return local(at_ms, place).strftime("%H:%M:%S")


def tenth_words(at_ms: int, place: ZoneInfo) -> str:
    """`09:41:07.4` in that zone."""
    return f"{clock_words(at_ms, place)}.{at_ms % 1000 // 100}"


def minute_words(at_ms: int, place: ZoneInfo) -> str:
    """`09:41` in that zone."""
    return local(at_ms, place).strftime("%H:%M")


def span_words(milliseconds: int) -> str:
    """`3:07`, or `1:02:40` from an hour on; what would be negative is 0:00."""
    minutes, seconds = divmod(max(0, milliseconds) // 1000, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{seconds:02}" if hours else f"{minutes}:{seconds:02}"


WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def date_words(day: date) -> str:
    """`Thu 14 May`, in English whatever the machine's language."""
    return f"{weekday_word(day)[:3]} {day_month_words(day)}"


def weekday_word(day: date) -> str:
    """`Thursday`, in English whatever the machine's language."""
    return WEEKDAYS[day.weekday()]


def day_month_words(day: date) -> str:
    """`14 May`."""
    return f"{day.day} {month_word(day)}"


def month_word(day: date) -> str:
    """`May`."""
    months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]
    return months[day.month - 1]
