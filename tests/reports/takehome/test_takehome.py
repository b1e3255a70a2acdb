"""The take-home sheet says what the balls bear, plans gently, and its table reads back in."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from rich.cells import cell_len

from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.answers.player_answer import stroke_answer
from courtlog.coaching.plans import homework
from courtlog.coaching.voice.statement import EVERYTHING
from courtlog.library.drill_files import Library
from courtlog.library.sheet_in import read_sheet
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.answer_lookups import answers
from courtlog.reports.takehome.takehome_facts import TakeHome, take_home
from courtlog.reports.takehome.takehome_html import takehome_html
from courtlog.reports.takehome.takehome_sheet import DATE, RATER, home_clinic, home_sheet
from courtlog.reports.takehome.takehome_text import takehome_text
from tests.court import LIBRARY, START, open_book
from tests.past import CUES, day, past
from tests.reports.takehome.takehome_pages import (
    SHEETS,
    facts_in,
    filled,
    pages,
    sheet_of,
    text_of,
)

FORBIDDEN = re.compile(r"\b(cause|causes|caused|because|cured|injury risk|safe|safely)\b", re.I)
LADDER = LIBRARY.ladder("forehand")


@pytest.fixture(scope="module")
def samples() -> list[TakeHome]:
    """The sheets of every player of both sample clinics."""
    return pages()


def test_the_good_thing_first_and_nothing_wider_than_a_page(samples: list[TakeHome]) -> None:
    for facts in samples:
        lines = takehome_text(facts).splitlines()
        assert lines[0].startswith(f"{facts.player} · {facts.clinic}")
        assert next(line for line in lines if line.isupper()).startswith("WHAT WAS GOOD ON ")
        assert max(map(cell_len, lines)) <= 78
        assert len(lines) <= 46
        assert all(line.isprintable() for line in lines)


def test_every_word_of_caution_and_none_that_claims_too_much(samples: list[TakeHome]) -> None:
    for facts in samples:
        page = takehome_html(facts)
        for text in (" ".join(takehome_text(facts, EVERYTHING).split()), page):
            assert FORBIDDEN.search(text) is None
            assert "licensed clinician" in text
            assert "stop before pain, not at it" in text
            assert "Usual practice, not from a study" in text
            assert "at most every other day" in text
        others = {other.player for other in samples} - {facts.player}
        assert not any(name in page for name in others)


def test_each_cue_has_the_words_of_the_one_table(samples: list[TakeHome]) -> None:
    maren = samples[0]
    spacing = maren.cues[0]
    assert spacing.name == "spacing"
    assert "17 of 20 on day 5, 6 of 19 on day 1: a real gain, +53 points (23 to 72)" in (
        spacing.learned
    )
    assert maren.well == (
        "Made most often on day 5: spacing, 69 of 86 (80%, 71 to 87). At least every second ball: "
        "turn 57 of 85"
        " (67%, 57 to 76); finish 49 of 87 (56%, 46 to 66).",
    )


@pytest.mark.parametrize(
    ("balls", "begins", "learned"),
    [
        ("000*12", "12 balls hit and seen. Made so far", "no yardstick to compare"),
        ("010*12", "Close already: spacing was near on 12 of 12 balls.", "no yardstick to compare"),
        ("---*12", "Your balls were hit; no cue was seen on them", "no yardstick to compare"),
        ("200*4", "Made most often on day 1: turn, 4 of 4.", "no yardstick to compare"),
    ],
)
def test_a_player_with_little_to_show_gets_a_kind_page(
    tmp_path: Path, balls: str, begins: str, learned: str
) -> None:
    text = text_of(tmp_path, f"purpose practice\n{balls}")
    assert begins in text
    assert learned in text
    assert "Before" not in text
    assert "%" not in text.replace("(95% or more)", "") or balls != "200*4"


def test_a_yardstick_of_one_day_is_asked_for_again(tmp_path: Path) -> None:
    text = text_of(tmp_path, "purpose yardstick\n222*20")
    assert "the yardstick was played once so far: play the same one again" in text
    assert text.count("day ____-__-__") == 1


def test_a_player_without_a_ball_gets_no_plan(tmp_path: Path) -> None:
    text = text_of(tmp_path, "purpose practice\n222*9", player="Tove")
    assert "No ball of yours was seen at this clinic" in text
    assert "sessions" not in text


@pytest.mark.parametrize("pain", [3, 4, 7])
def test_pain_told_last_gives_nothing_to_hit(tmp_path: Path, pain: int) -> None:
    """The line was 5 and left drills and table; now no caution's pain leaves anything to hit."""
    text = text_of(tmp_path, f"purpose practice\n222*4\npain elbow {pain}")
    assert (
        f"You said your pain was {pain} of 10, elbow, on Tuesday. So this page has no balls to"
        in " ".join(text.split())
    )
    assert "See a licensed clinician first" in text
    for of_hitting in ("session", "week ", "swing of", "day ____", "Drop and hit", "rung", "“"):
        assert of_hitting not in text
    low = text_of(tmp_path / "low", "purpose practice\n222*9\npain elbow 2")
    assert "You said your pain was 2 of 10, elbow, on Tuesday. If you still feel it, see a" in low
    assert "sessions" in low


