"""What a key of the court sounds like; no test plays a sound."""

from __future__ import annotations

import random
import sqlite3
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from textual.pilot import Pilot

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.feed_order import FeedChoice
from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.commands.looks import Bell, Blank, Quit, Suspend
from courtlog.courtside.commands.table import COMMANDS
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.sound import loudspeaker
from courtlog.courtside.sound.loudspeaker import Loudspeaker, Request
from courtlog.courtside.sound.sounds import Sound, heard_of
from courtlog.errors import CourtlogError
from courtlog.logbook.writes.round_writer import RoundWriter
from courtlog.settings import Settings
from tests.court import LIBRARY, NAMES, again, close_look, desk_in, feed
from tests.courtside.screen import on_court
from tests.courtside.sound.fake_programs import CANNOT_START, FAILS, HANGS, WELL, FakePrograms
from tests.doses import dose

QUIET = close_look(review=False)
REFUSED, OVER = Request(Sound.REFUSED), Request(Sound.OVER)
BACK, TOUGH, TAKEN = Request(Sound.TAKEN_BACK), Request(Sound.TOUGH), Request(Sound.TAKEN)


def with_tough_balls(folder: Path, settings: Settings = QUIET) -> tuple[Desk, tuple[bool, ...]]:
    """A round of ten balls with five planned tough, and which they are."""
    desk = desk_in(folder, settings=settings)
    ladder, drill = LIBRARY.drill("forehand/racquet-feed")
    feeds = FeedChoice(drill.order, 5, 10)
    desk.rounds.start(drill=(ladder, drill), purpose=Purpose.PRACTICE, feeds=feeds)
    live = desk.state.open_round
    assert live is not None
    tough = live.feeding.feeds.tough
    assert (len(tough), sum(tough)) == (10, 5)
    return desk, tough


KEYS_SOUND: dict[str, tuple[list[str], list[Request]]] = {
    "a grade": (["u"], []),
    "a ball": (["space"], []),
    "a grade taken back": (["u", "backspace"], [BACK]),
    "a ball taken back": (["space", "backspace"], [BACK]),
    "nothing to take back": (["backspace"], [REFUSED]),
    "the same grade again": (["u", "u"], []),
    "tough, with no ball yet": (["="], [REFUSED]),
    "a key of no pad": (["%"], [REFUSED]),
    "Enter with no grade": (["enter"], []),
    "the round is full": (["space"] * 10, [OVER]),
    "one ball more than full": (["space"] * 11, [OVER]),
    "the next player": (["space", "tab"], [OVER]),
    "back into the round that was left": (["space", "tab", "backspace"], [OVER, BACK]),
    "a pause and on": (["p", "p"], []),
    "a dialog that is left": (["n", "escape"], []),
}


@pytest.mark.parametrize(("keys", "sounds"), list(KEYS_SOUND.values()), ids=list(KEYS_SOUND))
def test_what_a_key_sounds_like(
    tmp_path: Path, heard: list[Request], keys: list[str], sounds: list[Request]
) -> None:
    on_court(desk_in(tmp_path), keys)
    assert heard == sounds


def test_a_tough_ball_is_heard_once_before_it_is_fed(tmp_path: Path, heard: list[Request]) -> None:
    """After each ball its grades, its marks and a pause say nothing of the next."""
    desk, tough = with_tough_balls(tmp_path)
    on_court(desk, ["space", "u", "t", "p", "p", "k"] * 9)
    assert heard == [TOUGH for ball in tough[1:] if ball]


def test_a_ball_taken_back_is_not_heard_as_tough(tmp_path: Path, heard: list[Request]) -> None:
    desk, tough = with_tough_balls(tmp_path)
    at = tough.index(True, 1)
    on_court(desk, [*["space"] * at, "space", "backspace"])
    assert heard[-1] == BACK


def test_a_court_that_opens_is_silent(tmp_path: Path, heard: list[Request]) -> None:
    desk, tough = with_tough_balls(tmp_path, replace(QUIET, taken_sound=True, say_feed=True))
    feed(desk, "_" * tough.index(True))
    on_court(again(desk))
    assert heard == []


def test_a_ball_taken_is_heard_only_on_request(tmp_path: Path, heard: list[Request]) -> None:
    desk, tough = with_tough_balls(tmp_path, replace(QUIET, taken_sound=True))
    on_court(desk, ["u", "space"] * 10)
    assert heard == [*(TOUGH if ball else TAKEN for ball in tough[1:]), OVER]


