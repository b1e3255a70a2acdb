"""The slate: the time of day as large as the screen, read back from its letters."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual.pilot import Pilot

from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.screens.film.slate import WORDS, SlateScreen, slate_rows, tenths
from courtlog.courtside.surface.large_letters import FIVE, THREE, doubled, drawn
from courtlog.times import as_moment
from tests.court import START, Clock, desk_in, feed
from tests.courtside.screen import on_court, shown

SIGNS = "0123456789:."


def letters(rows: int) -> dict[str, tuple[str, ...]]:
    """Each sign of a clock in letters of so many rows."""
    found = {}
    for sign in SIGNS:
        drawing = drawn(sign, THREE if rows == THREE else FIVE)
        while drawing is not None and len(drawing) < rows:
            drawing = doubled(drawing)
        assert drawing is not None
        found[sign] = drawing
    return found


def read(lines: list[str]) -> str:
    """The clock that stands in large letters there, whatever their size; bands are lines of it."""
    bands: list[list[str]] = [[]]
    for line in lines:
        if line.strip():
            bands[-1].append(line)
        elif bands[-1]:
            bands.append([])
    return ":".join(_read(band) for band in bands if band)


def _read(band: list[str]) -> str:
    if len(band) == 1:
        return band[0].strip()
    wide = max(map(len, band))
    columns = ["".join(line.ljust(wide)[at] for line in band) for at in range(wide)]
    signs, sign = [], list[str]()
    for column in [*columns, " " * len(band)]:
        if column.strip():
            sign.append(column)
        elif sign:
            signs.append(sign)
            sign = []
    known = {
        tuple("".join(rows[at] for rows in drawing) for at in range(len(drawing[0]))): name
        for name, drawing in letters(len(band)).items()
    }
    return "".join(known[tuple(_without_empty(one))] for one in signs)


def _without_empty(sign: list[str]) -> list[str]:
    return [column for column in sign if column.strip()]


@given(
    st.integers(0, 23), st.integers(0, 59), st.integers(0, 59), st.integers(0, 999),
    st.sampled_from(["Europe/Lisbon", "Asia/Kathmandu", "America/St_Johns"]).map(ZoneInfo),
)  # fmt: skip
def test_the_tenth_that_runs_is_the_one_that_is_shown(
    hour: int, minute: int, second: int, thousandths: int, place: ZoneInfo
) -> None:
    at = datetime(2026, 5, 12, hour, minute, second, 1000 * thousandths, place)
    wanted = f"{hour:02}:{minute:02}:{second:02}.{thousandths // 100}"
    assert tenths(as_moment(at), place) == wanted


@pytest.mark.parametrize(
    ("size", "rows", "bands"),
    [
        ((80, 24), 10, 2),
        ((120, 40), 10, 1),
        ((132, 44), 20, 2),
        ((200, 45), 20, 1),
        ((300, 90), 40, 2),
        ((60, 10), 5, 1),
        ((40, 12), 5, 2),
        ((24, 8), 3, 2),
        ((20, 5), 1, 1),
    ],
)
def test_the_letters_are_as_large_as_fit(size: tuple[int, int], rows: int, bands: int) -> None:
    width, height = size
    lines = slate_rows("09:31:07.4", width, height - 1)
    assert max(map(len, lines)) <= width
    assert len(lines) < height
    assert sum(bool(line) for line in lines) == rows * bands
    assert read(list(lines)) == "09:31:07.4"


@given(st.integers(10, 300), st.integers(2, 100), st.integers(0, 863_999))
def test_at_any_size_the_time_can_be_read(width: int, height: int, tenth: int) -> None:
    time = tenths(100 * tenth, ZoneInfo("UTC"))
    lines = slate_rows(time, width, height)
    assert max(map(len, lines)) <= width
    assert len(lines) <= height
    assert read(list(lines)) == time


@pytest.mark.parametrize(("size", "rows"), [((80, 24), 10), ((120, 40), 10), ((200, 45), 20)])
@given(
    tenth=st.integers(0, 863_999),
    at=st.sampled_from([0, 1, 3, 4, 6, 7, 9]),
    digit=st.integers(0, 9),
)
def test_only_the_digit_that_changes_moves(
    size: tuple[int, int], rows: int, tenth: int, at: int, digit: int
) -> None:
    """Else a phone that films a change of tenths would see two clocks through each other."""
    width, height = size
    time = tenths(100 * tenth, ZoneInfo("UTC"))
    other = f"{time[:at]}{digit}{time[at + 1 :]}"
    one, two = (
        [line.ljust(width) for line in slate_rows(clock, width, height - 1)]
        for clock in (time, other)
    )
    changed = {
        column
        for before, after in zip(one, two, strict=True)
        for column in range(width)
        if before[column] != after[column]
    }
    assert not changed or max(changed) - min(changed) < len(letters(rows)["0"][0])


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
def test_it_fills_the_screen_and_runs_by_the_clock_of_the_book(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    desk = desk_in(tmp_path)
    clock = desk.clock
    assert isinstance(clock, Clock)
    clock.at = START + 61_450
    seen = []

    async def look(pilot: Pilot[None], app: CourtlogApp) -> None:
        for seconds in (0, 0.1, 58.6):
            clock.pass_seconds(seconds)
            slate = app.screen
            assert isinstance(slate, SlateScreen)
            slate.show()
            await pilot.pause()
            *lines, foot = shown(app.screen).split("\n")
            assert foot.strip() == WORDS
            seen.append(read(lines))

    on_court(desk, ["escape", "."], size, then=look)
    assert seen == ["08:31:01.4", "08:31:01.5", "08:32:00.1"], "Lisbon is an hour before UTC"


@pytest.mark.parametrize("key", ["space", "q", "escape", "f5", "2", "enter"])
def test_any_key_goes_back_and_rates_nothing(tmp_path: Path, key: str) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "2")
    before = desk.book.db.execute("SELECT * FROM journal").fetchall()

    async def look(pilot: Pilot[None], app: CourtlogApp) -> None:
        await pilot.press(key)
        await pilot.pause()
        assert isinstance(app.screen, CourtScreen)

    on_court(desk, ["escape", "."], then=look)
    assert desk.book.db.execute("SELECT * FROM journal").fetchall() == before


def test_nothing_runs_on_behind_it_once_it_is_left(tmp_path: Path) -> None:
    """Its timer is its own: the court is as quick as before."""

    async def look(pilot: Pilot[None], app: CourtlogApp) -> None:
        slate = app.screen
        await pilot.press("space")
        await pilot.pause()
        assert not slate.is_running

    on_court(desk_in(tmp_path), ["escape", "."], then=look)
