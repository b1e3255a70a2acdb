"""What the README shows: screens and pages of the invented sample clinic, drawn by the program."""

from __future__ import annotations

import secrets
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from pathlib import Path
from random import Random
from unittest import mock

from rich.segment import Segment
from textual.pilot import Pilot

from courtlog.cli.actions import demo
from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.clinic_record import ClinicRecord
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.surface.themes import THEMES
from courtlog.library.sheet_in import read_sheet
from courtlog.locations import shipped_samples
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.reports import facts, one_screen
from courtlog.settings import Settings
from tests.court import LIBRARY, Clock
from tests.courtside.screen import on_court
from tests.pictures.svg import drawn

FOLDER = Path(__file__).parents[2] / "sample_sessions" / "pictures"
THIRD_DAY = date(2026, 5, 13)
MORNING = 1_778_656_800_000
"""2026-05-13 07:20:00 UTC, twenty past eight in Lisbon."""

Rows = list[list[Segment]]


def feeding() -> Rows:
    """The court as the coach sees it from two metres, a ball and a half later."""
    return _mid_round(["o", "j", "full_stop", "o", "k", "t"])


def pad() -> Rows:
    """The pad, at the top of the help."""
    return _mid_round(["question_mark"], lines=11)


def morning() -> Rows:
    """The plan of the day, before anybody has hit."""
    clinic = _sample()
    begun = replace(clinic, days=clinic.days[:2])
    with _book(begun, MORNING) as book:
        desk = Desk(book, lambda: LIBRARY, Settings(), Clock(MORNING))
        day = clinic.days[2]
        desk.clinic.open_day(lookups.clinics(book)[-1].id, day.date, day.court, day.coach)
        return _screen(desk, ["ctrl+p"])


def close() -> Rows:
    """The close look of the same court: criteria, phrases, shares and keys."""
    return _mid_round(["o", "j", "full_stop", "apostrophe"])


def review() -> Rows:
    """The half minute between two rotations."""
    return _mid_round(["space", "space", "z"])


def evening() -> Rows:
    """The third day on one page, as `courtlog day` prints it."""
    clinic = _sample()
    with _book(replace(clinic, days=clinic.days[:3]), MORNING) as book:
        played = facts.day_facts.day_facts(book, lookups.clinics(book)[-1], THIRD_DAY, None)
        return _page(one_screen.day_page.day_page(played))


def last_day() -> Rows:
    """What changed for one player, as `courtlog player Maren` prints it."""
    with _book(_sample(), MORNING) as book:
        played = facts.day_facts.player_facts(book, lookups.clinics(book)[-1], "Maren")
        return _page(one_screen.player_page.player_page(played))


SCENES: dict[str, Callable[[], Rows]] = {
    "feeding": feeding,
    "pad": pad,
    "morning": morning,
    "close": close,
    "review": review,
    "evening": evening,
    "last-day": last_day,
}
"""Each picture's name, and what it shows."""


def picture(name: str) -> str:
    """That scene as SVG, the same on every run: clock and drawn orders are fixed."""
    draws = Random(name)
    with (
        mock.patch.object(secrets, "randbits", draws.getrandbits),
        mock.patch.object(secrets, "randbelow", draws.randrange),
    ):
        rows = SCENES[name]()
    theme = THEMES["sun"]
    assert theme.foreground is not None
    assert theme.background is not None
    return drawn(rows, theme.foreground, theme.background)


def _sample() -> ClinicRecord:
    text = (shipped_samples() / demo.SAMPLE).read_text(encoding="utf-8")
    return read_sheet(text, demo.SAMPLE, LIBRARY, "UTC")


@contextmanager
def _book(clinic: ClinicRecord, at_ms: int) -> Iterator[Book]:
    """A scratch book with that clinic in it."""
    with tempfile.TemporaryDirectory() as folder:
        book = create_or_open(Path(folder) / "demo.db", at_ms)
        try:
            put_in(book, clinic, LIBRARY, at_ms)
            yield book
        finally:
            book.close()


def _mid_round(keys: list[str], lines: int = 24) -> Rows:
    """The court of `courtlog demo` after these keys."""
    before, round_ = demo.until_mid_round(_sample())
    started = round_.started or 0
    with _book(before, started) as book:
        desk = Desk(book, lambda: LIBRARY, Settings(), Clock(started))
        demo.put_on_court(desk, book, before.days[-1], round_, LIBRARY)
        return _screen(desk, keys, lines)


def _screen(desk: Desk, keys: list[str], lines: int = 24) -> Rows:
    rows: Rows = []

    async def keep(_: Pilot[None], app: CourtlogApp) -> None:
        rows.extend(list(strip) for strip in app.screen._compositor.render_strips())

    on_court(desk, keys, (80, lines), then=keep)
    return rows


def _page(text: str) -> Rows:
    """A printed page, 80 columns wide as on the terminal."""
    return [[Segment(line.ljust(80))] for line in text.splitlines()]
