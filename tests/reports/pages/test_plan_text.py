"""The printed plan: thirty lines for whoever comes, and all that it says on request."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from courtlog import locations
from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.plan_edits import RoundChange, changed, moved
from courtlog.coaching.voice.statement import EVERYTHING, Depth
from courtlog.library.sheet_in import read_sheet
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.plan_keeper import PlanKeeper
from courtlog.reports.facts.day_facts import day_facts
from courtlog.reports.facts.plan_facts import PlanRequest, plan_facts
from courtlog.reports.facts.plan_models import AskFirst, HeldBack, LimitFacts, PlanFacts
from courtlog.reports.pages.plan_notes_text import notes
from courtlog.reports.pages.plan_text import MOST_LINES, effort_words, plan_line, plan_text
from tests.court import START, open_book
from tests.pages.drawn_books import in_book
from tests.pages.drawn_clinics import LONG_NAME, drawn_clinic, numbers
from tests.samples.generator import shipped_library

RETIRED = re.compile(r"undecided|not yet|too few balls|[()%\[\]]|since ball")
LIBRARY = shipped_library()


def sample(folder: Path, name: str) -> tuple[Book, Clinic]:
    book = open_book(folder)
    text = (locations.shipped_samples() / f"{name}.txt").read_text(encoding="utf-8")
    put_in(book, read_sheet(text, name, LIBRARY, "UTC"), LIBRARY, START)
    return book, lookups.clinics(book)[0]


def evenings(book: Book, clinic: Clinic) -> list[date]:
    """The clinic's dates, and the day after them."""
    dates = lookups.dates(book, clinic.id)
    return [*dates, dates[-1] + timedelta(days=1)]


def check_short(facts: PlanFacts) -> list[str]:
    """The lines at the first depth, which keep to the paper and to plain words."""
    lines = plan_text(facts).splitlines()
    assert len(lines) <= MOST_LINES
    assert max(map(len, lines)) <= 80
    assert not RETIRED.search("\n".join(lines[1:]))
    return lines


@pytest.mark.parametrize("name", ["harbour-week", "two-court-weekend"])
def test_the_plans_of_the_samples_have_thirty_lines(tmp_path: Path, name: str) -> None:
    book, clinic = sample(tmp_path, name)
    for on in evenings(book, clinic):
        check_short(plan_facts(book, clinic, on, LIBRARY))


@pytest.mark.parametrize("number", numbers())
def test_every_drawn_clinic_has_a_plan_of_thirty_lines_with_every_round_in_it(
    tmp_path: Path, number: int
) -> None:
    drawn = drawn_clinic(number)
    book, clinic = in_book(tmp_path, drawn)
    for on in evenings(book, clinic):
        facts = plan_facts(book, clinic, on, LIBRARY)
        lines = check_short(facts)
        places = [line.place for block in facts.blocks for line in block]
        ranges = [re.match(r"  (\d+)(?:-(\d+))?  ", line) for line in lines]
        told = [n for r in filter(None, ranges) for n in range(int(r[1]), int(r[2] or r[1]) + 1)]
        assert told == places
        full = plan_text(facts, EVERYTHING, rounds=True)
        assert all(plan_line(line) in full for block in facts.blocks for line in block)
        flat = " ".join(full.split())
        for words in [*(effort_words(facts) if places else ()), *notes(facts)]:
            assert " ".join(words.split()) in flat
        for reason in facts.reasons:
            assert all(" ".join(words.split()) in flat for words in reason.rounds)


def crowded(folder: Path) -> PlanFacts:
    """A plan of twelve players."""
    book, clinic = in_book(folder, drawn_clinic(1))
    return plan_facts(book, clinic, evenings(book, clinic)[1], LIBRARY)


def test_twelve_drills_reds_ambers_and_limits_still_fit(tmp_path: Path) -> None:
    facts = crowded(tmp_path)
    names = sorted(LIBRARY.names())
    blocks = tuple(
        tuple(
            replace(
                line,
                drill=names[(place + turn) % len(names)],
                name=f"A drill of a rather long name, {place + turn}",
                stroke=names[(place + turn) % len(names)].partition("/")[0],
            )
            for place, line in enumerate(block)
        )
        for turn, block in enumerate(facts.blocks * 4)
    )
    who = [f"{LONG_NAME} {number}" for number in range(12)]
    worst = replace(
        facts,
        blocks=blocks,
        hours=0.5,
        held_back=tuple(HeldBack(player=name, reason="swelling", planned=True) for name in who[:1]),
        ask_first=tuple(AskFirst(player=name, reason="pain", planned=True) for name in who),
        limits=tuple(LimitFacts(player=name, limit=9, balls=10, left_out=1) for name in who),
    )
    assert len(plan_text(worst).splitlines()) <= MOST_LINES
    assert "rounds: --rounds says which" in plan_text(worst)


def test_each_player_looks_for_what_the_page_of_the_last_day_says(tmp_path: Path) -> None:
    book, clinic = sample(tmp_path, "harbour-week")
    played = lookups.dates(book, clinic.id)[1]
    facts = plan_facts(book, clinic, played + timedelta(days=1), LIBRARY)
    said = {
        player.player: player.changes[0].one_thing.sentence
        for player in day_facts(book, clinic, played, None).players
    }
    assert len(facts.look_for) == 6
    for each in facts.look_for:
        assert said[each.player].startswith(f"One thing: {each.cue}, ")


def test_no_reason_is_said_twice_and_figures_wait_until_they_are_asked_for(tmp_path: Path) -> None:
    book, clinic = sample(tmp_path, "harbour-week")
    facts = plan_facts(book, clinic, evenings(book, clinic)[2], LIBRARY)
    page = plan_text(facts, Depth(why=True))
    why = " ".join(page.partition("\n  why ")[2].split())
    for reason in facts.reasons:
        sentences = [said.sentence for said in reason.said if said.reason]
        assert all(why.count(f"{reason.player}: {sentence}") == 1 for sentence in sentences)
    assert why.count("Only practice balls on this drill count") == 1
    assert not RETIRED.search(page.partition("\n")[2])
    assert "keep feeding (" in plan_text(facts, Depth(figures=True))


def test_a_changed_round_stands_out_under_its_number(tmp_path: Path) -> None:
    book, clinic = sample(tmp_path, "harbour-week")
    clinic = replace(clinic, planned_days=6)  # after the last planned day nothing is proposed
    keeper = PlanKeeper(book, clinic, LIBRARY, evenings(book, clinic)[-1], PlanRequest())
    change = RoundChange("forehand/live", Purpose.TRANSFER, 12)
    keeper.edit(lambda plan: changed(plan, 2, change, LIBRARY.ladders), START)
    keeper.edit(lambda plan: moved(plan, 2, 1), START)
    page = " ".join(check_short(keeper.facts()))
    assert "  1-6       transfer, no help, 12 balls: Anouk on Live cross-court forehands;" in page
    assert "The proposal is another: --why shows it." in page
    assert "The proposal for Anouk: " in plan_text(keeper.facts(), Depth(why=True))
