"""The plan of the day at the court: it gives drill, purpose and balls, and is changed by keys."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pytest
from textual.pilot import Pilot

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.reads.clinic_lookups import planned
from courtlog.logbook.writes.clinic_writer import keep_plan
from tests.court import DAY, START, again, desk_in, feed, player
from tests.courtside.screen import on_court

HAND, LIVE, FIXED = "forehand/hand-feed", "forehand/live", "forehand/day-one-feed"


def store_plan(desk: Desk, *rounds: tuple[str, str, Purpose, int]) -> None:
    """Rounds as (player, drill, purpose, balls), kept for the day on court."""
    plan = tuple(
        PlannedRound(player(desk, who), drill, purpose, balls)
        for who, drill, purpose, balls in rounds
    )
    keep_plan(desk.book, desk.view.clinic.id, desk.view.day.date, (), plan, START)


def on(desk: Desk) -> tuple[str, str, Purpose, int]:
    """Who is on court, on which drill, why, for how many balls."""
    live = desk.view.live
    assert live is not None
    return live.player.name, live.drill.name, live.purpose, live.planned


def test_the_kept_plan_puts_each_player_on_by_keys_and_survives_a_restart(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    store_plan(
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
    back.rounds.start()
    assert on(back) == ("Maren", LIVE, Purpose.PRACTICE, 10)


def test_what_the_coach_says_goes_before_the_plan(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    store_plan(desk, ("Maren", FIXED, Purpose.HOLD, 20), ("Maren", HAND, Purpose.PRACTICE, 7))
    on_court(desk, ["enter"])
    on_court(desk, ["f2", *"transfer", "enter"])
    assert on(desk)[2] is Purpose.TRANSFER
    on_court(desk, ["up"])
    assert on(desk)[1] == LIVE
    on_court(desk, ["f3", "down", "space", "enter"])
    assert on(desk)[1] == LIVE
    feed(desk, "22/")
    desk.rounds.take_rung_call()
    desk.rounds.start(player=player(desk, "Maren"))
    assert on(desk) == ("Maren", HAND, Purpose.PRACTICE, 7)


def test_a_rung_call_taken_today_goes_before_a_planned_practice_drill(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    store_plan(desk, ("Maren", FIXED, Purpose.HOLD, 20), ("Maren", HAND, Purpose.PRACTICE, 7))
    desk.rounds.start(player=player(desk, "Maren"))
    feed(desk, "_")
    desk.rounds.take_rung_call()
    desk.rounds.start(player=player(desk, "Maren"))
    assert on(desk) == ("Maren", LIVE, Purpose.PRACTICE, 7)


def test_a_drill_put_down_waits_while_the_morning_is_held(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=HAND)
    feed(desk, "_ _ _")
    desk.rounds.take_rung_call()
    desk.clinic.begin_day(DAY + timedelta(days=1))
    desk.rounds.start(player=player(desk, "Maren"))
    assert on(desk)[1:3] == (HAND, Purpose.HOLD)
    feed(desk, "_")
    desk.rounds.start(player=player(desk, "Maren"))
    assert on(desk)[1:3] == ("forehand/racquet-feed", Purpose.PRACTICE)


def second_day(folder: Path, rung_call: bool = False) -> Desk:
    """Maren's second morning, after a yardstick and practice on another drill."""
    desk = desk_in(folder, ("Maren",), FIXED)
    desk.rounds.start(purpose=Purpose.YARDSTICK)
    feed(desk, "_ _")
    desk.rounds.start(drill=desk.state.library.drill(HAND))
    feed(desk, "222 000")
    if rung_call:
        desk.rounds.take_rung_call()
    desk.clinic.begin_day(DAY + timedelta(days=1))
    return desk


def test_the_evenings_hold_is_planned_on_the_yardsticks_drill_and_is_uncoached(
    tmp_path: Path,
) -> None:
    desk = second_day(tmp_path)
    on_court(desk, ["ctrl+p", "k"])
    assert kept(desk) == [
        "Maren hold day-one-feed 20",
        "Maren practice hand-feed 10",
        "Maren practice hand-feed 10",
        "Maren hold day-one-feed 10",
    ]
    words = ""
    for drill, purpose, balls in (
        (FIXED, Purpose.HOLD, 20),
        (HAND, Purpose.PRACTICE, 10),
        (HAND, Purpose.PRACTICE, 10),
        (FIXED, Purpose.HOLD, 10),
    ):
        desk.rounds.start(player=player(desk, "Maren"))
        assert on(desk) == ("Maren", drill, purpose, balls)
        words = on_court(desk, ["space"])
    assert "WITHOUT HELP" in words
    assert "of 10" in words
    desk.rounds.start(player=player(desk, "Maren"))
    assert on(desk) == ("Maren", HAND, Purpose.PRACTICE, 10), "practice goes on where it was left"


