"""When a film began, for phones that write the start into a file, the end, or nonsense."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.errors import CourtlogError
from courtlog.film.film_start import (
    FilmStart,
    HeaderTime,
    StartSource,
    clock_in_name,
    clock_moments,
    clock_time,
    film_start,
    own_time,
    position,
    start_by_sight,
)
from courtlog.film.video_times import VideoTimes
from courtlog.times import as_moment, local

PLACE = ZoneInfo("Europe/Oslo")
BEGAN = as_moment(datetime(2026, 5, 12, 9, 31, 7, tzinfo=PLACE))
NAME = "VID_20260512_093107.mp4"


def video(
    written: int | None = None, length: int = 600_000, recorded: int | None = None
) -> VideoTimes:
    return VideoTimes(length, 1, "f", written, recorded)


def named(at_ms: int, pattern: str, zone: ZoneInfo = PLACE) -> str:
    return local(at_ms, zone).strftime(pattern)


@pytest.mark.parametrize(
    "name",
    [
        "VID_20260512_093107.mp4",
        "20260512_093107.mp4",
        "20260512-093107.MOV",
        "film 2026-05-12 09.31.07.mp4",
        "2026-05-12 at 09.31.07.mov",
        "2026-05-12T09:31:07.mp4",
        "video-2026-05-12-09-31-07.mp4",
        "2026_05_12_09h31h07.mp4",
        "V_20260512_093107123.mp4",
        "12345678_20260512_093107~2.mp4",
    ],
)
def test_a_name_with_date_and_time_is_read(name: str) -> None:
    assert clock_in_name(name) == (date(2026, 5, 12), time(9, 31, 7))


@pytest.mark.parametrize(
    "name",
    [
        "Maren.mp4",
        "VID-20260512-WA0003.mp4",
        "IMG_0042.MOV",
        "20261312_093107.mp4",
        "20260512_253107.mp4",
        "120260512_093107.mp4",
        "20260512_0931079.mp4",
        "2026-0512 09:31:07.mp4",
    ],
)
def test_a_name_without_is_not(name: str) -> None:
    assert clock_in_name(name) is None


ZONES = st.sampled_from(["Europe/Oslo", "UTC", "Asia/Kathmandu", "Pacific/Auckland"])


@given(
    st.integers(0, 3_000_000).map(lambda second: BEGAN + 1000 * second),
    st.integers(20_000, 850_000),
    st.integers(-2000, 2000),
    st.sampled_from(HeaderTime),
    ZONES.map(ZoneInfo),
)
def test_the_name_tells_whether_the_header_has_the_start_or_the_end(
    began: int, length: int, late: int, header: HeaderTime, zone: ZoneInfo
) -> None:
    """Also where the phone is set to another zone than the clinic's."""
    written = began + late + (length if header is HeaderTime.END else 0)
    name = named(began, "VID_%Y%m%d_%H%M%S.mp4", zone)
    start = film_start(video(written, length), name, PLACE)
    assert start == FilmStart(began + late, StartSource.FILE)


def test_a_header_that_goes_with_no_name_leaves_the_name() -> None:
    copied = BEGAN + 5 * 24 * 3600 * 1000 + 77_000
    assert film_start(video(copied), NAME, PLACE) == FilmStart(BEGAN, StartSource.NAME)
    assert film_start(video(None), NAME, PLACE) == FilmStart(BEGAN, StartSource.NAME)
    assert film_start(video(BEGAN + 444_000), NAME, PLACE).source is StartSource.NAME


def test_a_film_of_a_quarter_of_an_hour_is_told_apart_by_the_same_zone_alone() -> None:
    quarter = 15 * 60 * 1000
    for header in (BEGAN, BEGAN + quarter):
        start = film_start(video(header, quarter), NAME, PLACE)
        assert start == FilmStart(BEGAN, StartSource.FILE)
    hours = 3 * 3600 * 1000
    start = film_start(video(BEGAN + hours, quarter), NAME, PLACE)
    assert start == FilmStart(BEGAN, StartSource.NAME), "start or end, it cannot be said which"


