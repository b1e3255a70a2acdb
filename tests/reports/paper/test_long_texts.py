"""Texts as long as a coach may type them: the promised pages, and nothing cut unseen."""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from courtlog.coaching.game.drills import Cue
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.coaching.plans.homework import HomeYardstick
from courtlog.reports.layout.paper_pages import LINES, PAGE_BREAK
from courtlog.reports.paper.court_sheets import ROWS, CourtSheet, CourtSheets, PaperCue, PaperRound
from courtlog.reports.paper.cue_cards import CueCard, CueCards
from courtlog.reports.paper.home_sheets import HomeSheet
from courtlog.reports.paper.paper_html import cards_html, court_html, home_html, home_pages
from courtlog.reports.paper.paper_text import cards_text, court_text, home_text
from tests.court import LIBRARY
from tests.doses import dose
from tests.reports.browser import PAPERS, Browser
from tests.reports.drawn_texts import drawn_text
from tests.reports.html_checks import CUT_UNSEEN, MARGIN, SMALLEST, needs_browser
from tests.reports.paper.paper_pages import Papers
from tests.reports.paper.test_paper_browser import BOXES, LEAST_BOX, all_cards

ON = date(2026, 5, 12)
CODE = SheetCode.of(SheetKind.HOME, ON, "Harbour", "Maren", 1, "task")
DRILLS = [drill for ladder in LIBRARY.ladders.values() for drill in ladder.drills]
CUT = """
return [...document.querySelectorAll('.cut')]
  .filter(part => part.scrollHeight > part.clientHeight + 1).map(part => part.textContent);
"""


def drawn_cue(draw: random.Random, key: int) -> Cue:
    """A cue of a drawn length: from a few words to as many as the file may hold."""
    most = draw.choice((60, 120, 300, 2000))
    return Cue(
        key=f"cue-{key}",
        name=drawn_text(draw, draw.choice((8, 30, 80))),
        part=LIBRARY.ladder("forehand").cues[0].part,
        made=drawn_text(draw, most),
        near=drawn_text(draw, most),
        missed=drawn_text(draw, most),
        say_inner=drawn_text(draw, 80),
        say_outer=drawn_text(draw, 80),
    )


def drawn_papers(number: int) -> Papers:
    """A court sheet, cards and a home yardstick whose every text is drawn."""
    draw = random.Random(number)
    clinic, player, stroke = (drawn_text(draw, draw.choice((6, 80))) for _ in range(3))
    cues = tuple(drawn_cue(draw, key) for key in range(draw.randint(1, 4)))
    spots = tuple(drawn_text(draw, 80) for _ in range(draw.randint(1, 8)))
    drill = replace(
        draw.choice(DRILLS),
        name=drawn_text(draw, 80),
        spots=spots,
        spot_words=(),
        at_home=draw.choice(("", drawn_text(draw, 300))),
    )
    round_ = PaperRound(
        number=1,
        code=CODE,
        stroke="forehand",
        cues=tuple(PaperCue(cue.key, cue.name) for cue in cues),
        drill="forehand/drawn",
        drill_name=drill.name,
        spots=spots,
        purpose=draw.choice(list(Purpose)),
        balls=draw.choice((5, 20, 45)),
    )
    sheet = CourtSheet(
        player=player, rounds=(round_, round_), ask_first=True, limit=80, left_out=2, minor=True
    )
    home = HomeSheet(
        player=player,
        clinic=clinic,
        title=stroke,
        code=CODE,
        yardstick=HomeYardstick(drill, cues, draw.choice((12, 20, 40)), (), ON),
        minor=True,
    )
    cards = [
        CueCard(stroke=stroke, part=1, parts=2, code=CODE, cues=cues[start : start + 3])
        for start in range(0, len(cues), 3)
    ]
    return Papers(
        CourtSheets(clinic=clinic, on=ON, number=1, sheets=(sheet,)),
        (CueCards(clinic=clinic, on=ON, player=player, cards=tuple(cards)),),
        (home,),
    )


NUMBERS = range(dose(12, 300))


def squeezed(text: str) -> str:
    """The text without blanks, line ends and page breaks."""
    return "".join(text.replace(PAGE_BREAK, "").split())


@pytest.mark.parametrize("number", NUMBERS)
def test_text_holds_all_of_it_on_pages_of_the_printer(number: int) -> None:
    papers = drawn_papers(number)
    for text in (court_text(papers.court), cards_text(papers.cues[0]), home_text(papers.home)):
        assert max(len(page.splitlines()) for page in text.split(PAGE_BREAK)) <= LINES
    (home,), (cards,) = papers.home, papers.cues
    for page in (home_text(papers.home), cards_text(cards)):
        for cue in home.yardstick.cues:
            if cue.made.isprintable():
                assert squeezed(cue.made) in squeezed(page)


@needs_browser
@pytest.mark.browser
@pytest.mark.parametrize("paper", list(PAPERS))
def test_html_keeps_its_pages_and_cuts_nothing_unseen(
    window: Browser, tmp_path: Path, paper: str
) -> None:
    window.as_on("print")
    window.wide(round(96 * (PAPERS[paper][0] - 2 * MARGIN)))
    file = tmp_path / "page.html"
    for number in NUMBERS:
        papers = drawn_papers(number)
        (cards,), (home,) = papers.cues, papers.home
        blocks = sum(round_.rows for round_ in papers.court.sheets[0].rounds) // ROWS
        for html, sheets in (
            (court_html(papers.court), -(-blocks // 2)),
            (cards_html(cards), -(-len(cards.cards) // 2)),
            (home_html([home]), home_pages(home)),
        ):
            file.write_text(html, encoding="utf-8")
            window.open(file)
            assert window.printed_pages(paper) == sheets, number
            assert window.run(CUT_UNSEEN) == [], number
            assert window.run(SMALLEST) * 72 / 96 >= 11
            if "<td>" in html:
                assert min(window.run(BOXES)) >= LEAST_BOX
    window.as_on("screen")


@needs_browser
@pytest.mark.browser
def test_no_shipped_word_is_cut(window: Browser, tmp_path: Path) -> None:
    """Every cue of the library, four at a time on a home yardstick and three on a card."""
    (like,) = drawn_papers(0).cues
    homes = [
        replace(drawn_papers(0).home[0], player="Maren", title=ladder.title,
                yardstick=HomeYardstick(drill, ladder.cues[:4], 20, (), ON))
        for ladder in LIBRARY.ladders.values()
        for drill in ladder.drills
    ]  # fmt: skip
    window.as_on("print")
    window.wide(round(96 * (PAPERS["A4"][0] - 2 * MARGIN)))
    for html in (cards_html(all_cards(like)), home_html(homes)):
        (tmp_path / "page.html").write_text(html, encoding="utf-8")
        window.open(tmp_path / "page.html")
        assert window.run(CUT) == []
    assert all(home_pages(home) == 1 for home in homes)
    window.as_on("screen")
