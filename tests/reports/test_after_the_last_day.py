"""After the last planned day no further day is proposed, wherever a day ahead is told."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.desk.desk import Desk
from courtlog.reports import evening, pages
from courtlog.reports.facts.plan_facts import PlanRequest, plan_facts
from tests.court import DAY, LIBRARY, again, desk_in, feed, player
from tests.courtside.screen import on_court

DRILL = LIBRARY.drill("forehand/racquet-feed")
OVER = "The clinic was planned for 2 days: no further day is proposed."


def two_days(folder: Path, planned: int | None) -> Desk:
    """Two days with a yardstick each, in a clinic planned for so many days."""
    desk = desk_in(folder, ("Maren", "Tove"), drill=None)
    with desk.book.writing() as db:
        db.execute("UPDATE clinic SET planned_days = ?", [planned])
    for day in range(2):
        if day:
            desk.clinic.begin_day(DAY + timedelta(days=day))
        for name in ("Maren", "Tove"):
            for purpose in (Purpose.YARDSTICK, Purpose.PRACTICE):
                desk.rounds.start(player(desk, name), DRILL, purpose)
                feed(desk, "222 000 111")
        desk.rounds.end_round()
    return again(desk)


def plan_of_third_day(desk: Desk) -> str:
    facts = plan_facts(desk.book, desk.view.clinic, DAY + timedelta(days=2), LIBRARY, PlanRequest())
    return pages.plan_text.plan_text(facts)


@pytest.mark.parametrize(("planned", "over"), [(2, True), (3, False), (None, False)])
def test_plan_screen_evening_and_court_agree(
    tmp_path: Path, planned: int | None, over: bool
) -> None:
    desk = two_days(tmp_path, planned)
    page = " ".join(plan_of_third_day(desk).split())
    assert (OVER in page) == over
    assert ("racquet" in page.lower()) == (not over)
    screen = " ".join(on_court(desk, ["ctrl+p"]).split())
    assert (OVER in screen) == over
    assert ("No round is planned" in screen) == over
    texts = evening.evening_texts(desk.book, desk.view.clinic, desk.view.day.date, LIBRARY)
    assert (evening.PLAN in texts) == (not over)
    assert ("Next day" in "".join(texts.values())) == (not over)

    desk.clinic.begin_day(DAY + timedelta(days=2))
    desk.rounds.start(player(desk, "Maren"))
    live = desk.view.live
    assert live is not None
    assert (live.purpose is Purpose.PRACTICE) == over


def test_a_plan_that_the_coach_keeps_for_one_more_day_is_gone_by(tmp_path: Path) -> None:
    desk = two_days(tmp_path, 2)
    on_court(desk, ["ctrl+p", "a", *"mar", "enter", *"forehand live", "enter", "enter"])
    assert "this is one more" in " ".join(plan_of_third_day(desk).split())
    desk.clinic.begin_day(DAY + timedelta(days=2))
    desk.rounds.start(player(desk, "Maren"))
    assert desk.view.live is not None
    assert desk.view.live.drill.name == "forehand/live"
