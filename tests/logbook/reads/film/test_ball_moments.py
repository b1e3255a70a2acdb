"""Which balls lie in a stretch of time: by the first key that speaks of the hit."""

from __future__ import annotations

from datetime import date, time
from pathlib import Path

import pytest

from courtlog import times
from courtlog.coaching.game.drills import Order
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.on_court.feed_order import FeedChoice
from courtlog.courtside.desk.desk import Desk
from courtlog.library.sheet_in import read_sheet
from courtlog.logbook.reads.film.ball_moments import (
    ALL_BALLS,
    BallFilter,
    BallsInTime,
    balls_in_time,
)
from courtlog.logbook.writes.ball_repairs import amend_ball, strike_ball
from courtlog.logbook.writes.sheets.take_in import take_in
from tests.court import LIBRARY, START, Clock, desk_in, feed, used

HOUR = 3_600_000


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return desk_in(tmp_path)


def at_seconds(desk: Desk, played: str) -> None:
    """`5:222 12:0-1/`: at these seconds these keys, all of a group at once."""
    clock = desk.clock
    assert isinstance(clock, Clock)
    for group in played.split():
        seconds, keys = group.split(":")
        clock.at = START + round(1000 * float(seconds))
        feed(desk, keys)


def seen(
    desk: Desk, wanted: BallFilter = ALL_BALLS, begin: int = 0, end: int = HOUR
) -> BallsInTime:
    return balls_in_time(desk.book, desk.view.clinic, START + begin, START + end, wanted)


def moments(desk: Desk, begin: int = 0, end: int = HOUR) -> list[float]:
    """Seconds of each ball's first key."""
    balls = seen(desk, begin=begin, end=end).balls
    return [(ball.first_key_at - START) / 1000 for ball in balls]


def test_a_ball_has_the_moment_of_its_first_key(desk: Desk) -> None:
    at_seconds(desk, "5:2 6:-2 7:--2 12:0 13:-1/ 20:_")
    assert moments(desk) == [5, 12, 20]


def test_what_is_said_of_a_ball(desk: Desk) -> None:
    at_seconds(desk, "5:2-0!/ 6:@")
    (ball,) = seen(desk).balls
    assert (ball.player, ball.number, ball.tough, ball.marked) == ("Maren", 1, True, True)
    assert ball.drill == used("forehand/racquet-feed").drill.name
    assert [(cue.key, cue.name, cue.grade) for cue in ball.cues] == [
        ("turn", "turn", Grade.MADE),
        ("spacing", "spacing", None),
        ("finish", "finish", Grade.MISSED),
    ]


@pytest.mark.parametrize(
    ("played", "first"),
    [
        ("1:! 5:222", 5),
        ("1:222 4:T 9:222", 1),
        ("1:0 2:< 3:222", 1),
        ("1:0 2:< 5.1:222", 5.1),
        ("1:0 3:< 4:0 5:< 7:222", 1),
        ("1:222 2:< 30:--2", 1),
        ("5:/", 5),
    ],
)
def test_marks_and_corrections(desk: Desk, played: str, first: float) -> None:
    """A mark may come before the feed; a key pressed again soon is of the same hit."""
    at_seconds(desk, played)
    assert moments(desk)[0] == first


def test_an_open_ball_is_no_ball_yet(desk: Desk) -> None:
    at_seconds(desk, "5:22")
    assert seen(desk) == BallsInTime((), 0)


def test_both_ends_of_the_time_count(desk: Desk) -> None:
    at_seconds(desk, "5:222 10:222 15:222")
    assert moments(desk, 5_000, 15_000) == [5, 10, 15]
    assert moments(desk, 5_001, 14_999) == [10]


def test_a_ball_that_was_taken_later_begins_with_its_first_key(desk: Desk) -> None:
    at_seconds(desk, "5:2 90:-22")
    assert moments(desk, 0, 10_000) == [5]
    assert moments(desk, 80_000, 100_000) == []


