"""The page of everything in a real browser: valid, accessible, large enough on paper and phone."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from courtlog.coaching.game.keeping import KeepTime
from courtlog.reports.everything.everything_facts import everything
from courtlog.reports.everything.everything_html import everything_html, everything_page_html
from tests.logbook.every_table import desk_with_every_table, person
from tests.reports.browser import Browser
from tests.reports.html_checks import (
    PHONE,
    SMALLEST,
    axe,
    needs_axe,
    needs_browser,
    needs_validator,
    valid,
)

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module", params=[everything_page_html, everything_html])
def page(tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest) -> Path:
    """The one page, and the page with the whole list, of a player with rows in every table."""
    folder = tmp_path_factory.mktemp("everything")
    desk = desk_with_every_table(folder / "book")
    facts = everything(desk.book, person(desk.book), KeepTime(12), "stick", date(2026, 6, 1))
    desk.book.close()
    (folder / "page.html").write_text(request.param(facts), encoding="utf-8")
    return folder / "page.html"


@needs_validator
def test_the_validator_finds_nothing(page: Path) -> None:
    judged = valid(page)
    assert (judged.returncode, judged.stdout) == (0, "")


@needs_browser
@needs_axe
def test_axe_finds_nothing(window: Browser, page: Path) -> None:
    window.open(page)
    assert axe(window)["failed"] == []


@needs_browser
def test_it_reads_on_paper_and_on_a_phone_and_fetches_nothing(window: Browser, page: Path) -> None:
    window.as_on("print")
    window.open(page)
    assert window.run(SMALLEST) * 72 / 96 >= 11
    window.as_on("screen")
    window.wide(PHONE)
    window.open(page)
    assert window.run("return document.documentElement.scrollWidth") <= PHONE
    assert window.run("return performance.getEntriesByType('resource').length") == 0
    assert window.run("return document.scripts.length") == 0
