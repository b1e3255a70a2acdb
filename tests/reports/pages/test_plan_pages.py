"""The plan and the day's page say the same of tomorrow, whoever is held back or limited."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

from courtlog import locations
from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.people import Clinic, Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.plan_edits import dropped
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.coaching.voice.statement import EVERYTHING
from courtlog.library.sheet_in import read_sheet
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.writes.clinic_writer import keep_plan
from courtlog.reports.facts.day_facts import day_facts
from courtlog.reports.facts.models import DayFacts
from courtlog.reports.facts.plan_facts import plan_facts, plans
from courtlog.reports.facts.plan_models import (
    PlanFacts,
)
from courtlog.reports.pages.plan_text import plan_text
from tests.court import LIBRARY, START, open_book

SECOND = date(2026, 5, 12)


def harbour(folder: Path) -> tuple[Book, Clinic]:
    """The five-day sample."""
    book = open_book(folder)
    text = (locations.shipped_samples() / "harbour-week.txt").read_text(encoding="utf-8")
    put_in(book, read_sheet(text, "harbour-week.txt", LIBRARY, "UTC"), LIBRARY, START)
    return book, lookups.clinics(book)[0]


def both(book: Book, clinic: Clinic, played: date) -> tuple[DayFacts, PlanFacts]:
    """The page of a day, and the plan of the next."""
    on = played + timedelta(days=1)
    return day_facts(book, clinic, played, None), plan_facts(book, clinic, on, LIBRARY)


def words(facts: PlanFacts) -> str:
    """All that is printed of the plan, without its line ends."""
    return " ".join(plan_text(facts, EVERYTHING).split())


def test_the_days_page_and_the_plan_agree_on_every_evening(tmp_path: Path) -> None:
    book, clinic = harbour(tmp_path)
    for played in lookups.dates(book, clinic.id)[:-1]:
        day, plan = both(book, clinic, played)
        assert day.morning == plan.order
        lines = [line for block in plan.blocks for line in block]
        for player in day.players:
            uncoached = [
                f"{line.purpose} on {line.name} ("
                for line in lines
                if line.player == player.player and line.purpose != "practice"
            ]
            assert uncoached
            if player.arm.waits:  # the next morning's answer, which the plan has, was not known yet
                assert player.tomorrow.startswith("ask about the arm first")
                continue
            assert [piece for piece in uncoached if piece not in player.tomorrow] == []
            up = any(line.player == player.player and "up" in line.reason for line in lines)
            assert up == ("one rung up from" in player.tomorrow)


def test_the_days_page_says_what_was_planned(tmp_path: Path) -> None:
    book, clinic = harbour(tmp_path)
    tove = lookups.player_on_roster(book, clinic.id, "Tove")
    rounds = (PlannedRound(tove, "forehand/hand-feed", Purpose.TRANSFER, 12),)
    keep_plan(book, clinic.id, SECOND + timedelta(days=1), (), rounds, START)
    day, plan = both(book, clinic, SECOND)
    assert day.morning == plan.order == ("Tove",)
    said = {player.player: player.tomorrow for player in day.players}
    assert said["Tove"] == "as you planned it: transfer on Hand feed from 3 m."
    assert said["Maren"] == "as you planned it: no round."
    assert "The proposal for" in words(plan)


def test_a_mornings_hold_and_an_evenings_have_their_own_reasons_in_a_kept_plan_too(
    tmp_path: Path,
) -> None:
    book, clinic = harbour(tmp_path)
    on = SECOND + timedelta(days=1)
    proposal = plans(book, clinic, on, LIBRARY).proposal.rounds

    def holds(player: Player) -> list[str]:
        reasons = plan_facts(book, clinic, on, LIBRARY).reasons
        (theirs,) = [reason.rounds for reason in reasons if reason.player == player.shown_name]
        return [words for words in theirs if words.startswith("hold")]

    morning = "hold: what stayed overnight, on the yardstick's drill"
    evening = "hold: to compare with the next morning"
    first, last = proposal[0].player, proposal[-1].player
    assert holds(first) == [morning, evening]
    keep_plan(book, clinic.id, on, (), proposal, START)
    assert holds(first) == [morning, evening]
    struck = dropped(dropped(proposal, len(proposal)), 1)
    keep_plan(book, clinic.id, on, plans(book, clinic, on, LIBRARY).kept, struck, START)
    assert holds(first) == [evening]
    assert holds(last) == [morning]
    page = words(plan_facts(book, clinic, on, LIBRARY))
    assert f"for {last.shown_name}: also hold on Day-one feed, kept unchanged (10)" in page


def test_a_red_and_a_ball_limit_are_told_and_kept(tmp_path: Path) -> None:
    book, clinic = harbour(tmp_path)
    maren, tove = (lookups.player_on_roster(book, clinic.id, name) for name in ("Maren", "Tove"))
    days = {day.date: day.id for day in lookups.days(book, clinic.id)}
    with book.writing() as db:
        db.execute("UPDATE roster SET ball_limit = 25 WHERE player_id = ?", [tove.id])
        db.execute(
            "INSERT INTO red_flag VALUES (1, ?, ?, NULL, 'swelling', ?)",
            [days[SECOND], maren.id, START],
        )
    day, plan = both(book, clinic, SECOND)
    assert "Maren" not in plan.order
    assert day.morning == plan.order
    (said,) = [player.tomorrow for player in day.players if player.player == "Maren"]
    assert said.startswith("not on the feed (red on Tue 12 May, no clinician's word yet: swelling")
    assert "Maren is not on the feed (red on Tue 12 May" in words(plan)
    assert "Tove may hit 25 balls a day: 3 rounds beyond that left out." in words(plan)
    over = (
        PlannedRound(maren, "forehand/hand-feed", Purpose.HOLD, 20),
        PlannedRound(tove, "forehand/hand-feed", Purpose.HOLD, 30),
    )
    keep_plan(book, clinic.id, SECOND + timedelta(days=1), (), over, START)
    kept = words(plan_facts(book, clinic, SECOND + timedelta(days=1), LIBRARY))
    assert "Take their rounds out of the plan." in kept
    assert "Tove may hit 25 balls a day, and 30 are planned: take some out." in kept


def test_a_day_of_just_the_minutes_that_are_needed_is_long_enough(tmp_path: Path) -> None:
    book, clinic = harbour(tmp_path)
    facts = plan_facts(book, clinic, SECOND, LIBRARY)
    quick, slow = facts.effort.minutes_quick, facts.effort.minutes_slow

    def fits(minutes: int) -> str:
        (said,) = re.findall(r"minutes: it ([^.]+)\.", words(replace(facts, hours=minutes / 60)))
        return str(said)

    assert [fits(minutes) for minutes in (slow, slow - 1, quick, quick - 1)] == [
        "fits",
        "fits only at a quick pace",
        "fits only at a quick pace",
        "does not fit",
    ]
