"""Backspace right after something was chosen for a round undoes the choice."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.desk.desk import Desk
from tests.court import LIBRARY, desk_in, feed, player

CHOICES: dict[str, Callable[[Desk], None]] = {
    "drill": lambda desk: desk.rounds.start(drill=LIBRARY.drill("forehand/live")),
    "rung up": lambda desk: desk.rounds.change_rung(1),
    "rung down": lambda desk: desk.rounds.change_rung(-1),
    "purpose": lambda desk: desk.rounds.start(purpose=Purpose.TRANSFER),
}


def shown(desk: Desk) -> tuple[str, str, Purpose, tuple[str, ...], int]:
    """Who is on court, on which drill, why, with which cues, for how many balls."""
    live = desk.view.live
    assert live is not None
    return live.player.name, live.drill.name, live.purpose, live.cue_keys, live.planned


def second_player(folder: Path) -> Desk:
    """Maren has hit; Tove is on court and has not."""
    desk = desk_in(folder)
    feed(desk, "222 000")
    desk.rounds.start(player(desk, "Tove"))
    return desk


@pytest.mark.parametrize("choice", CHOICES)
def test_a_choice_is_undone_and_not_the_round_before_it(tmp_path: Path, choice: str) -> None:
    desk = second_player(tmp_path)
    before = shown(desk)
    CHOICES[choice](desk)
    assert shown(desk) != before
    desk.balls.take_back()
    assert shown(desk) == before
    desk.balls.take_back()
    assert shown(desk)[0] == "Maren", "then the key that put Tove on court"


def test_choices_are_undone_one_by_one(tmp_path: Path) -> None:
    desk = second_player(tmp_path)
    seen = [shown(desk)]
    for choice in ("purpose", "drill", "rung down"):
        CHOICES[choice](desk)
        seen.append(shown(desk))
    for before in reversed(seen[:-1]):
        desk.balls.take_back()
        assert shown(desk) == before


def test_after_a_ball_on_it_the_choice_is_still_undone_last(tmp_path: Path) -> None:
    desk = second_player(tmp_path)
    before = shown(desk)
    CHOICES["drill"](desk)
    feed(desk, "2<")
    desk.balls.take_back()
    assert shown(desk) == before


def test_cues_are_picked_again_and_nobody_elses_round_comes_back(tmp_path: Path) -> None:
    desk = second_player(tmp_path)
    desk.people.keep_cues(player(desk, "Tove"), "forehand", ("turn", "finish"), "turn")
    desk.rounds.start(cues=("turn", "finish"))
    before = shown(desk)
    for _ in range(2):
        desk.balls.take_back()
        assert shown(desk) == before
    assert "Esc c picks" in desk.view.message


def test_after_balls_a_choice_is_undone_into_the_players_own_round(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000")
    before = shown(desk)
    CHOICES["drill"](desk)
    desk.balls.take_back()
    assert shown(desk) == before
