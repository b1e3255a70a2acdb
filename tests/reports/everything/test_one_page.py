"""The one page of what is held: one page of text and of paper, no kind missing or cut unseen."""

from __future__ import annotations

import json
import random
from contextlib import closing
from html import unescape
from pathlib import Path

import pytest

from courtlog.coaching.game.cards import FIELDS
from courtlog.logbook.reads import lookups
from courtlog.logbook.schema.row_versions import without_triggers
from courtlog.plain_text import capital
from courtlog.reports.everything import words
from courtlog.reports.everything.everything_facts import Everything, everything
from courtlog.reports.everything.everything_html import everything_html, everything_page_html
from courtlog.reports.everything.everything_text import everything_page, everything_text
from courtlog.reports.everything.one_page import one_page
from courtlog.reports.layout.paper_pages import LINES, PAGE_BREAK
from courtlog.values import jsonable
from tests.cli.program import HARBOUR, home_with
from tests.doses import dose
from tests.logbook.every_table import desk_with_every_table, person
from tests.pages.drawn_books import in_book
from tests.pages.drawn_clinics import drawn_clinic, numbers
from tests.reports.browser import PAPERS, Browser
from tests.reports.drawn_texts import drawn_text
from tests.reports.everything.test_everything import TODAY, YEAR
from tests.reports.html_checks import CUT_UNSEEN, MARGIN, SMALLEST, needs_browser


def of_drawn_clinics(folder: Path) -> list[Everything]:
    """Everybody of the drawn clinics of one to nine days."""
    every = []
    for number in numbers():
        (folder / str(number)).mkdir(parents=True)
        book, clinic = in_book(folder / str(number), drawn_clinic(number))
        with closing(book):
            for who in lookups.players(book, clinic.id):
                every.append(everything(book, who, YEAR, "", TODAY))
    return every


def with_drawn_texts(folder: Path, number: int) -> Everything:
    """A player with rows in every table, six clinics, and each text as long as it may be."""
    draw = random.Random(number)
    most = {field.key: field.most for field in FIELDS}
    desk = desk_with_every_table(folder)
    db, who = desk.book.db, person(desk.book).id
    values = {
        "name": drawn_text(draw, most["name"]),
        **{key: drawn_text(draw, most[key]) for key in ("level", "complaints", "contact")},
    }
    db.execute(
        "UPDATE player SET name = :name, level = :level, complaints = :complaints,"
        f" contact = :contact WHERE id = {who}",
        values,
    )
    for clinic in range(200, 205):
        db.execute("INSERT INTO clinic (id, name, zone) VALUES (?, ?, 'UTC')",
                   [clinic, drawn_text(draw, 60)])  # fmt: skip
        db.execute("INSERT INTO roster (clinic_id, player_id, place) VALUES (?, ?, 1)",
                   [clinic, who])  # fmt: skip
    db.execute("UPDATE roster SET goal = ?, usual_week = ? WHERE player_id = ?",
               [drawn_text(draw, 200), drawn_text(draw, 200), who])  # fmt: skip
    db.execute("UPDATE coach SET name = ? || id", [drawn_text(draw, 60)])
    with without_triggers(db):
        db.execute("UPDATE red_flag SET reason = ?", [drawn_text(draw, 200)])
    db.execute("UPDATE note SET text = ?", [drawn_text(draw, 200)])
    with closing(desk.book):
        everyone = [p for c in lookups.clinics(desk.book) for p in lookups.players(desk.book, c.id)]
        player = next(p for p in everyone if p.id == who)
        return everything(desk.book, player, YEAR, "stick", TODAY)


@pytest.fixture(scope="module")
def every(tmp_path_factory: pytest.TempPathFactory) -> list[Everything]:
    """Ordinary players, and some with texts as long as they may be."""
    folder = tmp_path_factory.mktemp("one")
    drawn = [with_drawn_texts(folder / f"t{number}", number) for number in range(dose(6, 60))]
    return of_drawn_clinics(folder) + drawn


def test_it_is_one_page_of_text(every: list[Everything]) -> None:
    for facts in every:
        lines = everything_page(facts).splitlines()
        assert len(lines) <= LINES
        assert PAGE_BREAK not in everything_page(facts)


def test_every_kind_is_on_it_by_count_or_whole(every: list[Everything]) -> None:
    for facts in every:
        page = one_page(facts, words.FOLLOWS)
        kinds = {kind.title for kind in page.kinds}
        told = " ".join(line for block in (*page.above, *page.below) for line in block.lines)
        for part in facts.parts:
            if not part.entries:
                assert f"{part.title.lower()}" in told
            elif part.key not in ("card", "clinics"):
                assert capital(part.title) in kinds
            elif part.key == "card":
                assert all(f"{entry.label}: {entry.words}" in told for entry in part.entries)
        assert all(line in told for line in facts.counted)


def test_the_card_of_an_ordinary_player_is_whole(every: list[Everything]) -> None:
    for facts in every:
        card = next(part for part in facts.parts if part.key == "card")
        if all(len(entry.words) < 100 for entry in card.entries):
            text = " ".join(everything_page(facts).split())
            assert all(" ".join(entry.words.split()) in text for entry in card.entries)


def test_it_says_how_to_get_the_rest_and_the_whole_list_follows_it(every: list[Everything]) -> None:
    for facts in every:
        assert "--everything --full" in " ".join(everything_page(facts).split())
        first, _, rest = everything_text(facts).partition(PAGE_BREAK)
        assert "whole list has the rest line by line: it follows." in " ".join(first.split())
        assert rest.startswith("All that the coach's book holds on")
        assert words.WHOLE in everything_html(facts)
        assert words.WHOLE not in everything_page_html(facts)


def test_the_command_prints_one_page_and_with_full_the_list(tmp_path: Path) -> None:
    home = home_with(tmp_path, HARBOUR)
    one = home.run("player", "Maren", "--everything").out
    full = home.run("player", "Maren", "--everything", "--full").out
    assert len(one.splitlines()) <= LINES < len(full.splitlines())
    asked = [home.run("player", "Maren", "--everything", "--json", *more).out
             for more in ((), ("--full",))]  # fmt: skip
    assert asked[0] == asked[1]
    assert "parts" in json.loads(asked[0])
    refused = home.run("player", "Maren", "--everything", "--why")
    assert (refused.code, refused.out) == (1, "")


@needs_browser
@pytest.mark.browser
@pytest.mark.parametrize("paper", list(PAPERS))
def test_it_is_one_sheet_of_paper(
    window: Browser, every: list[Everything], tmp_path: Path, paper: str
) -> None:
    file = tmp_path / "page.html"
    window.as_on("print")
    window.wide(round(96 * (PAPERS[paper][0] - 2 * MARGIN)))
    for facts in (*every[:: dose(5, 1)], *every[-dose(6, 60) :]):
        file.write_text(everything_page_html(facts), encoding="utf-8")
        window.open(file)
        assert window.printed_pages(paper) == 1, jsonable(facts.player)
        assert window.run(SMALLEST) * 72 / 96 >= 11
        assert window.run(CUT_UNSEEN) == []
        assert unescape(file.read_text(encoding="utf-8")).count("--everything --full") == 1
    window.as_on("screen")
