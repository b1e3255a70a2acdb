"""One clinic on several courts of one date: what its pages say of all of them together."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest

from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.plans.court_dealing import CourtGroup
from courtlog.coaching.plans.courts_fairness import FedRound, courts_fairness
from courtlog.coaching.plans.rotation import Presence
from courtlog.library.sheet_in import read_sheet
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.courts.court_groups import court_groups
from courtlog.logbook.reads.courts.next_day_courts import next_day_courts
from courtlog.logbook.reads.history_lookups import history
from courtlog.logbook.writes.courts.deal_writer import deal_players
from courtlog.logbook.writes.rotation_writer import RotationWriter
from courtlog.plan_keeper import PlanKeeper
from courtlog.reports.evening import evening_texts
from courtlog.reports.facts.day_facts import day_facts
from courtlog.reports.facts.plan_facts import PlanRequest, plan_facts
from courtlog.reports.one_screen.day_page import day_page
from courtlog.reports.pages.day_text import day_text
from courtlog.reports.pages.plan_text import plan_text
from tests.court import LIBRARY, START, open_book

DAY = date(2026, 5, 12)

PRACTICE = "drill forehand/racquet-feed  purpose practice  cues turn spacing"

SHEET = f"""
clinic Harbour Week  zone UTC  days 3
roster Maren
roster Tove
roster Ruben
roster Anouk
roster Ilse

day 2026-05-12  court 2  coach Bo
player Anouk  {PRACTICE}  time 09:00:00-09:10:00
22 00 22 22 11 22 22 22
player Maren  {PRACTICE}  time 09:12:00-09:16:00
00 00

day 2026-05-12  court 1  coach Ines
player Tove  {PRACTICE}  time 09:00:00-09:05:00
22 00
player Ruben  {PRACTICE}  time 09:06:00-09:11:00
22 00 22
player Maren  {PRACTICE}  time 10:00:00-10:06:00
22 22 22
"""


@pytest.fixture
def clinic(tmp_path: Path) -> Iterator[tuple[Book, Clinic]]:
    """Maren was on court 2 first and on court 1 after it; Ilse was not there."""
    book = open_book(tmp_path)
    put_in(book, read_sheet(SHEET, "sheet", LIBRARY, "UTC"), LIBRARY, START + 100_000_000)
    yield book, lookups.clinics(book)[0]
    book.close()


def test_the_balls_of_a_player_who_changed_courts_are_in_the_order_they_were_hit(
    clinic: tuple[Book, Clinic],
) -> None:
    book, here = clinic
    maren = lookups.player_on_roster(book, here.id, "Maren")
    balls = history(book, here.id, maren.id, "forehand").balls
    assert [ball.grades["turn"] for ball in balls] == [0, 0, 2, 2, 2]


def test_the_crowded_court_is_named_with_its_counts(clinic: tuple[Book, Clinic]) -> None:
    book, here = clinic
    facts = day_facts(book, here, None, None)
    said = (
        "Court 1 was crowded: its 3 players hit 8 balls, fewer each than the 2 on court 2 with 10."
    )
    assert facts.crowded.sentence == said
    assert said in " ".join(day_page(facts).split())
    assert "Harbour Week · day 1 of 3 · Tue 12 May 2026 · courts 1, 2 · coaches" in day_page(facts)
    table = day_text(facts).partition("Over all courts")[2].splitlines()
    assert [line.split() for line in table[4:8]] == [
        ["Tove", "1", "2", "5", "17%", "2", "5", "17%"],
        ["Ruben", "1", "3", "5", "17%", "3", "5", "17%"],
        ["Maren", "2", "then", "1", "5", "10", "33%", "5", "10", "33%"],
        ["Anouk", "2", "8", "10", "33%", "8", "10", "33%"],
    ]


def test_a_court_of_which_nothing_came_is_named_with_its_players(
    clinic: tuple[Book, Clinic],
) -> None:
    book, here = clinic
    tove, ilse = (lookups.player_on_roster(book, here.id, name) for name in ("Tove", "Ilse"))
    deal_players(book, here.id, DAY, [CourtGroup("3", (tove, ilse))], START)
    page = day_page(day_facts(book, here, None, None))
    assert "Nothing has come from court 3 yet: Ilse is missing here." in page
    assert "No ball that day" not in page


def test_only_whoever_was_noted_away_is_said_to_be(clinic: tuple[Book, Clinic]) -> None:
    """Ilse may simply not be typed in yet: the book knows of no ball, and no more."""
    book, here = clinic
    assert "\nNo ball that day: Ilse.\n" in day_page(day_facts(book, here, None, None))
    ilse = lookups.player_on_roster(book, here.id, "Ilse")
    day = lookups.days(book, here.id)[0]
    RotationWriter(book).set_presence(day.id, ilse.id, Presence.LEFT, 0.0, START)
    assert "\nNot there: Ilse.\n" in day_page(day_facts(book, here, None, None))


def test_a_players_own_page_says_nothing_of_the_others(clinic: tuple[Book, Clinic]) -> None:
    texts = evening_texts(*clinic, None, LIBRARY)
    assert "crowded" in texts["day.txt"]
    assert "crowded" not in texts["maren.txt"]
    assert "Tove" not in texts["maren.txt"]


def test_times_that_nobody_noted_leave_the_share_open() -> None:
    names = [(1, "Maren"), (2, "Tove")]
    noted, unknown = FedRound(1, "1", 10, 6.0), FedRound(2, "2", 4, None)
    fair = courts_fairness(names, [noted, unknown], [])
    assert [(s.player, s.minutes, s.share) for s in fair.shares] == [
        ("Tove", None, None),
        ("Maren", 6.0, None),
    ]


@pytest.mark.parametrize(
    ("full", "free", "is_said"), [(30, 20, True), (60, 20, False), (40, 20, False)]
)
def test_a_full_court_is_crowded_only_where_a_player_had_fewer_balls(
    full: int, free: int, is_said: bool
) -> None:
    names = [(1, "Maren"), (2, "Tove"), (3, "Ruben")]
    fed = [FedRound(1, "1", full // 2, 1), FedRound(2, "1", full // 2, 1)]
    fair = courts_fairness(names, [*fed, FedRound(3, "2", free, 1)], [])
    assert bool(fair.crowded) is is_said


def test_the_plan_deals_to_as_many_courts_as_today_had(clinic: tuple[Book, Clinic]) -> None:
    """Ilse has no ball: she comes to court 2, where there is room."""
    book, here = clinic
    tomorrow = DAY + timedelta(days=1)
    page = plan_text(plan_facts(book, here, tomorrow, LIBRARY))
    assert "court 1   Tove, Ruben, Maren" in page
    assert "court 2   Ilse, Anouk" in page
    assert "minutes on the court" in page
    rounds = plan_text(plan_facts(book, here, tomorrow, LIBRARY), rounds=True)
    first, second = rounds.split("Court 2")
    assert "Anouk" not in first.partition("Court 1")[2]
    assert "Tove   " not in second


def test_what_was_kept_with_the_plan_is_dealt(clinic: tuple[Book, Clinic]) -> None:
    book, here = clinic
    tomorrow = DAY + timedelta(days=1)
    keeper = PlanKeeper(book, here, LIBRARY, tomorrow, PlanRequest(courts=3))
    proposed = keeper.plans().courts
    keeper.keep_proposal(START)
    kept = next_day_courts(book, here.id, tomorrow)
    assert proposed is not None
    assert kept is not None
    assert kept.kept
    assert kept.groups == proposed.groups == court_groups(book, here.id, tomorrow)
    assert "courtlog courts" not in plan_text(keeper.facts())
