"""The time zone of this laptop as an IANA name: TZ goes first, then what the system is set to.

A bare offset would be an hour wrong after the next clock change, so that it is the last resort.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from courtlog import times
from courtlog.cli.common import now

_LINK = Path("/etc/localtime")
"""The link that names the zone on most systems. It is read first: tzlocal is slow to load."""

_A_YEAR = [timedelta(days=days) for days in range(0, 366, 7)]
"""Weeks of a year: no clock changes for less than some."""


def named_zone() -> str:
    """The zone from TZ or the system's settings; empty where neither names one."""
    typed = os.environ.get("TZ", "").lstrip(":")
    if zone := _known(typed):
        return zone.key
    for name in _names_of_the_system():
        # A rule in TZ, such as <+09>-9, moves the clock away from what the system is set to.
        if (zone := _known(name)) and (not typed or _tells_the_time(zone)):
            return zone.key
    return ""


def local_zone() -> str:
    """The zone as the system names it; else one that goes as this laptop's clock goes."""
    return named_zone() or _fixed() or _of_the_world() or "UTC"


def today() -> date:
    """The date on this laptop's calendar."""
    return times.local_date(now(), times.zone(local_zone()))


def _names_of_the_system() -> Iterator[str]:
    yield _linked(_LINK)
    try:
        yield _tzlocal().get_localzone_name() or ""
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return  # settings that contradict one another


def _tzlocal() -> Any:
    # Slow to load, and where there is a link it is not needed.
    import tzlocal.windows_tz

    return tzlocal


def _linked(link: Path) -> str:
    try:
        target = str(link.resolve(strict=True))
    except OSError:
        return ""
    _, found, name = target.partition("zoneinfo/")
    return name if found else ""


def _known(name: str) -> ZoneInfo | None:
    try:
        return times.zone(name) if name else None
    except ValueError:
        return None


def _fixed() -> str:
    """`Etc/GMT-1` where this clock is a whole hour ahead of UTC all year; else empty."""
    # POSIX counts these westward.
    hours = -_offset(datetime.now(UTC)) / timedelta(hours=1)
    name = f"Etc/GMT{hours:+.0f}" if hours else "UTC"
    zone = _known(name)
    return name if zone and _tells_the_time(zone) else ""


def _of_the_world() -> str:
    """A well-known city whose clocks have gone as this one through the year; else empty."""
    cities = _tzlocal().windows_tz.win_tz.values()
    found = (zone for name in cities if (zone := _known(name)) and _tells_the_time(zone))
    return next((zone.key for zone in found), "")


def _tells_the_time(zone: ZoneInfo) -> bool:
    """Whether the zone goes as this laptop's clock for the next twelve months."""
    moments = [datetime.now(UTC) + later for later in _A_YEAR]
    return all(moment.astimezone(zone).utcoffset() == _offset(moment) for moment in moments)


def _offset(moment: datetime) -> timedelta:
    return moment.astimezone().utcoffset() or timedelta()
