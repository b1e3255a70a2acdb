"""The arm and the heat on the printed day, and the words that stand on no page and no screen."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from courtlog.coaching.care import arm_care, arm_load, heat_care
from courtlog.coaching.care import heat_care as resting
from courtlog.coaching.care.arm_care import CautionLevel
from courtlog.coaching.care.heat_care import HeatLines, reading_of
from courtlog.courtside.screens import care
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import care_lookups, lookups
from courtlog.logbook.writes.care_writer import CareWriter
from courtlog.reports.facts.day_facts import day_facts
from courtlog.reports.pages import arm_text
from courtlog.reports.pages.day_text import day_text
from courtlog.values import jsonable
from tests.court import START
from tests.reports.pages.test_pages import book_of

NEVER = re.compile(
    r"\bsafe\b|safely|clear(?:ed|s)? to|is cleared|\brisk|probab|acute|chronic|ACWR|fit to play"
    r"|return to play|return-to-play|litre|\bml\b|\boz\b|injur|diagnos|\bdose",
    re.I,
)

SHEET = """clinic Bay  zone UTC  days 3
day 2026-05-11  court 1  coach Bo
checkin Ada  when arrival  pain elbow 1
player Ada  drill forehand/racquet-feed
222 222 222 222
player Ada  drill forehand/hand-feed
222 222
player Ada  drill serve/baseline
222 222 222
player Ada  drill serve/toss-target
222
player Bea  drill forehand/hand-feed
222
checkin Ada  when break  pain elbow 4
checkin Ada  when end  pain elbow 6  signs swelling  effort 6  minutes 90
day 2026-05-12  court 1  coach Bo
checkin Ada  when morning  pain elbow 2
player Ada  drill forehand/live
222
"""


def page(book: Book, day: int) -> str:
    """The printed day, its lines run together."""
    clinic = lookups.clinics(book)[0]
    return " ".join(day_text(day_facts(book, clinic, date(2026, 5, day), None)).split())


def test_the_arms_of_a_day(tmp_path: Path) -> None:
    book = book_of(tmp_path, SHEET)
    book.db.execute("UPDATE roster SET usual_week = 'two hours [b]'")
    text = page(book, 11)
    for words in (
        "balls at full speed: Forehand 4, serves 3",
        "load today: 540 (effort times minutes, as the player says: a record, no advice)",
        "week: monotony needs a full week of logged days (1 of 7 so far)",
        "usual week before the clinic: two hours [b] (as the player says); today: 7 at full speed",
        "Amber: pain elbow 4, more than 2. (pain-monitoring model: Thomee 1997",
        "Amber: pain elbow 4, 1 at arrival: a rise of 2 or more. (usual caution;",
        "Red of Mon 11 May (usual caution): visible swelling; pain elbow 6, more than 5.",
        f"{arm_care.STOP} {arm_care.DEFER}",
        arm_care.LIMITS,
    ):
        assert words in text
    bea = text[text.index("Bea 1 ball ") :]
    assert "Red" not in bea
    assert "full speed:" not in bea


def test_a_red_stays_on_the_page_with_the_clinicians_word(tmp_path: Path) -> None:
    book = book_of(tmp_path, SHEET)
    clinic = lookups.clinics(book)[0]
    (red,) = care_lookups.reds(book, clinic.id, date(2026, 5, 12))
    CareWriter(book).add_clinician_word(red.id, "Dr Jorun", "rest\x1b[31m", START)
    text = page(book, 12)
    assert "pain elbow 2 in the morning, 1 the morning before" in text
    assert "more than 5. Dr Jorun said: rest␛[31m. The red stays." in text
    facts = jsonable(day_facts(book, clinic, date(2026, 5, 12), "Ada"))
    arm = facts["players"][0]["arm"]
    assert arm["reds"][0]["words"] == [{"who": "Dr Jorun", "text": "rest\x1b[31m"}]
    assert (arm["full_speed"], arm["serves"], arm["load"]) == (
        [{"stroke": "forehand", "title": "Forehand", "hits": 1}],
        0,
        None,
    )


def test_the_last_heat_of_the_day_is_on_its_page(tmp_path: Path) -> None:
    book = book_of(tmp_path, SHEET)
    clinic = lookups.clinics(book)[0]
    assert "heat index" not in page(book, 11)
    day = lookups.days(book, clinic.id)[0]
    for temp, at in (("20", START), ("96F", START + 1000)):
        CareWriter(book).add_heat_reading(day.id, reading_of(temp, "65", "", at))
    text = page(book, 11)
    assert "heat index 49 C (121 F), danger." in text
    assert "heat index 20" not in text
    assert "heat index" not in page(book, 12)
    facts = day_facts(book, clinic, date(2026, 5, 11), None)
    assert facts.heat is not None
    assert facts.heat.humidity == 65


def every_word() -> dict[str, str]:
    """All that arms and heat can say: constants, cautions of every kind, heat of every band."""
    said = {
        f"{module.__name__}.{name}": value
        for module in (arm_care, arm_load, heat_care, resting, care, arm_text)
        for name, value in vars(module).items()
        if isinstance(value, str) and name.isupper()
    }
    lines = HeatLines(30.1, 32.2, "club")
    for temp in ("20", "82F", "90F", "96F", "110F", "113F"):
        for wbgt in ("", "29", "31", "33"):
            reading = reading_of(temp, "65", wbgt, 0)
            said[f"heat {temp} {wbgt}"] = " ".join(heat_care.heat_words(reading, lines))
    for level in CautionLevel:
        caution = arm_care.Caution(level, 0, "pain 6", arm_care.USUAL)
        said[f"told {level}"] = " ".join((caution.sentence, *arm_care.caution_lines([caution])))
    return said


@pytest.mark.parametrize(("where", "words"), every_word().items())
def test_what_must_never_be_said_is_not_said(where: str, words: str) -> None:
    assert not NEVER.search(words), (where, NEVER.search(words))


def test_no_page_says_it_either(tmp_path: Path) -> None:
    book = book_of(tmp_path, SHEET)
    for day in (11, 12):
        assert not NEVER.search(page(book, day))


def test_the_search_finds_what_it_looks_for() -> None:
    for words in ("Safe to continue.", "cleared to play", "injury risk", "ACWR 1.6", "fit to play"):
        assert NEVER.search(words)