def test_without_a_kept_plan_the_court_asks_for_no_round_in_the_evening(tmp_path: Path) -> None:
    desk = second_day(tmp_path)
    rounds = []
    for _ in range(4):
        desk.rounds.start(player=player(desk, "Maren"))
        rounds.append(on(desk)[1:3])
        feed(desk, "_")
    assert rounds == [(FIXED, Purpose.HOLD), *[(HAND, Purpose.PRACTICE)] * 3]


def test_the_rung_call_taken_in_the_morning_goes_before_the_drill_practice_was_left_on(
    tmp_path: Path,
) -> None:
    desk = second_day(tmp_path, rung_call=True)
    desk.rounds.start(player=player(desk, "Maren"))
    feed(desk, "_")
    desk.rounds.start(player=player(desk, "Maren"))
    assert on(desk)[1:3] == ("forehand/racquet-feed", Purpose.PRACTICE)


def test_a_drill_chosen_by_the_coach_goes_before_the_drill_practice_was_left_on(
    tmp_path: Path,
) -> None:
    desk = second_day(tmp_path)
    desk.rounds.start(player=player(desk, "Maren"))
    feed(desk, "_")
    desk.rounds.start(drill=desk.state.library.drill(LIVE))
    assert on(desk)[1:3] == (LIVE, Purpose.PRACTICE)


def test_a_chosen_yardstick_says_what_its_balls_can_tell(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=HAND)
    assert "is found:" not in on_court(desk, ["ctrl+p"])
    words = on_court(desk, ["ctrl+p", "down", "down", "down"])
    assert "A rise of the main cue, in 20, is found:" in words
    assert "plan 40: 40 now, 60 then with the hold" in words
    assert "40 find half of the smaller too." in words
    on_court(desk, ["ctrl+p", "down", "down", "down", "b", *"40", "enter", "enter"])
    words = on_court(desk, ["ctrl+p", "down", "down", "down"])
    assert "20 now, 20 on the last day" in words, "as most of them are"


def kept(desk: Desk, days: int = 0) -> list[str]:
    """What the book keeps for the day on court, or so many days later: `Maren hold live 20`."""
    rounds = planned(desk.book, desk.view.clinic.id, desk.view.day.date + timedelta(days=days))
    return [f"{r.player.name} {r.purpose} {r.drill.partition('/')[2]} {r.balls}" for r in rounds]


def test_the_plan_is_changed_by_keys_and_is_in_the_book_at_once(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, ("Maren", "Tove"), HAND)
    feed(desk, "_ _ _")
    words = on_court(desk, ["ctrl+p"])
    assert "plan of day 2 · Wed 13 May 2026 · a proposal" in words
    assert kept(desk, 1) == []
    words = on_court(desk, ["ctrl+p", "k"])
    assert "the plan you kept" in words
    before = kept(desk, 1)
    assert before[:2] == ["Tove choosing hand-feed 10", "Maren hold hand-feed 20"]
    words = on_court(desk, ["ctrl+p", "l", "b", *"15", "enter", "w", *"transfer", "enter"])
    assert kept(desk, 1)[:2] == ["Maren hold hand-feed 20", "Tove transfer hand-feed 15"]
    assert "►  2 Tove" in words
    on_court(desk, ["ctrl+p", "down", "g", *"forehand live", "enter", "e", "down", "x"])
    assert kept(desk, 1)[0] == "Tove transfer live 15"
    assert "Maren hold hand-feed 20" not in kept(desk, 1)
    on_court(desk, ["ctrl+p", "a", *"mar", "enter", *"volley live", "enter"])
    assert kept(desk, 1)[-1] == "Maren practice live 8"
    assert "The plan is kept: the court goes by it." in on_court(desk, ["ctrl+p", "k"])
    assert kept(desk, 1)[-1] == "Maren practice live 8"
    assert "the plan you kept" in on_court(desk, ["ctrl+p", "f", "escape"])
    assert "a proposal" in on_court(desk, ["ctrl+p", "f", "enter"])
    assert kept(desk, 1) == []


