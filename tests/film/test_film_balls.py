"""Where a ball lies on a film, and how windows that overlap are cut."""

from __future__ import annotations

from datetime import date, time
from itertools import pairwise

import pytest
from hypothesis import given

from courtlog import times
from courtlog.film.film_balls import FilmBall, film_parts, window
from tests.film.balls import TITLE, ball, film_balls

MINUTE = 60_000


@pytest.mark.parametrize(
    ("key", "seen"),
    [
        (10_000, (6_000, 11_000)),
        (2_500, (0, 3_500)),
        (0, (0, 1_000)),
        (59_500, (55_500, MINUTE)),
        (MINUTE, (56_000, MINUTE)),
        (-1, None),
        (MINUTE + 1, None),
    ],
)
def test_a_window_begins_four_seconds_before_the_key_and_stays_on_the_film(
    key: int, seen: tuple[int, int] | None
) -> None:
    start = 1_778_571_000_000
    assert window(start + key, start, MINUTE) == seen


def test_a_film_without_length_shows_nothing() -> None:
    assert window(0, 0, 0) is None


def test_midnight_is_no_matter() -> None:
    place = times.zone("Europe/Lisbon")
    start = times.moment(date(2026, 5, 12), time(23, 59, 50), place)
    key = times.moment(date(2026, 5, 13), time(0, 0, 10), place)
    assert window(key, start, MINUTE) == (16_000, 21_000)


def test_a_ball_in_words() -> None:
    assert ball(0, 5).title == TITLE
    assert ball(0, 5, tough=True, marked=True).lines == (
        "Maren · Racquet feed · ball 7",
        "turn made · spacing missed · tough ball · marked",
    )
    assert ball(0, 5, cues=()).title == "Maren · Racquet feed · ball 7"


def test_a_hidden_character_is_written_as_a_visible_one() -> None:
    assert ball(0, 5, player="a\nb\u202ec").lines[0] == "a␊b‹202E›c · Racquet feed · ball 7"


def test_a_ball_is_cut_where_the_next_one_begins() -> None:
    parts = film_parts([ball(8, 13), ball(0, 5), ball(3, 8)])
    assert [(p.start_ms, p.end_ms) for p in parts] == [(0, 3000), (3000, 8000), (8000, 13000)]


def test_balls_that_begin_together_share_a_part() -> None:
    (part,) = film_parts([ball(1, 6), ball(1, 5, player="Tove")])
    assert (part.start_ms, part.end_ms) == (1000, 6000)
    assert part.title == f"{TITLE} / {TITLE.replace('Maren', 'Tove')}"


def test_keys_three_seconds_apart_leave_every_hit_in_its_own_part() -> None:
    """A key comes one to three seconds after the hit: common practice, no source."""
    keys = [10_000 + 3_000 * n for n in range(5)]
    windows = [window(key, 0, MINUTE) or (0, 0) for key in keys]
    parts = film_parts([ball(start / 1000, end / 1000) for start, end in windows])
    for key, part in zip(keys, parts, strict=True):
        assert part.start_ms <= key - 3000
        assert key - 1000 <= part.end_ms


@given(film_balls())
def test_no_part_overlaps_another_and_no_ball_is_lost(balls: list[FilmBall]) -> None:
    parts = film_parts(balls)
    assert all(part.start_ms < part.end_ms for part in parts)
    assert all(one.end_ms <= two.start_ms for one, two in pairwise(parts))
    told = [(part.start_ms, id(ball)) for part in parts for ball in part.balls]
    assert sorted(told) == sorted((ball.start_ms, id(ball)) for ball in balls)
