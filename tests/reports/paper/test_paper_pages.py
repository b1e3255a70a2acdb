"""Sheets of paper: the plan's rounds, a code each, no old grade, nothing that belongs elsewhere."""

from __future__ import annotations

import re
from datetime import date
from html import escape
from pathlib import Path

import pytest
from rich.cells import cell_len

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind, round_task
from courtlog.logbook.reads import lookups
from courtlog.reports.facts.plan_facts import plan_facts
from courtlog.reports.layout import person_lines
from courtlog.reports.layout.paper_pages import LINES, PAGE_BREAK
from courtlog.reports.paper import paper_words as words
from courtlog.reports.paper.court_sheets import CourtSheets, court_sheets
from courtlog.reports.paper.cue_cards import cue_cards
from courtlog.reports.paper.home_sheets import home_sheets
from courtlog.reports.paper.paper_html import cards_html, court_html, home_html
from courtlog.reports.paper.paper_text import cards_text, court_text, home_text
from tests.cli.test_hostile_text import obeyed
from tests.court import LIBRARY
from tests.reports.pages.test_pages import book_of, sample
from tests.reports.paper.paper_pages import HOSTILE, Papers, crowded, of_drawn_clinics

TUESDAY, FRIDAY = date(2026, 5, 12), date(2026, 5, 15)
CODE = re.compile(r"\b[0-9A-Y]{3}-[0-9A-Y]{3}-[0-9A-Y]{3}\b")


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> list[Papers]:
    return of_drawn_clinics(tmp_path_factory.mktemp("drawn"))


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory) -> Papers:
    return crowded(tmp_path_factory.mktemp("full"))


def texts(papers: Papers) -> list[str]:
    """Every page of a clinic as text."""
    return [
        court_text(papers.court),
        *map(cards_text, papers.cues),
        home_text(papers.home),
    ]


def pages(papers: Papers) -> list[str]:
    """Every page of a clinic as HTML."""
    return [
        court_html(papers.court),
        *map(cards_html, papers.cues),
        home_html(papers.home),
    ]


def test_the_rounds_are_those_of_the_plan(tmp_path: Path) -> None:
    book = book_of(tmp_path, sample("harbour-week.txt"))
    clinic = lookups.clinics(book)[0]
    plan = plan_facts(book, clinic, FRIDAY, LIBRARY)
    sheets = court_sheets(book, clinic, FRIDAY, LIBRARY)
    planned = [line for block in plan.blocks for line in block]
    assert [sheet.player for sheet in sheets.sheets] == list(plan.order)
    for sheet in sheets.sheets:
        mine = [line for line in planned if line.player == sheet.player]
        assert [
            (round_.drill, round_.drill_name, round_.purpose, round_.balls)
            for round_ in sheet.rounds
            if round_.purpose is not None
        ] == [(line.drill, line.name, Purpose(line.purpose), line.balls) for line in mine]
        assert [round_.number for round_ in sheet.rounds] == list(range(1, len(sheet.rounds) + 1))
    book.close()


def test_every_sheet_has_a_code_that_says_where_it_belongs(
    drawn: list[Papers], full: Papers
) -> None:
    for papers in (*drawn, full):
        clinic = papers.court.clinic
        for sheet in papers.court.sheets:
            for round_ in sheet.rounds:
                code = SheetCode.from_text(str(round_.code))
                assert (code.kind, code.on) == (SheetKind.COURT, papers.court.on)
                assert code.number == round_.number
                assert code.belongs_to(clinic, sheet.player)
                assert code.blank is (round_.purpose is None)
                if round_.purpose is not None:
                    keys = [cue.key for cue in round_.cues]
                    task = round_task(round_.drill, round_.purpose, round_.balls, keys)
                    assert code.printed_for(task)
        for home in papers.home:
            assert home.code.kind is SheetKind.HOME
            assert home.code.belongs_to(clinic, home.player)
        for cards in papers.cues:
            assert all(card.code.belongs_to(clinic, cards.player) for card in cards.cards)
        codes = [str(round_.code) for sheet in papers.court.sheets for round_ in sheet.rounds]
        assert len(set(codes)) == len(codes)


def test_text_and_html_show_the_same_codes_and_words(drawn: list[Papers], full: Papers) -> None:
    for papers in (*drawn, full):
        for text, html in zip(texts(papers), pages(papers), strict=True):
            assert set(CODE.findall(text)) == set(CODE.findall(html))
        for line in words.FILL_IN:
            rated = any(sheet.rounds for sheet in papers.court.sheets)
            assert (line in court_text(papers.court)) is rated
            assert (line in court_html(papers.court)) is rated


def test_no_line_is_wider_than_78_columns(drawn: list[Papers], full: Papers) -> None:
    for papers in (*drawn, full):
        for text in texts(papers):
            assert max(map(cell_len, text.split("\n"))) <= 78


