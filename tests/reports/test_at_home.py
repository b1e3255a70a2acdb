"""Yardsticks at home on a player's pages: against the court, against each other, marked always."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.paper.home_yardstick import HomeYardstickRecord
from courtlog.coaching.voice.statement import EVERYTHING
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.writes.paper.home_yardstick_writer import keep_home_yardstick
from courtlog.reports.facts import day_facts
from courtlog.reports.one_screen.player_day_page import player_day_page
from courtlog.reports.one_screen.player_page import player_page
from courtlog.reports.pages.day_text import day_text
from courtlog.reports.pages.player_text import player_text
from tests.court import DAY, desk_in, feed, player, used
from tests.courtside.screen import flat
from tests.pages.first_depth import faults, sentences_of, statements

DRILL = "forehand/day-one-feed"
JUNE_7, JUNE_21 = date(2026, 6, 7), date(2026, 6, 21)


def at_home(desk: Desk, on: date, tokens: str, watcher: str = "Jorun", drill: str = DRILL) -> None:
    """Keep a sheet that somebody filled in at home."""
    maren = player(desk, "Maren")
    balls = tuple(Ball.from_token(token, 3) for token in tokens.split())
    record = HomeYardstickRecord(
        on=on, watcher=watcher, cues=("turn", "spacing", "finish"), balls=balls
    )
    clinic = desk.view.clinic.id
    keep_home_yardstick(desk.book, clinic, maren.id, record, used(drill), desk.clock())


def court(tmp_path: Path, purpose: Purpose | None) -> Desk:
    """A day on which Maren hit twenty balls of that purpose; none without one."""
    desk = desk_in(tmp_path, drill=None)
    if purpose is not None:
        drill = desk.state.library.drill(DRILL)
        desk.rounds.start(player=player(desk, "Maren"), drill=drill, purpose=purpose)
        feed(desk, "000 " * 14 + "222 " * 6)
        desk.rounds.end_round()
    return desk


def page(desk: Desk) -> str:
    """Maren's page."""
    return player_page(day_facts.player_facts(desk.book, desk.view.clinic, "Maren"))


LOW, HIGH = "222 " * 4 + "000 " * 16, "222 " * 17 + "000 " * 3


@pytest.mark.parametrize("purpose", [None, Purpose.PRACTICE, Purpose.YARDSTICK])
def test_the_latest_is_held_against_the_first_of_the_same_watcher(
    tmp_path: Path, purpose: Purpose | None
) -> None:
    """Whether the court has a yardstick, only practice, or no ball of the stroke at all."""
    desk = court(tmp_path, purpose)
    at_home(desk, JUNE_7, LOW, "Jorun")
    at_home(desk, date(2026, 6, 14), "222 " * 20, "Ada")
    at_home(desk, JUNE_21, HIGH, "jorun")
    words = flat(page(desk))
    assert "At home on 21 Jun, watched by jorun: another eye than the coach's." in words
    assert "At home on 7 Jun and on 21 Jun, seen by jorun both times." in words
    if purpose is Purpose.YARDSTICK:
        assert "turn 4 of 20 on 7 Jun, 17 of 20 on 21 Jun: may be a gain" in words
    else:
        assert words.count("at home: 4 of 20 balls on 7 Jun, 17 of 20 on 21 Jun") == 3
    assert "That may be a gain: keep watching." in words
    assert "real" not in words  # never more than a look
    assert ("on Tuesday, 17 of 20 on 21 Jun" in words) is (purpose is Purpose.YARDSTICK)
    assert "cannot be held against the court" not in words
    assert len(page(desk).splitlines()) <= 23
    assert ("No balls at the court yet." in words) is (purpose is None)


def test_two_watchers_or_two_drills_are_not_compared(tmp_path: Path) -> None:
    for other in ({"watcher": "Ada"}, {"drill": "forehand/hand-feed"}):
        desk = court(tmp_path / str(other), None)
        at_home(desk, JUNE_7, LOW, **other)
        at_home(desk, JUNE_21, HIGH)
        facts = day_facts.player_facts(desk.book, desk.view.clinic, "Maren")
        assert "7 Jun" not in player_page(facts)
        every = flat(player_page(facts, EVERYTHING))
        assert "No earlier sheet from home fits the one on 21 Jun." in every
        assert "17 of 20 balls. It cannot be held against the court." in flat(page(desk))


def test_every_sentence_can_be_read_by_a_parent(tmp_path: Path) -> None:
    desk = court(tmp_path, Purpose.YARDSTICK)
    for on, balls, watcher in (
        (JUNE_7, LOW, "Jorun"),
        (JUNE_21, HIGH, "Jorun"),
        (JUNE_21, LOW, ""),
    ):
        at_home(desk, on, balls, watcher)
    at_home(desk, JUNE_21, "--- --2", "Jorun", "slice/hand-feed")
    facts = day_facts.player_facts(desk.book, desk.view.clinic, "Maren")
    said = [statement for change in facts.changes for _, statement in statements(change.home)]
    assert len(said) > 20
    wrong = {
        sentence: faults(sentence)
        for statement in said
        for sentence in sentences_of(statement.sentence)
        if faults(sentence)
    }
    assert wrong == {}


def test_too_few_balls_bear_nothing_at_home_too(tmp_path: Path) -> None:
    desk = court(tmp_path, None)
    at_home(desk, JUNE_7, "000 " * 6)
    at_home(desk, JUNE_21, "222 " * 6)
    assert "Up, down or the same: these balls cannot tell." in flat(page(desk))


def test_the_full_page_names_each_in_a_line(tmp_path: Path) -> None:
    desk = court(tmp_path, Purpose.YARDSTICK)
    assert "at home" not in player_text(
        day_facts.player_facts(desk.book, desk.view.clinic, "Maren")
    )
    at_home(desk, JUNE_7, LOW)
    at_home(desk, JUNE_21, HIGH)
    words = flat(player_text(day_facts.player_facts(desk.book, desk.view.clinic, "Maren")))
    eye = "seen by Jorun, another eye than the coach's"
    assert f"7 Jun, {eye}: turn 4 of 20, spacing 4 of 20, finish 4 of 20." in words
    assert f"21 Jun, {eye}: turn 17 of 20" in words
    assert "17 of 20 at home, 6 of 20 on day 1: may be a gain" in words
    assert "17 of 20 at home, 4 of 20 at home on 2026-06-07: may be a gain" in words


def test_a_day_has_only_what_was_watched_on_its_date(tmp_path: Path) -> None:
    desk = court(tmp_path, Purpose.YARDSTICK)
    at_home(desk, JUNE_21, HIGH)
    clinic = desk.view.clinic
    facts = day_facts.day_facts(desk.book, clinic, DAY, "Maren")
    for text in (player_day_page(facts), day_text(facts)):
        assert "Jorun" not in text
    at_home(desk, DAY, LOW)
    facts = day_facts.day_facts(desk.book, clinic, DAY, "Maren")
    assert "At home on 12 May, watched by Jorun" in flat(player_day_page(facts))
    assert "12 May, seen by Jorun, another eye" in flat(day_text(facts))
    assert len(player_day_page(facts).splitlines()) <= 23