def test_a_date_with_its_zone_goes_before_header_and_name() -> None:
    start = film_start(video(BEGAN + 600_000, recorded=BEGAN + 400), NAME, PLACE)
    assert start == FilmStart(BEGAN + 400, StartSource.ZONE)


def test_a_header_alone_is_asked_about() -> None:
    with pytest.raises(CourtlogError, match="says 09:31:07, and not whether it began or ended"):
        film_start(video(BEGAN), "Maren.mp4", PLACE)
    for header, off in ((HeaderTime.START, 0), (HeaderTime.END, -600_000)):
        start = film_start(video(BEGAN), "Maren.mp4", PLACE, header)
        assert start == FilmStart(BEGAN + off, StartSource.SAID)
    with pytest.raises(CourtlogError, match="does not say when it was filmed"):
        film_start(video(None), "Maren.mp4", PLACE, HeaderTime.END)


@given(st.integers(0, 9 * 3600 * 10), st.booleans())
def test_a_place_in_a_film_is_read_as_it_is_written(tenths: int, hours: bool) -> None:
    seconds, tenth = divmod(tenths, 10)
    minutes, second = divmod(seconds, 60)
    text = f"{minutes // 60}:{minutes % 60:02}" if hours and minutes >= 60 else str(minutes)
    assert position(f"{text}:{second:02}.{tenth}") == 100 * tenths


def test_a_place_or_clock_that_is_none_is_refused() -> None:
    for text in ("", "x", "1:2:3:4", "0:02.", "-1", "٣", "0:02.1234"):
        with pytest.raises(ValueError, match="is no place in a film"):
            position(text)
    for text in ("", "9:31", "25:00:00", "09:60:00", "09:31:07.4567", "٠9:31:07"):
        with pytest.raises(ValueError, match="is no time of day"):
            clock_time(text)
    assert clock_time("9:31:07,4") == time(9, 31, 7, 400_000)
    assert (position("12.4"), position("0:02"), position("1:02:40.5")) == (12_400, 2000, 3_760_500)


def test_a_slate_makes_good_a_clock_that_is_off() -> None:
    """37 s, three hours, a zone, or the end instead of the start: what is shown decides."""
    shown = clock_moments(
        time(9, 31, 9, 400_000), [date(2026, 5, day) for day in (11, 12, 13)], PLACE
    )
    for off in (0, 37_000, -3 * 3600_000, 3 * 3600_000, 600_000):
        own = own_time(video(BEGAN + off), "Maren.mp4", PLACE)
        starts = start_by_sight(shown, 2000, StartSource.SLATE, own)
        assert starts == [FilmStart(BEGAN + 400, StartSource.SLATE)]
    for lost in (None, as_moment(datetime(2000, 1, 1, tzinfo=UTC))):
        starts = start_by_sight(shown, 2000, StartSource.SLATE, lost)
        days = [local(start.began_ms, PLACE).date().day for start in starts]
        assert days == [11, 12, 13, 14], "the balls have to tell which"


def test_a_slate_after_midnight_is_of_the_next_date() -> None:
    began = as_moment(datetime(2026, 5, 12, 23, 59, 50, tzinfo=PLACE))
    moments = clock_moments(time(0, 0, 5), [date(2026, 5, 12)], PLACE)
    assert began + 15_000 in moments
    (start,) = start_by_sight(moments, 15_000, StartSource.SLATE, began + 37_000)
    assert start.began_ms == began


def test_an_hour_that_comes_twice_is_told_apart_by_the_file() -> None:
    day = date(2026, 10, 25)  # clocks go back at 3:00
    first = as_moment(datetime(2026, 10, 25, 2, 30, tzinfo=PLACE))
    moments = clock_moments(time(2, 30), [day], PLACE)
    for began in (first, first + 3600_000):
        (start,) = start_by_sight(moments, 0, StartSource.SLATE, began + 37_000)
        assert start.began_ms == began
    assert timedelta(milliseconds=moments[1] - moments[0]) == timedelta(hours=1)
