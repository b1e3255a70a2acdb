"""What the next round is: where a player without a round of their own begins."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.desk.desk import Desk
from tests.court import LIBRARY, desk_in, feed, player

LADDER = LIBRARY.ladder("forehand")


def on_court(desk: Desk) -> str:
    live = desk.view.live
    assert live is not None
    return f"{live.player.name} {live.drill.drill.key} {live.purpose}"


@pytest.mark.parametrize("rungs", [-1, 1, 2])
def test_a_new_player_does_not_begin_where_another_was_taken_to(tmp_path: Path, rungs: int) -> None:
    desk = desk_in(tmp_path, drill=None)
    desk.rounds.start(player(desk, "Maren"), drill=(LADDER, LADDER.first_fed))
    feed(desk, "___")
    for _ in range(abs(rungs)):
        desk.rounds.change_rung(1 if rungs > 0 else -1)
        feed(desk, "_")
    desk.rounds.start(player(desk, "Tove"))
    assert on_court(desk) == f"Tove {LADDER.first_fed.key} {Purpose.CHOOSING}"


def test_everybody_begins_on_the_drill_the_coach_chose_to_begin_with(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    desk.rounds.start(player(desk, "Maren"), drill=(LADDER, LADDER.first_fed))
    desk.rounds.start(drill=LIBRARY.drill("forehand/racquet-feed"))
    feed(desk, "___")
    desk.rounds.change_rung(1)
    feed(desk, "___")
    desk.rounds.start(player(desk, "Tove"))
    assert on_court(desk) == f"Tove racquet-feed {Purpose.CHOOSING}"
