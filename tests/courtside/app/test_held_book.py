"""A window on a book that another one writes in: it shows, it stores nothing, it takes over."""

from __future__ import annotations

import json
from dataclasses import asdict, replace
from pathlib import Path

import pytest
from textual.pilot import Pilot

from courtlog.courtside.app import court
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.file.writer_lock import LockOwner, WriterLock
from tests.court import LIBRARY, START, Clock, again, desk_in, feed, written
from tests.courtside.screen import on_court

INES = LockOwner("Ines", "court-laptop", 812, START)
TOVE = LockOwner("Tove", "court-laptop", 813, START)
HELD = "Ines on court-laptop (process 812) since"


def beside(desk: Desk, me: LockOwner = TOVE) -> Desk:
    """A desk of another window, which asks for the book."""
    other = Desk(create_or_open(desk.book.path, START, me), lambda: LIBRARY, desk.settings, Clock())
    other.state.resume()
    return other


def held(folder: Path, by: LockOwner = INES) -> Desk:
    """A desk that holds its book."""
    desk = desk_in(folder)
    desk.book.close()
    return beside(desk, by)


def state(desk: Desk) -> str:
    """The round on court as the book has it."""
    live = again(desk).view.live
    assert live is not None
    return written(live.feeding)


EVERY_WAY_TO_WRITE = (
    ["u"], ["space"], ["enter"], ["t"], ["backspace"], ["tab"], ["z"], ["b"], ["p"], ["a"],
    ["up"], ["n", *"good feet", "enter"], ["f9", "a", *"Cleo", "enter"], ["y", *"tove", "enter"],
)  # fmt: skip


@pytest.mark.parametrize("keys", EVERY_WAY_TO_WRITE, ids=lambda keys: keys[0])
def test_no_key_of_the_second_window_changes_the_book(tmp_path: Path, keys: list[str]) -> None:
    first = held(tmp_path)
    feed(first, "2-")
    before = list(first.book.db.iterdump())
    text = on_court(beside(first), keys)
    assert HELD in text
    assert list(first.book.db.iterdump()) == before


def test_the_second_window_says_so_and_can_look(tmp_path: Path) -> None:
    first = held(tmp_path)
    feed(first, "222 212")
    text = on_court(beside(first))
    assert "READ ONLY" in text.splitlines()[0]
    assert HELD in text
    assert "2 of 2" in text
    assert "turn" in on_court(beside(first), ["q"])
    assert "Maren" in on_court(beside(first), ["f5"])


def test_the_second_window_follows_the_first(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(court, "LOOK_AGAIN", 0.001)
    first = held(tmp_path)

    async def watching(pilot: Pilot[None], app: CourtlogApp) -> None:
        feed(first, "222")
        other = app.screen
        assert isinstance(other, court.CourtScreen)
        while other.desk.view.live != first.view.live:
            await pilot.pause()

    text = on_court(beside(first), then=watching)
    assert "1 of 1" in text
    assert HELD in text


def test_the_second_window_takes_over_at_the_next_key(tmp_path: Path) -> None:
    first = held(tmp_path)
    second = beside(first)

    async def closes(pilot: Pilot[None], app: CourtlogApp) -> None:
        await pilot.press("u")
        feed(first, "22")
        first.book.close()
        await pilot.press("m")

    text = on_court(second, then=closes)
    assert "READ ONLY" not in text
    assert "Press the key again" in text
    assert state(second) == "|22-"
    on_court(second, ["m"])
    assert state(second) == "220"


@pytest.mark.parametrize(("answer", "kept"), [("enter", "|0--"), ("escape", "")])
def test_a_book_that_another_computer_left_open_is_asked_about(
    tmp_path: Path, answer: str, kept: str
) -> None:
    desk = desk_in(tmp_path)
    words = json.dumps(asdict(replace(INES, host="clubhouse")))
    WriterLock(desk.book.path, TOVE).path.write_text(words, encoding="utf-8")
    second = beside(desk)
    assert "was not closed by Ines on clubhouse" in on_court(second)
    on_court(second, [answer, "u"])
    assert state(desk) == kept


def test_what_another_program_brings_in_is_seen_at_the_next_key(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)

    async def meanwhile(pilot: Pilot[None], app: CourtlogApp) -> None:
        other = again(desk)
        other.people.add("Cleo")
        other.book.close()
        await pilot.press("u")

    on_court(desk, then=meanwhile)
    assert [player.name for player in desk.view.roster][-1] == "Cleo"
    assert state(desk) == "|0--"


def test_a_text_is_offered_again_when_the_book_could_not_take_it(tmp_path: Path) -> None:
    first = held(tmp_path)

    async def closes(pilot: Pilot[None], app: CourtlogApp) -> None:
        first.book.close()
        await pilot.press("enter")

    second = beside(first)
    text = on_court(second, ["n", *"good feet", "enter"])
    assert "good feet" in text
    assert "Not stored: Ines on court-laptop" in text
    on_court(second, ["n", *"good feet", "enter", "escape"])
    assert second.book.db.execute("SELECT count(*) FROM note").fetchone() == (0,)
