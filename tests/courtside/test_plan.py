"""The plan of the day at the court: it gives drill, purpose and balls, and is changed by keys."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from courtlog.coaching.planned import PlannedRound
from courtlog.coaching.rounds import Purpose
from courtlog.courtside.desk import Desk
from courtlog.logbook.plan_door import keep
from tests.court import DAY, START, again, desk_in, feed, player
from tests.courtside.screen import on_court

HAND, LIVE, FIXED = "forehand/hand-feed", "forehand/live", "forehand/day-one-feed"


def keep_plan(desk: Desk, *rounds: tuple[str, str, Purpose, int]) -> None:
    """Rounds as (player, drill, purpose, balls), kept for the day on court."""
    plan = tuple(
        PlannedRound(player(desk, who), drill, purpose, balls)
        for who, drill, purpose, balls in rounds
    )
    keep(desk.book, desk.view.clinic.id, desk.view.day.date, (), plan, START)


def on(desk: Desk) -> tuple[str, str, Purpose, int]:
    """Who is on court, on which drill, why, for how many balls."""
    live = desk.view.live
    assert live is not None
    return live.player.name, live.drill.name, live.purpose, live.planned


def test_the_kept_plan_puts_each_player_on_by_keys_and_survives_a_restart(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    keep_plan(
        desk,
        ("Maren", FIXED, Purpose.HOLD, 3),
        ("Tove", HAND, Purpose.TRANSFER, 12),
        ("Maren", LIVE, Purpose.PRACTICE, 5),
    )
    words = on_court(desk, ["enter"])
    assert on(desk) == ("Maren", FIXED, Purpose.HOLD, 3)
    assert "as planned" in words
    on_court(desk, ["space", "space"])
    back = again(desk)
    assert on(back) == ("Maren", FIXED, Purpose.HOLD, 3)
    assert "3 balls: the round is full" in on_court(back, ["space"])
    on_court(back, ["tab"])
    assert on(back) == ("Tove", HAND, Purpose.TRANSFER, 12)
    on_court(back, ["space", "shift+tab"])
    assert on(again(back)) == ("Maren", LIVE, Purpose.PRACTICE, 5)
    feed(back, "_")
    back.start()
    assert on(back) == ("Maren", LIVE, Purpose.PRACTICE, 10)


def test_what_the_coach_says_goes_before_the_plan(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    keep_plan(desk, ("Maren", FIXED, Purpose.HOLD, 20), ("Maren", HAND, Purpose.PRACTICE, 7))
    on_court(desk, ["enter"])
    on_court(desk, ["f2", *"transfer", "enter"])
    assert on(desk)[2] is Purpose.TRANSFER
    on_court(desk, ["up"])
    assert on(desk)[1] == LIVE
    on_court(desk, ["f3", "down", "space", "enter"])
    assert on(desk)[1] == LIVE
    feed(desk, "22/")
    desk.take_the_call()
    desk.start(player=player(desk, "Maren"))
    assert on(desk) == ("Maren", HAND, Purpose.PRACTICE, 7)


def test_a_rung_call_taken_today_goes_before_a_planned_practice_drill(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    keep_plan(desk, ("Maren", FIXED, Purpose.HOLD, 20), ("Maren", HAND, Purpose.PRACTICE, 7))
    desk.start(player=player(desk, "Maren"))
    feed(desk, "_")
    desk.take_the_call()
    desk.start(player=player(desk, "Maren"))
    assert on(desk) == ("Maren", LIVE, Purpose.PRACTICE, 7)


def test_a_drill_put_down_waits_while_the_morning_is_held(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=HAND)
    feed(desk, "_ _ _")
    desk.take_the_call()
    desk.begin_day(DAY + timedelta(days=1))
    desk.start(player=player(desk, "Maren"))
    assert on(desk)[1:3] == (HAND, Purpose.HOLD)
    feed(desk, "_")
    desk.start(player=player(desk, "Maren"))
    assert on(desk)[1:3] == ("forehand/racquet-feed", Purpose.PRACTICE)
