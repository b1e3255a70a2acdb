"""What a plan's yardsticks can tell, in words a tired coach reads at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.plan_edits import RoundChange, changed
from courtlog.coaching.voice.statement import EVERYTHING
from courtlog.logbook.reads import lookups
from courtlog.plan_keeper import PlanKeeper
from courtlog.reports.facts.plan_facts import PlanRequest, plan_facts
from courtlog.reports.facts.plan_models import ReachFacts, ReachLine, RiseFacts
from courtlog.reports.pages.plan_reach_text import reach_lines
from courtlog.reports.pages.plan_text import plan_text
from tests.court import DAY, LIBRARY, START, desk_in, feed, player


def line(first: int, last: int, large: float, smaller: float, **more: int) -> ReachLine:
    """Balls and the two chances; `hold` of the last ones, `advised` or not."""
    rises = (
        RiseFacts(before=7, after=14, out_of=20, chance=large),
        RiseFacts(before=7, after=11, out_of=20, chance=smaller),
    )
    return ReachLine(
        first=first,
        last=last,
        of_hold=more.get("hold", 0),
        advised=bool(more.get("advised")),
        rises=rises,
    )


def told(*lines: ReachLine, again: bool = False) -> list[str]:
    """The printed lines, with single blanks."""
    printed = list(reach_lines(ReachFacts(again=again, lines=lines, least=16, too_few=())))
    assert len(printed) <= 5
    assert max(map(len, printed)) <= 66
    return [" ".join(words.split()) for words in printed]


def test_a_first_yardstick_says_what_forty_balls_would_find() -> None:
    assert told(
        line(20, 20, 0.589, 0.227),
        line(20, 40, 0.756, 0.323, hold=20),
        line(40, 60, 0.945, 0.521, hold=20, advised=1),
    ) == [
        "A rise of the main cue, in 20, is found: 7 to 14 7 to 11",
        "20 now, 20 on the last day 6 of 10 2 of 10",
        "20 now, 40 on the last day with the hold 8 of 10 3 of 10",
        "plan 40: 40 now, 60 then with the hold 9 of 10 5 of 10",
        "These find only a large rise; 40 find half of the smaller too.",
    ]


def test_the_last_day_counts_from_what_was_seen_and_advises_no_ball_that_finds_nothing() -> None:
    planned = line(19, 20, 0.6, 0.24), line(19, 40, 0.75, 0.32, hold=20)
    more = line(19, 60, 0.79, 0.34, hold=20, advised=1)
    assert told(*planned, more, again=True)[1:] == [
        "19 the first time, 20 now 6 of 10 2 of 10",
        "19 the first time, 40 now with the hold 8 of 10 3 of 10",
        "These find only a large rise; most smaller ones stay unseen.",
    ]
    better = line(38, 40, 0.89, 0.44, advised=1)
    assert told(line(38, 20, 0.73, 0.29), better, again=True)[2:] == [
        "plan 40: 40 now 9 of 10 4 of 10",
        "These find only a large rise; 40 find some of the smaller too.",
    ]


@pytest.mark.parametrize(
    ("large", "smaller", "cells", "words"),
    [
        (0.0, 0.0, "none none", "Under 16 balls, either time, tell nothing."),
        (0.04, 0.01, "hardly any hardly any", "These find only a large rise; most smaller"),
        (0.05, 0.05, "1 of 10 1 of 10", "These find only a large rise; most smaller"),
        (0.949, 0.45, "9 of 10 4 of 10", "These find large rises, and half of the smaller ones."),
        (0.95, 0.6, "nearly all 6 of 10", "These find large rises, and most of the smaller ones."),
    ],
)
def test_every_chance_has_its_words(large: float, smaller: float, cells: str, words: str) -> None:
    printed = told(line(20, 20, large, smaller))
    assert printed[1].endswith(f"on the last day {cells}")
    assert printed[2].startswith(words)


def test_nothing_to_tell_is_nothing_printed() -> None:
    assert list(reach_lines(None)) == []
    assert list(reach_lines(ReachFacts(again=True, lines=(), least=16, too_few=()))) == []


def test_the_page_has_the_table_where_a_yardstick_is_planned_and_follows_the_plan(
    tmp_path: Path,
) -> None:
    desk = desk_in(tmp_path, ("Maren",), "forehand/hand-feed")
    clinic = lookups.clinics(desk.book)[0]
    page = plan_text(plan_facts(desk.book, clinic, DAY, LIBRARY), EVERYTHING)
    assert "  can tell  A rise of the main cue" in page
    assert "20 now, 20 on the last day" in page
    keeper = PlanKeeper(desk.book, clinic, LIBRARY, DAY, PlanRequest())
    keeper.edit(lambda plan: changed(plan, 2, RoundChange(balls=40), LIBRARY.ladders), START)
    page = plan_text(keeper.facts(), EVERYTHING)
    assert "40 now, 40 on the last day with the hold      9 of 10" in page
    keeper.edit(
        lambda plan: changed(plan, 2, RoundChange(purpose=Purpose.PRACTICE), LIBRARY.ladders), START
    )
    assert "can tell" not in plan_text(keeper.facts(), EVERYTHING)


def test_a_first_yardstick_with_too_few_seen_is_told_before_the_last_day(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, ("Maren",), "forehand/hand-feed")
    desk.rounds.start(player=player(desk, "Maren"), purpose=Purpose.YARDSTICK)
    feed(desk, "_ _ _")
    clinic = lookups.clinics(desk.book)[0]
    on = DAY.replace(day=DAY.day + 9)
    keeper = PlanKeeper(desk.book, clinic, LIBRARY, on, PlanRequest())
    keeper.edit(
        lambda plan: changed(plan, 1, RoundChange(purpose=Purpose.YARDSTICK), LIBRARY.ladders),
        START,
    )
    words = " ".join(plan_text(keeper.facts(), EVERYTHING).split())
    assert "Under 16 balls of the main cue were seen in the first yardstick of Maren" in words
    assert "can tell " not in words
    short = " ".join(plan_text(keeper.facts()).split())
    assert "Under 16 balls were seen in the first yardstick: Maren." in short