def test_what_was_put_right_later_moves_no_ball(desk: Desk) -> None:
    at_seconds(desk, "5:222 10:222 15:222")
    (round_id,) = desk.book.db.execute("SELECT id FROM round").fetchone()
    amend_ball(desk.book, round_id, 1, Ball.from_token("000", 3), "Ines", START + HOUR // 2)
    strike_ball(desk.book, round_id, 2, "Ines", START + HOUR // 2)
    assert moments(desk) == [5, 15]
    assert seen(desk).balls[0].cues[0].grade is Grade.MISSED


def test_a_ball_fed_between_two_rated_ones_has_no_key(desk: Desk) -> None:
    choice = FeedChoice(Order.SERIAL, 0, 10, every=2)
    desk.rounds.start(drill=LIBRARY.drill("forehand/live"), purpose=Purpose.PRACTICE, feeds=choice)
    at_seconds(desk, "5:222 15:222")
    assert desk.book.db.execute("SELECT count(*) FROM ball WHERE taken").fetchone() == (4,)
    assert [ball.number for ball in seen(desk).balls] == [1, 3]
    assert seen(desk).without_moment == 0


SHEET = """clinic Harbour  zone Europe/Lisbon
roster Maren
day 2026-05-12  court 2  coach Ines
player Maren  drill forehand/live  cues turn spacing finish
222 212@08:31:00 022 .
day 2026-05-13  court 2  coach Ines
player Maren  drill forehand/live  cues turn spacing finish
222 212
"""


def test_a_ball_from_a_sheet_is_counted_and_never_guessed(desk: Desk) -> None:
    at_seconds(desk, "5:222")
    text = SHEET.replace("clinic Harbour ", f'clinic "{desk.view.clinic.name}" ').replace(
        "court 2", "court 3"
    )
    record = read_sheet(text, "sheet.txt", LIBRARY, "UTC")
    take_in(desk.book, record, {"forehand/live": used("forehand/live")}, START + HOUR)
    balls = seen(desk)
    assert (len(balls.balls), balls.without_moment) == (1, 4)
    (ball_id,) = desk.book.db.execute(
        "SELECT ball.id FROM ball JOIN round ON round_id = round.id WHERE taken_at IS NULL LIMIT 1"
    ).fetchone()
    (round_id,) = desk.book.db.execute(
        "SELECT round_id FROM ball WHERE id = ?", [ball_id]
    ).fetchone()
    amend_ball(desk.book, round_id, 1, Ball.from_token("000", 3), "Ines", START + 60_000)
    assert (len(seen(desk).balls), seen(desk).without_moment) == (1, 4)


def test_filters(desk: Desk) -> None:
    at_seconds(desk, "5:202 10:222 15:2-1/ 16:@ 20:120")
    maren, tove = desk.book.db.execute(
        "SELECT player.id FROM player JOIN roster ON player_id = player.id ORDER BY place LIMIT 2"
    ).fetchall()

    def numbers(**wanted: object) -> list[int]:
        return [ball.number for ball in seen(desk, BallFilter(**wanted)).balls]  # type: ignore[arg-type]

    assert numbers() == [1, 2, 3, 4]
    assert numbers(player_id=maren[0]) == [1, 2, 3, 4]
    assert numbers(player_id=tove[0]) == []
    assert numbers(drill="forehand/racquet-feed") == [1, 2, 3, 4]
    assert numbers(drill="forehand/live") == []
    assert numbers(cue="spacing") == [1, 2, 3, 4]
    assert numbers(cue="balance") == []
    assert numbers(cue="spacing", grades=(Grade.MISSED,)) == [1]
    assert numbers(cue="spacing", grades=(Grade.MISSED, None)) == [1, 3]
    assert numbers(grades=(Grade.NEAR,)) == [3, 4]
    assert numbers(marked=True) == [3]


def test_a_day_goes_on_after_midnight(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    midnight = times.moment(date(2026, 5, 13), time(0), desk.view.clinic.place)
    seconds = (midnight - START) // 1000
    at_seconds(desk, f"{seconds - 5}:222 {seconds + 5}:222")
    begin = 1000 * (seconds - 60)
    assert moments(desk, begin, begin + 120_000) == [seconds - 5, seconds + 5]
    assert moments(desk, 1000 * seconds, 1000 * seconds + 120_000) == [seconds + 5]


def test_another_clinic_is_left_out(desk: Desk) -> None:
    at_seconds(desk, "5:222")
    record = read_sheet(SHEET, "sheet.txt", LIBRARY, "UTC")
    take_in(desk.book, record, {"forehand/live": used("forehand/live")}, START)
    assert seen(desk).without_moment == 0