def test_todays_plan_is_shown_until_a_ball_is_played_and_a_key_shows_the_other(
    tmp_path: Path,
) -> None:
    desk = desk_in(tmp_path, drill=HAND)
    assert "day 1 · Tue 12 May" in on_court(desk, ["ctrl+p"])
    assert "Wed 13 May" in on_court(desk, ["ctrl+p", "o"])
    feed(desk, "_")
    assert "Wed 13 May" in on_court(desk, ["ctrl+p"])
    assert "Tue 12 May" in on_court(desk, ["ctrl+p", "o"])


def test_a_plan_longer_than_the_screen_says_how_many_rounds_are_out_of_sight(
    tmp_path: Path,
) -> None:
    """The rows shown and those counted as more are all 20 rounds, wherever the cursor is."""
    desk = desk_in(tmp_path, drill=None)
    store_plan(desk, *[(name, HAND, Purpose.PRACTICE, 5) for name in ("Maren", "Tove")] * 10)
    for keys, arrows in (([], "↓"), (["down"] * 10, "↑↓"), (["end"], "↑")):
        text = on_court(again(desk), ["ctrl+p", *keys])
        more = re.findall(r"([↑↓]) (\d+) more", text)
        rows = re.findall(r"^ (?:►| ) *\d+ (?:Maren|Tove) ", text, flags=re.MULTILINE)
        assert "".join(arrow for arrow, _ in more) == arrows
        assert len(rows) + sum(int(count) for _, count in more) == 20
        assert any("►" in row for row in rows)


def test_nonsense_on_the_plan_is_refused_in_words(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    words = on_court(desk, ["ctrl+p"])
    assert "No round is planned" in words
    assert "No drill is known yet for Maren, Tove, Ruben" in words
    assert "no round to keep" in on_court(desk, ["ctrl+p", "k"])
    words = on_court(desk, ["ctrl+p", "s", *"forehand", "enter"])
    assert "choosing" in words
    words = on_court(desk, ["ctrl+p", "s", *"forehand", "enter", "b", *"x", "enter"])
    assert "Write a number from 1 to 200" in words
    words = on_court(desk, ["ctrl+p", "s", *"forehand", "enter", "b", *"999", "enter"])
    assert "999 balls are no round" in words
    assert kept(desk) == []


def test_a_plan_that_another_window_changed_is_not_written_over(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=HAND)

    async def meanwhile(pilot: Pilot[None], app: CourtlogApp) -> None:
        store_plan(desk, ("Tove", LIVE, Purpose.PRACTICE, 5))
        await pilot.press("x", "enter")

    words = on_court(desk, ["ctrl+p"], then=meanwhile)
    assert "Another window has changed this plan" in words
    assert kept(desk) == ["Tove practice live 5"]


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (60, 12)])
def test_the_chosen_round_and_the_keys_are_on_every_screen(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    desk = desk_in(tmp_path, tuple(f"Player {number}" for number in range(12)), HAND)
    words = on_court(desk, ["ctrl+p", *["pagedown"] * 4], size).splitlines()
    assert any(line.startswith(" ►") and " 33 " in line for line in words)
    assert any("Esc close" in line for line in words)


CHANGES = {
    "later": ["l"],
    "leave out": ["x"],
    "balls": ["b", *["backspace"] * 2, *"15", "enter"],
    "purpose": ["w", *"transfer", "enter"],
    "drill": ["g", *"forehand live", "enter"],
    "add": ["a", *"mar", "enter", *"volley live", "enter"],
}


@pytest.mark.parametrize("change", CHANGES)
def test_no_key_keeps_a_proposal_unasked(tmp_path: Path, change: str) -> None:
    desk = desk_in(tmp_path, ("Maren", "Tove"), HAND)
    before = on_court(desk, ["ctrl+p"])
    words = on_court(desk, ["ctrl+p", *CHANGES[change]])
    assert "Keep this proposal with the change?" in words
    assert kept(desk) == []
    assert on_court(desk, ["ctrl+p", *CHANGES[change], "escape"]) == before
    assert kept(desk) == []
    words = on_court(desk, ["ctrl+p", *CHANGES[change], "enter"])
    assert "the plan you kept" in words
    plan = kept(desk)
    assert plan
    words = on_court(desk, ["ctrl+p", "k"])
    assert "The plan is kept: the court goes by it." in words
    assert kept(desk) == plan
