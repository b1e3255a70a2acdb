"""An amber of an earlier day: who has one is asked first, and nothing is planned before that."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from courtlog.coaching.game.clinic_record import CheckIn, CheckInMoment
from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.care_lookups import ask_first_on
from courtlog.logbook.reads.rotation_lookups import next_order
from courtlog.logbook.writes.care_writer import CareWriter
from courtlog.reports.facts.day_facts import day_facts
from courtlog.reports.facts.plan_facts import plan_facts
from tests.court import DAY, LIBRARY, START, desk_in, feed, player

NEXT = DAY + timedelta(days=1)


def said(desk: Desk, words: str, minute: int = 0, on: int = 0) -> None:
    """`end shoulder 4`: what Maren says on this day (0 the first) in this minute."""
    moment, *place, pain = words.split()
    days = lookups.days(desk.book, desk.view.clinic.id)
    at = START + 60_000 * minute
    check_in = CheckIn(
        player="Maren",
        moment=CheckInMoment(moment),
        pain=int(pain),
        place=" ".join(place),
        at_ms=at,
    )
    CareWriter(desk.book).add_check_in(days[on].id, player(desk, "Maren").id, check_in, at)


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """Maren left after four balls; the others had more."""
    desk = desk_in(tmp_path)
    for name, balls in (("Maren", "222 " * 4), ("Tove", "222 " * 9), ("Ruben", "222 " * 8)):
        desk.rounds.start(player=player(desk, name), purpose=Purpose.YARDSTICK)
        feed(desk, balls)
    return desk


def to_ask(desk: Desk) -> list[str]:
    """The reasons for the next day."""
    return [a.words for a in ask_first_on(desk.book, desk.view.clinic.id, NEXT).values()]


def test_pain_4_after_four_balls_is_never_first_and_has_nothing_planned(desk: Desk) -> None:
    said(desk, "end shoulder 4")
    clinic = desk.view.clinic
    plan = plan_facts(desk.book, clinic, NEXT, LIBRARY)
    assert plan.order == ("Ruben", "Tove", "Maren")
    assert {line.player for block in plan.blocks for line in block} == {"Ruben", "Tove"}
    assert [p.shown_name for p in next_order(desk.book, clinic.id, DAY)] == [*plan.order]
    (maren,) = day_facts(desk.book, clinic, DAY, "Maren").players
    assert maren.next_said.sentence == (
        "Next day: ask about the arm first; nothing is planned before that."
    )
    assert maren.tomorrow.startswith("ask about the arm first (amber on ")
    desk.clinic.open_day(clinic.id, NEXT, "2", "Ines")
    court = desk.view.rotation.court
    assert player(desk, "Maren") not in court.queue
    assert "ask first" in court.off[player(desk, "Maren").id]
    desk.care.check_in(player(desk, "Maren"), CheckIn(player="Maren", pain=0))
    assert player(desk, "Maren") in desk.view.rotation.court.queue
    assert plan_facts(desk.book, clinic, NEXT, LIBRARY).order[0] == "Maren"


@pytest.mark.parametrize(
    ("check_ins", "stands"),
    [
        ("arrival shoulder 4", True),
        ("arrival shoulder 2", False),
        ("arrival shoulder 4, end shoulder 1", False),
        ("arrival shoulder 4, end elbow 1", True),
        ("arrival shoulder 4, end 0", False),
        ("arrival shoulder 0, end shoulder 2", True),
        ("arrival shoulder 6", False),
        ("arrival shoulder 6, break shoulder 4", True),
    ],
)
def test_the_last_word_on_each_place_of_the_last_day_counts(
    desk: Desk, check_ins: str, stands: bool
) -> None:
    for minute, words in enumerate(check_ins.split(", ")):
        said(desk, words, minute)
    assert bool(to_ask(desk)) is stands


def test_whatever_is_said_that_morning_ends_it(desk: Desk) -> None:
    said(desk, "end shoulder 4")
    assert to_ask(desk)
    desk.clinic.open_day(desk.view.clinic.id, NEXT, "2", "Ines")
    said(desk, "morning shoulder 4", 1440, on=1)
    assert to_ask(desk) == []


@pytest.mark.parametrize(("minute", "stands"), [(5, True), (15, False)])
def test_a_clinicians_word_after_it_ends_it(desk: Desk, minute: int, stands: bool) -> None:
    said(desk, "arrival shoulder 6")
    said(desk, "end shoulder 4", 10)
    (red,) = desk.care.reds()
    CareWriter(desk.book).add_clinician_word(red.id, "Dr A", "may hit", START + 60_000 * minute)
    assert bool(to_ask(desk)) is stands
