"""How old it is what one court knows of another, in words."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from courtlog import times
from courtlog.plain_text import many

ASK = "ask its coach about arm and heat"


def age_words(court: str, until: int, now: int, place: ZoneInfo) -> str:
    """`court 1 as of 10:42, 35 minutes ago`; milliseconds UTC."""
    clock = times.minute_words(until, place)
    if times.local_date(until, place) != times.local_date(now, place):
        clock = f"{times.date_words(times.local_date(until, place))} {clock}"
    minutes = (now - until) // 60_000
    if minutes < 0:
        return f"court {court} as of {clock} by its clock"
    hours, rest = divmod(minutes, 60)
    if not minutes:
        ago = "just now"
    elif not hours:
        ago = f"{many(minutes, 'minute')} ago"
    else:
        ago = f"{many(hours, 'hour')}{f' {rest} min' if rest else ''} ago"
    return f"court {court} as of {clock}, {ago}"


def unknown_words(court: str, until: int | None, place: ZoneInfo) -> str:
    """`Nothing is known of court 1 since 10:42: ask its coach about arm and heat.`"""
    since = "" if until is None else f" since {times.minute_words(until, place)}"
    return f"Nothing is known of court {court}{since}: {ASK}."
