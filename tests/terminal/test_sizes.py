"""The court on small and large terminals: nothing cut, nothing lost when the window changes."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.commands.table import BEHIND_ESCAPE, FOOT, FOOT_OF_80
from tests.court import written
from tests.terminal import books, sights
from tests.terminal.conftest import Opener
from tests.terminal.mixed import moment, press_and_see

pytestmark = pytest.mark.terminal

SMALL, LARGE = (80, 24), (120, 40)
THREE, FOUR = 3, 4

LONGEST_NAME = ("volley/fence", ("contact", "short-swing", "stop", "split-step"))
LONGEST_FEED = ("serve/half-swing", ("toss", "trophy", "reach", "landing"))
LONGEST_PHRASES = ("forehand/day-one-feed", ("turn", "spacing", "finish", "contact"))
"""Shipped drills at the limits of a row, and cues of their stroke."""


@pytest.mark.parametrize(
    ("size", "cues", "drill", "purpose"),
    [
        (SMALL, THREE, LONGEST_NAME, Purpose.PRACTICE),
        (SMALL, FOUR, LONGEST_NAME, Purpose.HOLD),
        (SMALL, THREE, LONGEST_FEED, Purpose.YARDSTICK),
        (SMALL, FOUR, LONGEST_FEED, Purpose.PRACTICE),
        (SMALL, THREE, LONGEST_PHRASES, Purpose.PRACTICE),
        (SMALL, FOUR, LONGEST_PHRASES, Purpose.PRACTICE),
        (LARGE, THREE, LONGEST_PHRASES, Purpose.PRACTICE),
        (LARGE, FOUR, LONGEST_NAME, Purpose.CHOOSING),
    ],
)
def test_nothing_is_cut(
    tmp_path: Path,
    open_court: Opener,
    size: tuple[int, int],
    cues: int,
    drill: tuple[str, tuple[str, ...]],
    purpose: Purpose,
) -> None:
    path = tmp_path / "book.db"
    books.prepare(path, drill[1][:cues], drill=drill[0], purpose=purpose)
    console = open_court(path, *size)
    foot = [*FOOT_OF_80, *BEHIND_ESCAPE[:-1]] if size == SMALL else [*FOOT, *BEHIND_ESCAPE]
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        console.wait_for(lambda: all(key in console.text for _, key, _, _ in foot))
        live = moment(book)[1]
    wanted = [
        live.player.name,
        live.drill.drill.name,
        live.next_feed(),
        *(cue.name for cue in live.cues),
        *(f"{key} {label}" for _, key, label, _ in foot),
        "next up: Tove, then Ruben",
    ]
    if purpose.coached:
        wanted += [phrase for cue in live.cues for phrase in (cue.say_inner, cue.say_outer)]
    else:
        wanted += [purpose.meaning]
    assert [words for words in wanted if words not in console.text] == []
    assert "…" not in console.text


def test_another_size_keeps_the_round(tmp_path: Path, open_court: Opener) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    console = open_court(path, *LARGE, PYTHONDONTWRITEBYTECODE="1")  # a new Python
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        press_and_see(console, book, b" ")
        press_and_see(console, book, b"i")
        console.resize(*SMALL)
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        press_and_see(console, book, b"j")
        console.resize(20, 5)
        before = moment(book)
        console.press(b"t")
        console.wait_for(lambda: moment(book) != before)
        console.resize(*SMALL)
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        press_and_see(console, book, b".")
        assert [ball.token() for ball in moment(book)[1].feeding.taken] == ["222", "102!"]


def test_a_key_that_shows_nothing_is_kept(tmp_path: Path, open_court: Opener) -> None:
    """On a tiny window that is drawn already, no output tells that the book has the ball."""
    path = tmp_path / "book.db"
    books.prepare(path)
    console = open_court(path, 20, 5)
    with books.reading(path) as book:
        console.wait_for(" Harbour Week")
        console.press(b" ")
        console.wait_for(lambda: written(moment(book)[1].feeding) == "222")
        console.resize(*SMALL)
        console.wait_until_none(lambda: sights.differences(console.lines, book))
