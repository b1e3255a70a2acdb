"""The HTML sheet in a real browser: valid, accessible, front and back, no sideways scroll."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.reports.takehome.takehome_html import takehome_html
from tests.reports.browser import PAPERS, Browser
from tests.reports.html_checks import (
    MARGIN,
    PHONE,
    SMALLEST,
    axe,
    needs_axe,
    needs_browser,
    needs_validator,
    valid,
)
from tests.reports.takehome.takehome_pages import crowded, facts_in, of_every_kind, pages

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def sheets(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Sheets of all sample players, and of those with pain, little, or too much to tell."""
    folder = tmp_path_factory.mktemp("sheets")
    little = facts_in(folder / "little", "clinic Harbour\nroster Tove\nday 2026-05-12\n")
    found: list[Path] = []
    every = (*pages(), *little, *of_every_kind(folder), crowded(folder / "crowded"))
    for facts in every:
        file = folder / f"{len(found)}.html"
        file.write_text(takehome_html(facts), encoding="utf-8")
        found.append(file)
    return found


@needs_validator
def test_the_validator_finds_nothing(sheets: list[Path]) -> None:
    judged = valid(*sheets)
    assert (judged.returncode, judged.stdout) == (0, "")


@needs_validator
def test_the_validator_would_find_it(tmp_path: Path, sheets: list[Path]) -> None:
    good = sheets[0].read_text(encoding="utf-8")
    for number, (was, bad) in enumerate(
        [("</section>", ""), ("<p>", "<p><div>a</div>"), ('scope="col"', 'scope="column"')]
    ):
        file = tmp_path / f"{number}.html"
        file.write_text(good.replace(was, bad, 1), encoding="utf-8")
        assert valid(file).returncode == 1, bad


@needs_browser
@needs_axe
@pytest.mark.parametrize("pixels", [PHONE, 1200])
def test_axe_finds_nothing(window: Browser, sheets: list[Path], pixels: int) -> None:
    window.wide(pixels)
    for sheet in (sheets[0], *sheets[-5:]):
        window.open(sheet)
        found = axe(window)
        assert found["failed"] == []
        assert {"color-contrast-enhanced", "html-has-lang", "document-title"} <= set(
            found["passed"]
        )


@needs_browser
@needs_axe
def test_axe_would_find_it(window: Browser, sheets: list[Path], tmp_path: Path) -> None:
    good = sheets[0].read_text(encoding="utf-8")
    bad = good.replace('<html lang="en">', "<html>").replace("color: #000", "color: #999")
    (tmp_path / "bad.html").write_text(bad, encoding="utf-8")
    window.open(tmp_path / "bad.html")
    assert {"html-has-lang", "color-contrast"} <= set(axe(window)["failed"])


@needs_browser
@pytest.mark.parametrize("paper", list(PAPERS))
def test_the_front_is_page_one_and_the_back_begins_a_page(
    window: Browser, sheets: list[Path], paper: str
) -> None:
    """Front and back were one page of type of 6 points; at 11 points the back takes two.

    Twelve days of four cues with a second stroke, the last two sheets, take a third.
    """
    for sheet in sheets:
        window.open(sheet)
        whole = window.printed_pages(paper)
        window.run("document.querySelector('.back').remove()")
        assert window.printed_pages(paper) == 1, sheet.read_text(encoding="utf-8")[:400]
        assert whole <= (4 if sheet in sheets[-2:] else 3), sheet


@needs_browser
@pytest.mark.parametrize("paper", list(PAPERS))
def test_no_text_on_paper_is_below_eleven_points(
    window: Browser, sheets: list[Path], paper: str
) -> None:
    window.as_on("print")
    window.wide(round(96 * (PAPERS[paper][0] - 2 * MARGIN)))
    for sheet in sheets:
        window.open(sheet)
        assert window.run(SMALLEST) * 72 / 96 >= 11, sheet
    window.run("document.querySelector('.curves svg').style.width = '10rem'")
    assert window.run(SMALLEST) * 72 / 96 < 11
    window.as_on("screen")


@needs_browser
def test_a_phone_never_scrolls_sideways(window: Browser, sheets: list[Path]) -> None:
    window.wide(PHONE)
    for sheet in sheets:
        window.open(sheet)
        assert window.run("return document.documentElement.scrollWidth") <= PHONE
        assert window.run("return document.documentElement.clientWidth") == PHONE
    window.run("document.querySelector('svg').style.width = '25rem'")
    assert window.run("return document.documentElement.scrollWidth") > PHONE


@needs_browser
def test_nothing_is_fetched_and_nothing_runs(window: Browser, sheets: list[Path]) -> None:
    window.open(sheets[0])
    assert window.run("return performance.getEntriesByType('resource').length") == 0
    assert window.run("return document.scripts.length") == 0
    assert window.run("return document.querySelectorAll('h1').length") == 1
    titled = (
        "return [...document.querySelectorAll('svg')].every(s => s.querySelector('title, desc'))"
    )
    assert window.run(titled) is True
