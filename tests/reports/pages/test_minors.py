"""Where a page is about a minor, it says so at the name and gives the usual caution."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.logbook.reads import lookups
from courtlog.reports.facts.day_facts import day_facts
from courtlog.reports.pages.day_text import day_text
from courtlog.reports.takehome.takehome_facts import take_home
from courtlog.reports.takehome.takehome_html import takehome_html
from courtlog.reports.takehome.takehome_text import takehome_text
from tests.court import LIBRARY
from tests.reports.pages.test_pages import HEAD, book_of, day


@pytest.mark.parametrize("age", ["minor", "adult", ""])
@pytest.mark.parametrize("balls", ["222*20", ""])
def test_a_minor_is_marked_and_nobody_else_is(tmp_path: Path, age: str, balls: str) -> None:
    book = book_of(tmp_path, HEAD + "roster Ada\n" + day(1, f"yardstick {balls or '2--'}"))
    book.db.execute("UPDATE player SET age_group = ?", [age])
    clinic = lookups.clinics(book)[0]
    page = day_text(day_facts(book, clinic, None, None))
    sheet = take_home(book, clinic, "Ada", LIBRARY)
    assert ("Ada (minor)   " in page) is (age == "minor")
    assert ("local rules on minors' data" in " ".join(page.split())) is (age == "minor")
    text = " ".join(takehome_text(sheet).split())
    assert ("This sheet is about a minor" in text) is (age == "minor")
    assert ("This sheet is about a minor" in takehome_html(sheet)) is (age == "minor")
    book.close()


def test_a_sheet_without_balls_says_it_too(tmp_path: Path) -> None:
    book = book_of(tmp_path, HEAD + "roster Ada\nday 2026-05-11\n")
    book.db.execute("UPDATE player SET age_group = 'minor'")
    sheet = take_home(book, lookups.clinics(book)[0], "Ada", LIBRARY)
    assert "This sheet is about a minor" in takehome_text(sheet)
    book.close()
