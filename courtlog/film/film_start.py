"""When a film began: by what it shows of the book's clock, or by its file and its name.

Some phones write the start of the recording into the header, some its end. The date and time in
the file's name tell which; they too may be of another time zone.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, time, timedelta
from enum import StrEnum
from zoneinfo import ZoneInfo

from courtlog import times
from courtlog.errors import CourtlogError
from courtlog.film.video_times import VideoTimes


class StartSource(StrEnum):
    """How the start of a film is known; the surest first."""

    SLATE = "slate"
    """It shows the book's running clock."""
    MARK = "mark"
    """It shows the moment of a clip mark."""
    ZONE = "zone"
    """The file has a date with its zone."""
    FILE = "file"
    """The header's time, told by the name to be the start or the end."""
    SAID = "said"
    """The header's time, said by the coach to be the start or the end."""
    NAME = "name"
    """Date and time in the file's name alone."""

    @property
    def doubt(self) -> int:
        """Its place from the surest, which has 0."""
        return list(StartSource).index(self)


class HeaderTime(StrEnum):
    """What the time in the file's header is."""

    START = "start"
    END = "end"


@dataclass(frozen=True, slots=True)
class FilmStart:
    """The moment at which a film began, milliseconds UTC, and how it is known."""

    began_ms: int
    source: StartSource


TOLERANCE_MS = 3000
"""A phone names a file this long before or after it writes the time in its header."""

_ZONE_STEP_MS = 15 * 60 * 1000
_FARTHEST_ZONE_MS = 26 * 3600 * 1000
"""From the zone farthest west to the one farthest east."""

NEAR_MS = 24 * 3600 * 1000
"""A file's own time that is farther off than this says nothing of the day."""

_IN_NAME = re.compile(
    r"(?<!\d)(?P<year>(?:19|20)\d\d)(?P<a>[-._]?)(?P<month>\d\d)(?P=a)(?P<day>\d\d)"
    r"[-._ T]+(?:at )?"
    r"(?P<hour>\d\d)(?P<b>[-._:h]?)(?P<minute>\d\d)(?P=b)(?P<second>\d\d)(?:[.]?\d{3})?(?!\d)"
)
_POSITION = re.compile(r"(?:(?:(\d{1,2}):)?(\d{1,3}):)?(\d{1,5})(?:[.,](\d{1,3}))?")
_CLOCK = re.compile(r"(\d{1,2}):(\d\d):(\d\d)(?:[.,](\d{1,3}))?")


def film_start(
    video: VideoTimes, name: str, place: ZoneInfo, header: HeaderTime | None = None
) -> FilmStart:
    """The start by the file and its name. Raises CourtlogError where they do not tell it."""
    if header is not None and video.written_ms is not None:
        return FilmStart(_if(header, video.written_ms, video), StartSource.SAID)
    if video.recorded_ms is not None:
        return FilmStart(video.recorded_ms, StartSource.ZONE)
    named = clock_in_name(name)
    at = None if named is None else times.moment(*named, place)
    written = video.written_ms
    if at is not None:
        told = None if written is None else _told_by_name(written, video.length_ms, at)
        if written is None or told is None:
            return FilmStart(at, StartSource.NAME)
        return FilmStart(_if(told, written, video), StartSource.FILE)
    if written is None:
        raise CourtlogError(
            f"{name} does not say when it was filmed.",
            "Say what it shows: --at 0:02 --shows 09:31:07.4.",
        )
    clock = times.clock_words(written, place)
    raise CourtlogError(
        f"{name} says {clock}, and not whether it began or ended then.",
        "Write --time start or --time end, or say what it shows: --at 0:02 --shows 09:31:07.4.",
    )


def own_time(video: VideoTimes, name: str, place: ZoneInfo) -> int | None:
    """Roughly when it was filmed, by anything the file says; None where it says nothing."""
    named = clock_in_name(name)
    at = None if named is None else times.moment(*named, place)
    return next((one for one in (video.recorded_ms, at, video.written_ms) if one is not None), None)


def start_by_sight(
    moments: Iterable[int], position_ms: int, source: StartSource, own_ms: int | None
) -> list[FilmStart]:
    """The starts that a film may have which shows one of these moments at that position.

    With a time of its own it is the nearest one, unless its clock is off by more than a day.
    """
    starts = [FilmStart(at - position_ms, source) for at in sorted(set(moments))]
    if own_ms is None or not starts:
        return starts
    nearest = min(starts, key=lambda start: abs(start.began_ms - own_ms))
    return [nearest] if abs(nearest.began_ms - own_ms) <= NEAR_MS else starts


def clock_in_name(name: str) -> tuple[date, time] | None:
    """The date and time in a file's name such as `VID_20260512_093107.mp4`."""
    for match in _IN_NAME.finditer(name):
        year, month, day, hour, minute, second = map(
            int, match.group("year", "month", "day", "hour", "minute", "second")
        )
        try:
            return date(year, month, day), time(hour, minute, second)
        except ValueError:
            continue
    return None


def position(text: str) -> int:
    """`0:02`, `1:02:40.5` or `12.4` into a film, in milliseconds. Raises ValueError."""
    match = _POSITION.fullmatch(text.strip())
    if match is None or not text.isascii():
        raise ValueError(f"{text!r} is no place in a film: write it like 0:02 or 1:02:40.5")
    hours, minutes, seconds = (int(part or 0) for part in match.groups()[:3])
    return ((hours * 60 + minutes) * 60 + seconds) * 1000 + _thousandths(match[4])


def clock_time(text: str) -> time:
    """`09:31:07.4` as a time of day. Raises ValueError."""
    match = _CLOCK.fullmatch(text.strip())
    try:
        if match is None or not text.isascii():
            raise ValueError
        hour, minute, second = (int(part) for part in match.groups()[:3])
        return time(hour, minute, second, 1000 * _thousandths(match[4]))
    except ValueError:
        raise ValueError(f"{text!r} is no time of day: write it like 09:31:07.4") from None


def clock_moments(clock: time, dates: Iterable[date], place: ZoneInfo) -> list[int]:
    """When a clock of that zone shows this on any of the dates, or after the midnight of one."""
    days = {day + timedelta(days=later) for day in dates for later in (0, 1)}
    return sorted(
        {times.moment(day, clock.replace(fold=fold), place) for day in days for fold in (0, 1)}
    )


def _if(header: HeaderTime, written_ms: int, video: VideoTimes) -> int:
    return written_ms - (video.length_ms if header is HeaderTime.END else 0)


def _told_by_name(written_ms: int, length_ms: int, named_ms: int) -> HeaderTime | None:
    """What the header's time is if the name has the start; None where they do not go together."""
    off = {HeaderTime.START: written_ms - named_ms}
    off[HeaderTime.END] = off[HeaderTime.START] - length_ms
    for distance in (abs, _from_zone_step):
        nearest = min(off, key=lambda which: distance(off[which]))
        fits = [which for which in off if distance(off[which]) <= TOLERANCE_MS]
        if len(fits) == 1 or (fits and distance is abs):
            return nearest
    return None


def _from_zone_step(off_ms: int) -> int:
    """How far off a whole quarter of an hour, by which zones differ."""
    if abs(off_ms) > _FARTHEST_ZONE_MS:
        return _FARTHEST_ZONE_MS
    rest = off_ms % _ZONE_STEP_MS
    return min(rest, _ZONE_STEP_MS - rest)


def _thousandths(digits: str | None) -> int:
    return int((digits or "").ljust(3, "0"))
