"""Rating once more, blind: no first grade on the screen, every key in the book, and resumable."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from pathlib import Path

import pytest
from rich.cells import cell_len
from textual.events import Key

from courtlog.courtside.app.held_key import HELD
from courtlog.courtside.app.second_look_app import SecondLookApp
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import PADS
from courtlog.courtside.screens.second_look import RatingSession, lines
from courtlog.logbook.reads import second_rating_lookups
from courtlog.logbook.reads.film.blind_lookups import blind_pages, clips_to_rate
from courtlog.logbook.writes.film import blind_writer
from courtlog.settings import THEMES
from tests.court import START, close_look, desk_in, feed, player
from tests.courtside.app.test_held_key import KEYBOARDS, held
from tests.courtside.screen import shown
from tests.courtside.surface.test_contrast import faint

LINE = "Ctrl+L or Escape brings the screen back."


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """Three balls, each with a clip mark: 0-1, 210 and all made."""
    desk = desk_in(tmp_path)
    feed(desk, "0-1/@210@222@")
    return desk


def session(desk: Desk, sitting: int = 1, coach: str = "Bo") -> RatingSession:
    balls = [
        b for b in second_rating_lookups.balls_to_rate(desk.book, desk.view.clinic.id) if b.has_clip
    ]
    return RatingSession(desk.book, desk.view.clinic, coach, sitting, balls, desk.clock)


def look(
    session: RatingSession,
    keys: Sequence[str] = (),
    size: tuple[int, int] = (80, 24),
    pad: str = "right",
) -> str:
    """The screen after these keys."""

    async def run() -> str:
        app = SecondLookApp(session, close_look(pad=pad))
        async with app.run_test(size=size) as pilot:
            await pilot.press(*keys)
            await pilot.pause()
            return shown(app.screen)

    return asyncio.run(run())


def stored(desk: Desk, coach: str = "Bo") -> list[tuple[int, int, int | None]]:
    """Ball (from 1), row and grade of the second ratings."""
    return desk.book.db.execute(
        "SELECT number, row, grade FROM second_rating JOIN ball ON ball.id = ball_id"
        " JOIN coach ON coach.id = coach_id WHERE name = ? ORDER BY number, row",
        [coach],
    ).fetchall()


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
def test_it_says_where_to_look(desk: Desk, size: tuple[int, int]) -> None:
    text = look(session(desk), size=size)
    for words in ("clip 08:30:00", "Maren · Racquet feed, two spots", "0 of 3 balls rated", "turn"):
        assert words in text


def test_nothing_of_the_first_rating_is_on_the_screen(desk: Desk, tmp_path: Path) -> None:
    other = desk_in(tmp_path / "other")
    feed(other, "2/@_@001@")
    assert look(session(desk)) == look(session(other))


def test_a_clip_of_a_blind_page_is_a_number_and_its_cues(desk: Desk) -> None:
    """Nothing tells the day, the player or the drill; cues stand as on the page."""
    book, clinic = desk.book, desk.view.clinic
    order = [ball for (ball,) in book.db.execute("SELECT id FROM ball WHERE taken ORDER BY -id")]
    who = player(desk, "Maren").id
    cues = ("spacing", "turn")
    blind_writer.add_page(book, clinic.id, who, "forehand", cues, "KRTW", 7, order, START)
    (page,) = blind_pages(book, clinic.id)

    def blind() -> RatingSession:
        sitting = blind_writer.blind_sitting(book, page, "Bo", START, anew=False)
        clips = clips_to_rate(book, clinic, page)
        return RatingSession(book, clinic, "Bo", sitting, clips, desk.clock, page.code)

    text = look(blind())
    for words in ("Rated blind by Bo · page KRTW", "Clip 1 of 3", "0 of 3 clips rated", "spacing"):
        assert words in text
    for hidden in ("Maren", "12 May", "08:3", "Racquet", "Harbour", "finish", "2026"):
        assert hidden not in text
    assert "Clip 2 of 3" in look(blind(), ["o", "j"])
    assert stored(desk) == [(3, 0, 0), (3, 1, 2)], "each cue's grade in its own row"
    assert "Clip 1 of 3" in look(blind(), ["backspace"])
    assert stored(desk) == []
    assert "All are rated" in look(blind(), ["space", "enter", "space"])


@pytest.mark.parametrize("theme", THEMES)
def test_it_can_be_read_in_the_sun(desk: Desk, theme: str) -> None:
    async def run() -> None:
        app = SecondLookApp(session(desk), close_look(theme=theme))
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.press("o")
            await pilot.pause()
            assert faint(app.screen) == set()

    asyncio.run(run())


def test_every_key_is_stored_and_the_next_ball_comes(desk: Desk) -> None:
    look(session(desk), ["o", "k"])
    assert stored(desk) == [(1, 0, 2), (1, 1, 1)]
    text = look(session(desk), ["full_stop", "u", "enter"])
    assert stored(desk) == [(1, 0, 2), (1, 1, 1), (1, 2, 2), (2, 0, 0), (2, 1, None), (2, 2, None)]
    assert "2 of 3 balls rated" in text
    assert "All are rated" in look(session(desk), ["space"])
    assert [grade for number, _, grade in stored(desk) if number == 3] == [2, 2, 2]


def test_a_grade_changes_and_backspace_opens_the_ball_again(desk: Desk) -> None:
    look(session(desk), ["o", "u"])
    assert stored(desk) == [(1, 0, 0)]
    look(session(desk), ["backspace"])
    assert stored(desk) == []
    assert "nothing to take back" in look(session(desk), ["backspace"])
    look(session(desk), ["space", "backspace", "u"])
    assert stored(desk) == [(1, 0, 0)]


@pytest.mark.parametrize("keyboard", KEYBOARDS)
@pytest.mark.parametrize("before", [[], ["o"], ["space"], ["o", "k", "full_stop", "j"]])
@pytest.mark.parametrize("key", ["o", "u", "k", "space", "enter", "backspace"])
def test_a_key_held_down_counts_once(
    desk: Desk, tmp_path: Path, key: str, before: list[str], keyboard: str
) -> None:
    """As one press does it, whatever was rated before."""
    look(session(desk), before)
    once = desk_in(tmp_path / "once")
    feed(once, "0-1/@210@222@")
    look(session(once), [*before, key])

    async def hold() -> str:
        app = SecondLookApp(session(desk), close_look())
        async with app.run_test(size=(80, 24)) as pilot:
            for arrived in held(5.0, keyboard):
                app.keys.add(Key(key, key if len(key) == 1 else None), arrived)
            await app.keys.emptied()
            await pilot.pause()
            return shown(app.screen)

    assert HELD in asyncio.run(hold())
    assert stored(desk) == stored(once)


def test_other_keys_do_nothing_and_the_first_ratings_stay(desk: Desk) -> None:
    first = desk.book.db.execute("SELECT * FROM rating").fetchall()
    look(session(desk), ["x", "tab", "t", "equals_sign", "f5", "up", "7"])
    assert stored(desk) == []
    look(session(desk), ["space"] * 5)
    assert desk.book.db.execute("SELECT * FROM rating").fetchall() == first


def test_another_go_begins_with_the_first_ball(desk: Desk) -> None:
    look(session(desk), ["space"] * 3)
    assert second_rating_lookups.last_sitting(desk.book, "Bo") == 1
    assert "0 of 3" in look(session(desk, 2))
    assert "0 of 3" in look(session(desk, 1, "Ines"))


def test_it_can_be_blanked_too(desk: Desk) -> None:
    assert look(session(desk), ["ctrl+l", "o", "space"]).strip() == LINE
    assert stored(desk) == []
    assert "Maren" in look(session(desk), ["ctrl+l", "ctrl+l"])


@pytest.mark.parametrize("pad", ["numbers", "left"])
def test_it_takes_the_keys_of_the_pad_in_use(desk: Desk, pad: str) -> None:
    look(session(desk), ["9" if pad == "numbers" else "r"], pad=pad)
    assert stored(desk) == [(1, 0, 2)]


@pytest.mark.parametrize("width", [80, 40, 12])
def test_a_name_of_any_kind_and_length_is_text_and_fits(tmp_path: Path, width: int) -> None:
    name = "[red]\x1b[31m\u202e=1+1 木" * 500
    desk = desk_in(tmp_path, names=(name, "Tove"))
    feed(desk, "_@")
    said = lines(session(desk, coach=name), PADS["right"], False, width)
    assert all(text.isprintable() and cell_len(text) <= width for text, _ in said)
    assert "[red]␛[31m" in look(session(desk, coach=name))