def test_the_next_feed_is_said_only_on_request(tmp_path: Path, heard: list[Request]) -> None:
    desk, tough = with_tough_balls(tmp_path, replace(QUIET, say_feed=True))
    live = desk.state.open_round
    assert live is not None
    spots = live.drill.drill.spots
    on_court(desk, ["u", "space"] * 9 + ["%", "backspace"])
    said = [
        f"{'Tough: ' * ball}{spots[live.feeding.feeds.spot(number) % len(spots)]}"
        for number, ball in enumerate(tough, 1)
    ]
    assert [request.words for request in heard] == [*said[1:], "", said[8]]
    assert [request.sound for request in heard[9:]] == [Sound.REFUSED, Sound.TAKEN_BACK]


def test_nobody_is_named_aloud(tmp_path: Path, heard: list[Request]) -> None:
    desk = desk_in(tmp_path, settings=replace(QUIET, say_feed=True))
    on_court(desk, ["space", "tab", "space", "tab", "backspace"])
    assert heard
    assert not any(name in request.words for request in heard for name in NAMES)


def test_with_sounds_off_only_the_words_asked_for_are_heard(
    tmp_path: Path, heard: list[Request]
) -> None:
    desk, _ = with_tough_balls(tmp_path, replace(QUIET, bell=False, taken_sound=True))
    on_court(desk, ["space", "backspace", "%", *["space"] * 10, "tab"])
    assert heard == []
    on_court(
        with_tough_balls(tmp_path / "other", replace(QUIET, bell=False, say_feed=True))[0],
        ["space", "%"],
    )
    assert [request.sound for request in heard] == [None]


def test_one_key_switches_the_sounds_off_and_on(tmp_path: Path, heard: list[Request]) -> None:
    assert "Sounds off." in on_court(desk_in(tmp_path), ["%", "ctrl+g"])
    on_court(desk_in(tmp_path / "other"), ["ctrl+g", "%", "%", "ctrl+g", "%"])
    assert heard == [REFUSED, REFUSED]


def test_of_several_sounds_of_one_key_the_one_that_matters_most_is_heard(
    tmp_path: Path, heard: list[Request]
) -> None:
    """Tab takes the ball in hand, which empties the basket, and ends the round."""
    desk = desk_in(tmp_path)
    desk.balls.pick_up(10)
    feed(desk, "_________")
    on_court(desk, ["u", "tab"])
    assert heard == [OVER]
    assert heard_of([Sound.TOUGH, Sound.OVER, Sound.REFUSED]) is Sound.REFUSED
    assert heard_of([]) is None


