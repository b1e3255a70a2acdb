"""The time zone of this laptop as an IANA name, as far as the system tells."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path

from courtlog import times
from courtlog.cli.common import now

_LINK = Path("/etc/localtime")
"""The link that names the zone on most systems."""


def named_zone() -> str:
    """The zone from TZ, /etc/localtime or the Windows settings; empty where none names one."""
    for name in _names():
        if name:
            try:
                return times.zone(name).key
            except ValueError:
                continue
    return ""


def local_zone() -> str:
    """The zone as the system names it; else one of fixed offset, such as Etc/GMT-1."""
    if named := named_zone():
        return named
    offset = datetime.now().astimezone().utcoffset()
    hours = round(offset.total_seconds() / 3600) if offset else 0
    return f"Etc/GMT{-hours:+d}" if hours else "UTC"


def today() -> date:
    """The date on this laptop's calendar."""
    return times.local_date(now(), times.zone(local_zone()))


def _names() -> Iterator[str]:
    yield os.environ.get("TZ", "").lstrip(":")
    yield _linked(_LINK)
    if sys.platform == "win32":
        # Only Windows has names of its own for zones, and a table of them to keep. Elsewhere this
        # library would name the linked zone even where TZ says another offset.
        import tzlocal

        yield tzlocal.get_localzone_name() or ""


def _linked(link: Path) -> str:
    try:
        target = str(link.resolve(strict=True))
    except OSError:
        return ""
    _, found, name = target.partition("zoneinfo/")
    return name if found else ""
