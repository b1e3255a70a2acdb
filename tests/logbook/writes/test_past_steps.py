"""The history: every step with a number, and the taking back of whichever still can be."""

from __future__ import annotations

from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.courtside.desk.desk import Desk
from courtlog.errors import BookError
from courtlog.logbook.rows import tallies
from courtlog.logbook.writes import ball_repairs, past_steps, round_repairs
from courtlog.reports.pages.past_steps_text import step_line, step_words
from tests.court import again, desk_in, feed, player, used, written


def lines(desk: Desk, amendments_only: bool = False) -> list[str]:
    """The clinic's steps in words, each with its number."""
    found = past_steps.past_steps(desk.book, desk.view.clinic, amendments_only=amendments_only)
    return [f"{step.number} {step_words(step)}" for step in found]


def back(desk: Desk, number: int) -> str:
    """The round on court after that step was taken back."""
    past_steps.take_back_step(desk.book, number, "Ines", desk.clock())
    desk.state.resume()
    assert tallies.proof(desk.book.db) == []
    assert again(desk).view.live == desk.view.live
    assert desk.view.live is not None
    return written(desk.view.live.feeding)


def test_every_key_and_every_deed_is_a_line(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "2<_ 0-/")
    assert desk.view.live is not None
    row = desk.view.live.id
    ball_repairs.amend_ball(desk.book, row, 2, Ball.from_token("21-!", 3), "Ines", 5)
    ball_repairs.strike_ball(desk.book, row, 1, "Ines", 6)
    assert back(desk, 7) == "222 21-!"
    assert lines(desk) == [
        "1 ball 1: (2--), was (---)  [taken back]",
        "2 took back 1: ball 1: (---), was (2--)",
        "3 ball 1: 222, was (---)",
        "4 ball 2: (0--), was (---)",
        "5 ball 2: 0--, was (0--)",
        "6 ball 2: 21-!, was 0--  (Ines)",
        "7 ball 1 struck out  (Ines)  [taken back]",
        "8 took back 7: ball 1 put back  (Ines)",
    ]


def test_deeds_on_rounds_in_words(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "____")
    assert desk.view.live is not None
    row = desk.view.live.id
    twin = round_repairs.split_round(desk.book, row, 3, "Ines", 5)
    round_repairs.join_rounds(desk.book, row, twin, "Ines", 6)
    round_repairs.move_balls(desk.book, row, [2], player(desk, "Tove").id, "Ines", 7)
    round_repairs.change_purpose(desk.book, row, Purpose.HOLD, "Ines", 8)
    round_repairs.change_drill(desk.book, row, used("forehand/hand-feed"), "Ines", 9)
    assert [line.partition(" ")[2] for line in lines(desk, amendments_only=True)] == [
        "round of Hand feed from 3 m split, 2 balls apart  (Ines)",
        "two rounds of Hand feed from 3 m joined, 2 balls  (Ines)",
        "1 ball moved, Maren and Tove  (Ines)",
        "purpose hold, was practice  (Ines)",
        "drill Hand feed from 3 m, was Racquet feed, two spots  (Ines)",
    ]


def test_keys_that_can_still_be_taken_back_are(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_ _ T 0")
    with pytest.raises(BookError, match="taken with this key"):
        back(desk, 1)
    assert back(desk, 3) == "222 222|0--"
    assert back(desk, 4) == "222 222"
    with pytest.raises(BookError, match="taken back already"):
        back(desk, 4)
    with pytest.raises(BookError, match="no such step"):
        back(desk, 99)
    feed(desk, "<")
    assert desk.view.live is not None
    assert written(desk.view.live.feeding) == "222"


def test_what_backspace_took_back_is_marked_so(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    assert desk.view.live is not None
    ball_repairs.amend_ball(desk.book, desk.view.live.id, 1, Ball.from_token("000", 3), "Ines", 5)
    desk.state.resume()
    feed(desk, "<")
    assert lines(desk, amendments_only=True) == ["2 ball 1: 000, was 222  (Ines)  [taken back]"]
    with pytest.raises(BookError, match="changed again"):
        back(desk, 2)


def test_one_player_and_one_date(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    desk.rounds.start(player(desk, "Tove"))
    feed(desk, "0")
    clinic, tove = desk.view.clinic, player(desk, "Tove").id
    (step,) = past_steps.past_steps(desk.book, clinic, desk.view.day.date, tove)
    assert step_line(step, ZoneInfo("Europe/Lisbon")) == (
        "     2  Tue 12 May 08:30:00  Tove       ball 1: (0--), was (---)"
    )