def test_a_refusal_of_the_book_is_heard(
    tmp_path: Path, heard: list[Request], monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr(RoundWriter, "store_key", full)
    on_court(desk_in(tmp_path), ["space"])
    assert heard == [REFUSED]


@pytest.mark.parametrize("key_between", [False, True])
def test_what_the_clock_is_refused_every_second_is_heard_once(
    tmp_path: Path, heard: list[Request], monkeypatch: pytest.MonkeyPatch, key_between: bool
) -> None:
    desk = desk_in(tmp_path)
    gone: list[str] = []

    def tick() -> None:
        if gone:
            raise CourtlogError(gone[0], "Look at it.")

    async def seconds(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert isinstance(app.screen, CourtScreen)
        monkeypatch.setattr(desk.rotation, "tick", tick)
        for why in ("The stick is gone.", "The stick is gone.", "The book is gone.", ""):
            gone[:] = [why] if why else []
            app.screen._tick()
        gone[:] = ["The book is gone."]
        app.screen._tick()
        if key_between:
            await pilot.press("%")
            app.screen._tick()

    on_court(desk, then=seconds)
    assert heard == [REFUSED] * (5 if key_between else 3)


def test_a_turn_that_is_up_is_heard_by_the_clock(tmp_path: Path, heard: list[Request]) -> None:
    desk = desk_in(tmp_path)

    async def second(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert isinstance(app.screen, CourtScreen)
        desk.state.ring()
        app.screen._tick()

    on_court(desk, then=second)
    assert heard == [OVER]


NOT_PRESSED = {Quit, Suspend, Blank, Bell}
PRESSED: list[tuple[str, ...]] = [
    *((command.keys[0],) for command in COMMANDS if command.keys and command not in NOT_PRESSED),
    *(("escape", command.letter) for command in COMMANDS if command not in NOT_PRESSED),
    *((key,) for key in "uiojklm,.tTxX=%é7"),
    *((key,) for key in ("space", "enter", "home", "delete", "left", "right", "up", "f11")),
]


@pytest.mark.parametrize("at_start", ["nobody on court", "a round", "a round over"])
def test_any_key_that_only_says_why_not_is_heard_as_refused_and_no_key_makes_two_sounds(
    tmp_path: Path, heard: list[Request], at_start: str
) -> None:
    desk = desk_in(tmp_path, drill=None if at_start == "nobody on court" else "forehand/shadow")
    if at_start == "a round over":
        feed(desk, "__")
        desk.rounds.end_round()
    desk.state.take_due()
    dice = random.Random(at_start)
    refused = 0

    def changes() -> tuple[int, Settings]:
        return desk.book.db.total_changes, desk.state.settings

    async def press(pilot: Pilot[None], app: CourtlogApp) -> None:
        nonlocal refused
        for _ in range(dose(150, 2000)):
            while not isinstance(app.screen, CourtScreen):
                await pilot.press("escape")
            desk.state.tell("")
            heard.clear()
            key, view, kept = dice.choice(PRESSED), desk.view, changes()
            await pilot.press(*key)
            assert len(heard) <= 1, key
            did_nothing = changes() == kept and isinstance(app.screen, CourtScreen)
            if did_nothing and replace(desk.view, message="", now=view.now) == view:
                told = desk.view.message != ""
                assert heard == [REFUSED] * told, (key, desk.view.message)
                refused += told

    on_court(desk, then=press)
    assert refused


def with_real_loudspeaker(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is heard comes from the programs on the PATH."""
    monkeypatch.setattr(loudspeaker, "Loudspeaker", Loudspeaker)


@pytest.mark.parametrize("does", [HANGS, FAILS, WELL, CANNOT_START])
def test_no_key_waits_for_a_player_and_none_is_left(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fakes: FakePrograms, does: str | None
) -> None:
    """The keys go in and the balls are in the book while the first sound hangs."""
    with_real_loudspeaker(monkeypatch)
    fakes.put("aplay", does)
    desk = desk_in(tmp_path)
    on_court(desk, ["%", *["space", "%", "backspace", "space"] * 5])
    live = again(desk).view.live
    assert live is not None
    assert len(live.feeding.taken) == 5
    assert fakes.left == []
    assert not fakes.hangs()


def test_the_terminal_rings_where_nothing_plays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fakes: FakePrograms
) -> None:
    rung: list[str] = []
    with_real_loudspeaker(monkeypatch)
    monkeypatch.setattr(CourtlogApp, "bell", lambda _: rung.append("bell"))

    async def wait(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert isinstance(app.screen, CourtScreen)
        speaker = app.screen._ears._speaker
        assert isinstance(speaker, Loudspeaker)
        speaker.wait_until_silent()
        await pilot.pause()

    on_court(desk_in(tmp_path), ["%"], then=wait)
    assert rung == ["bell"]


def test_a_bell_that_comes_after_the_court_was_left_does_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    instead: list[Callable[[Request], object]] = []

    class Late:
        def __init__(self, bell: Callable[[Request], object]) -> None:
            instead.append(bell)

        def ask(self, request: Request) -> None:
            """Nothing yet."""

        def close(self) -> None:
            """Nothing yet."""

    monkeypatch.setattr(loudspeaker, "Loudspeaker", Late)
    on_court(desk_in(tmp_path), ["%"])
    (bell,) = instead
    bell(REFUSED)


def test_nothing_is_left_of_a_court_that_an_error_ends(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fakes: FakePrograms
) -> None:
    with_real_loudspeaker(monkeypatch)
    fakes.put("aplay", f'(echo > "$FOLDER/begun"; {HANGS}) & wait')
    desk = desk_in(tmp_path)

    def broken(_: object) -> None:
        raise ZeroDivisionError

    async def fail(pilot: Pilot[None], app: CourtlogApp) -> None:
        fakes.wait_until_one_plays()
        monkeypatch.setattr(desk.balls, "press", broken)
        await pilot.press("space")

    with pytest.raises(ZeroDivisionError):
        on_court(desk, ["%"], then=fail)
    assert fakes.left == []
    assert not fakes.hangs()