def test_a_printer_cuts_no_block_of_rows(drawn: list[Papers], full: Papers) -> None:
    """Each player's sheet begins a page, and a page is no longer than the paper."""
    for papers in (*drawn, full):
        for text in texts(papers):
            assert max(len(page.splitlines()) for page in text.split(PAGE_BREAK)) <= LINES
        court = court_text(papers.court).split(PAGE_BREAK)
        starts = [page.split(" · ")[0].split("\n")[0] for page in court]
        for sheet in papers.court.sheets:
            mine = [page for page in court if any(str(r.code) in page for r in sheet.rounds)]
            assert all(page.startswith(starts[court.index(mine[0])]) for page in mine)
            for other in papers.court.sheets:
                if other is not sheet:
                    assert not any(str(r.code) in page for page in mine for r in other.rounds)
        for page in (*court, *home_text(papers.home).split(PAGE_BREAK)):
            boxed = [line for line in page.splitlines() if "[  ]" in line]
            assert len(boxed) % 10 == 0
            assert not boxed or CODE.search(page)


def test_each_ball_has_its_numbered_row_and_each_cue_its_box(
    drawn: list[Papers], full: Papers
) -> None:
    for papers in (*drawn, full):
        rounds = [round_ for sheet in papers.court.sheets for round_ in sheet.rounds]
        boxes = sum(round_.rows * (len(words.heads(round_.cues)) + 1) for round_ in rounds)
        assert all(round_.rows >= round_.balls for round_ in rounds)
        assert court_text(papers.court).count("[  ]") == boxes
        assert court_html(papers.court).count("<td></td>") == boxes
        home = sum(
            -(-sheet.yardstick.balls // 20) * 20 * len(sheet.yardstick.cues)
            for sheet in papers.home
        )
        assert home_text(papers.home).count("[  ]") == home
        assert home_html(papers.home).count("<td></td>") == home


def test_no_old_grade_stands_on_a_home_yardstick(tmp_path: Path) -> None:
    """Whatever the balls were, its pages are the same."""
    told = []
    for folder, grades in (("made", "222"), ("missed", "000"), ("mixed", "210")):
        (tmp_path / folder).mkdir()
        balls = " ".join([grades] * 20)
        book = book_of(
            tmp_path / folder,
            "clinic Harbour\nroster Maren\nday 2026-05-11  coach Ines\n"
            f"player Maren  drill forehand/hand-feed  purpose yardstick\n{balls}\n"
            f"player Maren  drill forehand/hand-feed  purpose practice\n{balls}\n",
        )
        (sheet,), _ = home_sheets(book, lookups.clinics(book)[0], LIBRARY)
        assert sheet.yardstick.first == ()
        told.append((home_text([sheet]), home_html([sheet])))
        book.close()
    assert told[0] == told[1] == told[2]


def test_no_command_stands_on_a_home_yardstick(drawn: list[Papers], full: Papers) -> None:
    for papers in (*drawn, full):
        for page in (home_text(papers.home), home_html(papers.home)):
            assert "courtlog" not in page
            assert "`" not in page.replace(HOSTILE, "")


def test_no_coachs_text_of_a_drill_stands_on_a_home_yardstick(drawn: list[Papers]) -> None:
    for papers in drawn:
        page = " ".join(home_text(papers.home).split())
        for sheet in papers.home:
            assert sheet.yardstick.drill.run.split(";")[0].split("\n")[0] not in page
            assert sheet.yardstick.drill.at_home in page


def test_a_minors_sheet_says_so_and_carries_no_contact(full: Papers) -> None:
    assert full.court.sheets[0].minor
    assert full.court.sheets[0].ask_first
    for page in (*texts(full), *pages(full)):
        assert "555" not in page
    assert escape(person_lines.ON_A_DAY) in court_html(full.court)
    assert escape(person_lines.ON_A_SHEET) in home_html(full.home)


def test_what_is_still_to_be_asked_stands_on_the_first_page_alone(full: Papers) -> None:
    (sheet, _) = full.court.sheets
    assert "hand" in sheet.to_ask
    assert words.to_ask(sheet).startswith("Still to ask: ")
    for page in (court_text(full.court), court_html(full.court)):
        assert page.count("Still to ask: ") == len(full.court.sheets)


def test_a_hostile_name_is_only_text(full: Papers) -> None:
    for page in pages(full):
        assert "<script" not in page
        assert not obeyed(page)
    for text in texts(full):
        assert obeyed(text) <= {PAGE_BREAK}
    assert "&lt;script&gt;" in court_html(full.court)


def sheets_of(tmp_path: Path, text: str, on: date = TUESDAY, spare: int = 1) -> CourtSheets:
    book = book_of(tmp_path, f"clinic Harbour\nroster Maren\nroster Tove\n{text}")
    try:
        return court_sheets(book, lookups.clinics(book)[0], on, LIBRARY, "Maren", spare)
    finally:
        book.close()


PLAYED = (
    "day 2026-05-11  coach Ines\n"
    "player Maren  drill forehand/hand-feed  purpose practice\n222 210\n"
)


def test_a_red_leaves_no_box_to_write_in(tmp_path: Path) -> None:
    (sheet,) = sheets_of(tmp_path, PLAYED + "pain elbow 8\n").sheets
    assert (sheet.held_back, sheet.rounds) == (True, ())
    assert list(words.notes(sheet)) == [words.OFF_THE_FEED]


def test_an_amber_is_asked_about_first_and_its_reason_stays_in_the_book(tmp_path: Path) -> None:
    sheets = sheets_of(tmp_path, PLAYED + "pain elbow 5\n")
    (sheet,) = sheets.sheets
    assert words.ASK_FIRST in words.notes(sheet)
    assert all(round_.purpose is None for round_ in sheet.rounds)
    assert "elbow" not in court_text(sheets)


def test_spare_rounds_fill_the_page(tmp_path: Path) -> None:
    for spare in range(4):
        (tmp_path / str(spare)).mkdir()
        (sheet,) = sheets_of(tmp_path / str(spare), PLAYED, spare=spare).sheets
        blank = [round_ for round_ in sheet.rounds if round_.purpose is None]
        blocks = sum(round_.rows for round_ in sheet.rounds) // 20
        assert len(blank) - spare in (0, 1)
        assert spare == 0 or blocks % 2 == 0
        assert all([cue.key for cue in round_.cues] for round_ in blank)


def test_before_the_first_ball_the_cues_are_written_by_hand(tmp_path: Path) -> None:
    sheets = sheets_of(tmp_path, "")
    assert [round_.purpose for round_ in sheets.sheets[0].rounds] == [None, None]
    assert "cue 1" in court_text(sheets)
    assert "cue 3" in court_html(sheets)


def test_rounds_for_which_no_code_is_left_are_named(full: Papers) -> None:
    sheet = full.court.sheets[0]
    assert len(sheet.rounds) == 22
    assert sheet.left_out == 2
    assert "2 rounds more planned" in court_text(full.court)


def test_a_card_has_at_most_three_cues_and_all_of_everybodys(tmp_path: Path) -> None:
    book = book_of(tmp_path, sample("harbour-week.txt"))
    clinic = lookups.clinics(book)[0]
    everybody = cue_cards(book, clinic, FRIDAY, LIBRARY)
    sheets = court_sheets(book, clinic, FRIDAY, LIBRARY)
    shown = {(card.stroke, cue.key) for card in everybody.cards for cue in card.cues}
    assert shown == {
        (LIBRARY.ladders[round_.stroke].title, cue.key)
        for sheet in sheets.sheets
        for round_ in sheet.rounds
        for cue in round_.cues
    }
    assert all(1 <= len(card.cues) <= 3 for card in everybody.cards)
    text = cards_text(everybody)
    assert all(f"say “{cue.say_inner}”" in text for card in everybody.cards for cue in card.cues)
    book.close()


def test_everybodys_card_has_the_cues_of_each_player_and_a_players_only_its_own(
    tmp_path: Path,
) -> None:
    book = book_of(
        tmp_path,
        "clinic Harbour\nroster Maren\nroster Tove\nday 2026-05-11  coach Ines\n"
        "player Maren  drill forehand/hand-feed  cues turn spacing\n22 21\n"
        "player Tove  drill forehand/hand-feed  cues low-to-high contact finish\n222 210\n",
    )
    clinic = lookups.clinics(book)[0]
    cards = [
        [
            [cue.key for cue in card.cues]
            for card in cue_cards(book, clinic, TUESDAY, LIBRARY, who).cards
        ]
        for who in (None, "Maren", "Tove")
    ]
    assert cards == [
        [["turn", "low-to-high"], ["spacing", "contact", "finish"]],
        [["turn", "spacing"]],
        [["low-to-high", "contact", "finish"]],
    ]
    book.close()


def test_who_hit_nothing_or_waits_gets_no_home_yardstick(tmp_path: Path) -> None:
    book = book_of(tmp_path, f"clinic Harbour\nroster Maren\nroster Tove\n{PLAYED}pain elbow 8\n")
    sheets, none = home_sheets(book, lookups.clinics(book)[0], LIBRARY)
    assert sheets == []
    assert [(one.player, one.why) for one in none] == [
        ("Maren", "hitting waits for a clinician's word"),
        ("Tove", "no ball was hit, so there is no yardstick"),
    ]
    book.close()
