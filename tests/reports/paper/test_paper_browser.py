"""Sheets of paper in a real browser: valid, accessible, large enough, the pages that are promised.

COURTLOG_NODE_MODULES names a folder with `axe-core` and `html-validate` (npm); a test whose tools
are not there is skipped.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from courtlog.reports.paper.court_sheets import ROWS
from courtlog.reports.paper.cue_cards import CueCard, CueCards
from courtlog.reports.paper.paper_html import cards_html, court_html, home_html, home_pages
from tests.court import LIBRARY
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
from tests.reports.paper.paper_pages import Papers, crowded, of_drawn_clinics

pytestmark = pytest.mark.browser

LEAST_BOX = 7 * 96 / 25.4
"""7 mm in pixels of CSS."""


@dataclass(frozen=True, slots=True)
class Page:
    """A file, and the pages of paper that it is promised to take."""

    file: Path
    sheets: int


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> list[Page]:
    """Every page of the drawn clinics, of the crowded one, and cards of the whole library."""
    folder = tmp_path_factory.mktemp("paper")
    found: list[Page] = []

    def add(html: str, sheets: int) -> None:
        file = folder / f"{len(found)}.html"
        file.write_text(html, encoding="utf-8")
        found.append(Page(file, sheets))

    every = [*of_drawn_clinics(folder / "drawn"), crowded(folder / "crowded")]
    for papers in every:
        add(court_html(papers.court), court_pages(papers))
        for cards in papers.cues[:2]:
            add(cards_html(cards), -(-len(cards.cards) // 2) or 1)
        add(home_html(papers.home), sum(map(home_pages, papers.home)) or 1)
    whole = all_cards(every[0].cues[0])
    add(cards_html(whole), -(-len(whole.cards) // 2))
    return found


def court_pages(papers: Papers) -> int:
    """Two blocks of rows a page, and a page for who stays off the feed."""
    blocks = [sum(round_.rows for round_ in sheet.rounds) // ROWS for sheet in papers.court.sheets]
    return sum(max(-(-each // 2), 1) for each in blocks)


def all_cards(like: CueCards) -> CueCards:
    """Cards of every three cues of the library that follow each other."""
    cards = tuple(
        CueCard(
            stroke=ladder.title,
            part=1,
            parts=2,
            code=like.cards[0].code,
            cues=ladder.cues[start : start + 3],
        )
        for ladder in LIBRARY.ladders.values()
        for start in range(len(ladder.cues) - 2)
    )
    return CueCards(clinic=like.clinic, on=like.on, player="Maren", cards=cards)


@needs_validator
def test_the_validator_finds_nothing(pages: list[Page]) -> None:
    judged = valid(*(page.file for page in pages))
    assert (judged.returncode, judged.stdout) == (0, "")


@needs_browser
@needs_axe
@pytest.mark.parametrize("pixels", [PHONE, 1200])
def test_axe_finds_nothing(window: Browser, pages: list[Page], pixels: int) -> None:
    window.wide(pixels)
    for page in (*pages[:4], *pages[-5:]):
        window.open(page.file)
        found = axe(window)
        assert found["failed"] == []
        assert "color-contrast-enhanced" in found["passed"]


@needs_browser
@pytest.mark.parametrize("paper", list(PAPERS))
def test_a_page_of_paper_is_what_it_is_promised_to_be(
    window: Browser, pages: list[Page], paper: str
) -> None:
    for page in pages:
        window.open(page.file)
        assert window.printed_pages(paper) == page.sheets, page.file
    window.run("document.querySelector('section').style.height = '300mm'")
    assert window.printed_pages(paper) > pages[-1].sheets


BOXES = """
const boxes = [...document.querySelectorAll('td')].map(box => box.getBoundingClientRect());
return [Math.min(...boxes.map(box => box.height)), Math.min(...boxes.map(box => box.width))];
"""


@needs_browser
@pytest.mark.parametrize("paper", list(PAPERS))
def test_letters_have_eleven_points_and_boxes_seven_millimetres(
    window: Browser, pages: list[Page], paper: str
) -> None:
    window.as_on("print")
    window.wide(round(96 * (PAPERS[paper][0] - 2 * MARGIN)))
    boxes = 0
    for page in pages:
        window.open(page.file)
        if window.run("return document.querySelectorAll('p').length"):
            assert window.run(SMALLEST) * 72 / 96 >= 11, page.file
        if window.run("return document.querySelectorAll('td').length"):
            assert min(window.run(BOXES)) >= LEAST_BOX, page.file
            boxes += 1
    assert boxes > len(pages) // 4
    window.open(pages[0].file)
    window.run(SMALLER)
    assert window.run(SMALLEST) * 72 / 96 < 11
    assert min(window.run(BOXES)) < LEAST_BOX
    window.as_on("screen")


SMALLER = """
document.querySelectorAll('th, td').forEach(cell => {
  cell.style.height = '6mm'; cell.style.fontSize = '10pt';
});
"""

UNREADABLE = """
return [...document.querySelectorAll('.code, .note, .head > h3, .number, .tough, .write')]
  .filter(part => part.scrollWidth > part.clientWidth + 1).map(part => part.textContent);
"""


@needs_browser
def test_code_and_what_to_heed_are_never_cut(window: Browser, pages: list[Page]) -> None:
    window.as_on("print")
    window.wide(round(96 * (PAPERS["A4"][0] - 2 * MARGIN)))
    for page in pages:
        window.open(page.file)
        assert window.run(UNREADABLE) == [], page.file
    window.as_on("screen")


LINES_TOO_LOW = """
return [...document.querySelectorAll('th *')].filter(part => {
  const style = getComputedStyle(part), letters = document.createRange();
  letters.selectNodeContents(part);
  const height = Math.min(...[...letters.getClientRects()].map(rect => rect.height));
  return style.overflowY !== 'visible' && height > parseFloat(style.lineHeight) + 0.1;
}).map(part => part.textContent);
"""


@needs_browser
def test_no_cue_over_the_boxes_loses_what_hangs_below_its_line(
    window: Browser, pages: list[Page]
) -> None:
    window.as_on("print")
    for page in pages:
        window.open(page.file)
        assert window.run(LINES_TOO_LOW) == [], page.file
    window.as_on("screen")


@needs_browser
def test_a_phone_never_scrolls_sideways(window: Browser, pages: list[Page]) -> None:
    window.wide(PHONE)
    for page in (*pages[:4], *pages[-5:]):
        window.open(page.file)
        assert window.run("return document.documentElement.scrollWidth") <= PHONE, page.file


@needs_browser
def test_nothing_is_fetched_and_nothing_runs(window: Browser, pages: list[Page]) -> None:
    for page in pages:
        window.open(page.file)
        assert window.run("return performance.getEntriesByType('resource').length") == 0
        assert window.run("return document.scripts.length") == 0
        assert window.run("return document.querySelectorAll('h1').length") == 1
