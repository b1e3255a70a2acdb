"""An assistant's court never leads into what only the head coach's book may do."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.reads.courts.court_groups import court_groups
from tests.court import DAY, feed
from tests.courtside.screen import flat, on_court
from tests.logbook.exchange.courts.court_books import dealt_courts

REFUSED = "This is court 2's book"


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """Court 2: Ruben has hit his choosing round, Aino waits."""
    courts = dealt_courts(tmp_path, c1="Maren Tove", c2="Ruben Aino")
    desk = courts.desks["2"]
    ladder, card = desk.state.library.drill("forehand/racquet-feed")
    drill = (ladder, card)
    desk.rounds.start(player=courts.player("Ruben"), drill=drill, purpose=Purpose.CHOOSING)
    live = desk.view.live
    assert live is not None
    feed(desk, " ".join(["222"] * live.planned))
    return desk


def test_after_the_choosing_balls_the_next_player_comes(desk: Desk) -> None:
    seen = flat(on_court(desk))
    assert "Aino next: Tab" in seen
    assert "Pick the cues" not in seen


def test_the_review_asks_nobody_for_cues(desk: Desk) -> None:
    seen = flat(on_court(desk, ("q",)))
    assert "10 balls seen; the head coach picks the cues. Aino next: Tab." in seen
    assert "Pick the cues" not in seen


@pytest.mark.parametrize("keys", [("escape", "c"), ("escape", "9", "a")])
def test_what_would_be_refused_asks_nothing_first(desk: Desk, keys: tuple[str, ...]) -> None:
    seen = flat(on_court(desk, keys))
    assert REFUSED in seen
    assert "ticks" not in seen
    assert "new player" not in seen


def test_an_arm_is_asked_for_on_this_court_first(desk: Desk) -> None:
    lines = on_court(desk, ("escape", "i")).splitlines()
    asked = [line.split("check-in: ")[1].split(",")[0] for line in lines if "check-in: " in line]
    assert asked == ["Ruben", "Aino", "Maren", "Tove"]


def test_the_plan_shows_this_court_and_says_whole_why_it_stays(desk: Desk) -> None:
    seen = flat(on_court(desk, ("ctrl+p", "k")))
    assert "Court 2 alone, numbered as in the whole plan." in seen
    assert "If away: `courtlog courts --free`." in seen
    assert "Tove" not in seen


def test_a_head_coach_whose_court_has_nobody_is_shown_nobody_elses_players(tmp_path: Path) -> None:
    head = dealt_courts(tmp_path, c1="", c2="Ruben Aino").desks["1"]
    assert head.view.day.court == "1"
    assert head.view.rotation.court.roster == ()
    groups = court_groups(head.book, head.view.clinic.id, DAY)
    assert [(group.court, len(group.players)) for group in groups] == [("1", 0), ("2", 2)]