def test_drills_are_alone_and_no_higher_than_the_rung() -> None:
    def keys(rung: int, stroke: str = "forehand") -> list[tuple[str, int]]:
        drills = homework.home_drills(LIBRARY.ladder(stroke), rung)
        return [(home.drill.key, home.from_week) for home in drills]

    assert keys(7) == [("self-feed", 1), ("fence", 1)]
    assert keys(2) == [("fence", 1), ("shadow", 1)]
    assert keys(1) == [("shadow", 1), ("fence", 3)]
    for stroke, ladder in LIBRARY.ladders.items():
        for rung in range(1, ladder.top + 1):
            found = homework.home_drills(ladder, rung)
            assert len(found) == 2, stroke
            assert all(home.drill.station == "alone" for home in found)


@pytest.mark.parametrize("rung", [1, 2, 7])
@pytest.mark.parametrize("usual", range(1, 130))
def test_weeks_rise_gently_and_leave_a_day_between(usual: int, rung: int) -> None:
    drills = homework.home_drills(LADDER, rung)
    weeks = homework.doses(drills, usual)
    totals = [week.total for week in weeks]
    assert [week.number for week in weeks] == [1, 2, 3, 4]
    assert totals == sorted(totals)
    assert max(week.sessions for week in weeks) <= 3
    if usual >= 40:
        assert all(later <= 1.35 * early for early, later in pairwise(totals))
        assert max(sum(week.balls) for week in weeks) <= usual / 2


def test_the_rung_is_that_of_the_last_days_practice() -> None:
    assert homework.current_rung(past("1 practice 222*4", "2 yardstick 222*4")) == 5


def test_a_ladder_without_lonely_drills_still_makes_a_plan() -> None:
    history = past("1 yardstick 222*20")
    fed = tuple(drill for drill in LADDER.drills if drill.station == "feed")
    ladder = replace(LADDER, drills=fed)
    plan = homework.homework(history, stroke_answer(history, [day(1)], CUES), ladder, 5)
    assert (plan.drills, plan.weeks) == ((), ())
    assert plan.yardstick is not None
    assert plan.yardstick.drill.key == "racquet-feed"


def test_a_filled_in_table_is_compared_with_day_one_by_the_same_code(
    tmp_path: Path, samples: list[TakeHome]
) -> None:
    for facts in samples:
        assert facts.plan is not None
        assert facts.plan.yardstick is not None
        for width in (0, 78):
            sheet = home_sheet(facts, facts.plan.yardstick, width)
            record = read_sheet(filled(sheet, "222"), "home.txt", LIBRARY, "UTC")
            assert record.name == home_clinic(facts)
            assert record.days[-1].rounds[0].purpose == "yardstick"
            assert record.days[-1].rounds[0].cues == tuple(
                cue.key for cue in facts.plan.yardstick.cues
            )
        book = open_book(tmp_path / facts.player)
        put_in(book, record, LIBRARY, START)
        clinic = lookups.clinics(book)[-1]
        (answer,) = answers(
            book, clinic.id, lookups.player_on_roster(book, clinic.id, facts.player).id
        )
        for cue in answer.cues:
            assert cue.learning is not None
            assert cue.learning.late.made == cue.learning.late.seen
        book.close()


def test_the_printed_text_holds_the_sheet_as_it_reads_back(tmp_path: Path) -> None:
    text = text_of(tmp_path, "purpose yardstick\n222*20")
    block = sheet_of(text)
    assert block.count(DATE) == block.count(RATER) == 1
    record = read_sheet(filled(block.splitlines(), "120"), "home.txt", LIBRARY, "UTC")
    assert [len(day.rounds[0].balls) for day in record.days] == [20, 20]


def test_hostile_names_are_text(tmp_path: Path, samples: list[TakeHome]) -> None:
    name = 'Eve</pre><script>alert("x")</script>\x1b[2J\u202e'
    facts = replace(samples[0], player=name, clinic=f"{name} # cues")
    page = takehome_html(facts)
    assert "<script" not in page
    text = takehome_text(facts, EVERYTHING)
    assert "\x1b" not in page + text
    assert "\u202e" not in page + text
    assert facts.plan is not None
    assert facts.plan.yardstick is not None
    record = read_sheet(
        filled(home_sheet(facts, facts.plan.yardstick), "222"), "home.txt", LIBRARY, "UTC"
    )
    assert record.name == home_clinic(facts)
    assert [entry.name for entry in record.roster] == [name]


def test_a_stroke_the_library_no_longer_has(tmp_path: Path) -> None:
    text_of(tmp_path, "purpose practice\n222*9")
    book: Book = open_book(tmp_path)
    facts = take_home(book, lookups.clinics(book)[-1], "Maren", Library({}))
    book.close()
    assert "ask your coach for one" in " ".join(takehome_text(facts).split())
    assert takehome_html(facts)


@pytest.mark.parametrize(
    ("played", "shown"),
    [(6, "1 2 3 4 5 6"), (7, "1 2 3 4 5 6 7"), (8, "1 3 4 5 6 7 8"), (12, "1 7 8 9 10 11 12")],
)
def test_of_many_days_the_first_and_the_last_are_shown(
    tmp_path: Path, played: int, shown: str
) -> None:
    sheet = "clinic Harbour\nroster Maren\n" + "".join(
        f"day 2026-06-{day:02}  coach Ines\n"
        f"player Maren  drill forehand/hand-feed  purpose practice  cues turn\n2 {'0 ' * day}\n"
        for day in range(1, played + 1)
    )
    (facts,) = facts_in(tmp_path, sheet)
    rows = re.findall(r'<th scope="row">(\d+)</th><td>(\d+ of \d+)', takehome_html(facts))
    assert rows == [(day, f"1 of {int(day) + 1}") for day in shown.split()]


def test_the_samples_are_all_there(samples: list[TakeHome]) -> None:
    assert len(samples) == 10
    assert len(SHEETS) == 2
