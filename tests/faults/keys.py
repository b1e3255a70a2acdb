"""Keys that come together: a burst in one read must do what the same keys do one at a time.

A script of bursts is played twice on the same book, once key by key and once burst by burst. After
each burst the books hold the same, the screens show the same, and some screen of ours stands.
"""

from __future__ import annotations

import asyncio
import gc
import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

from textual.events import Key
from textual.keys import _character_to_key
from textual.pilot import Pilot

from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.commands.table import BY_KEY
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.dialogs.own_screen import OwnScreen
from courtlog.logbook.reads import lookups
from courtlog.logbook.rows import tallies
from courtlog.settings import Settings, changed
from tests.court import LIBRARY, Clock, close_look, desk_in, feed, open_book
from tests.courtside.screen import settled, shown
from tests.faults.figures import Figure

LEAVING = {"ctrl+q", "ctrl+z"}
"""Keys that end the program, or stop it for a moment: not for a script that goes on."""

NAMED = (
    *(f"f{number}" for number in range(1, 13)),
    *(f"ctrl+{letter}" for letter in "abcdefghijklmnoprstuvwxy"),
    *("up", "down", "left", "right", "home", "end", "pageup", "pagedown", "insert", "delete"),
    *("tab", "shift+tab", "enter", "escape", "backspace", "space"),
)
CHARACTERS = tuple("abcdefghijklmnopqrstuvwxyzTX0123456789.,;:/*-+?!#'é")
OPENERS = tuple(sorted(set(BY_KEY) - LEAVING))
CLOSERS = ("enter", "escape", "tab", "y", "q", "backspace", "up")
PADS = ("right", "left", "numbers")
WAY_BACK = ("escape",)
"""Stands for as many Escapes as lead to the court; on the court itself the key lists commands."""

DEEPEST = 5
"""Escapes that lead back from the deepest dialog."""

SET_UP = (
    *"Harbour Week",
    "enter",
    *"Maren, Tove left, Ruben",
    *("enter",) * 3,
    *"Ines",
    *("enter",) * 3,
)
"""The lines of a new clinic, from its name to its zone."""

Rows = dict[str, list[tuple[object, ...]]]


@dataclass(frozen=True)
class Script:
    """Bursts of keys, each written in one read, on a desk with these settings."""

    seed: int
    bursts: tuple[tuple[str, ...], ...]

    @property
    def new(self) -> bool:
        """Whether it begins with an empty book, and so with the lines of a new clinic."""
        return self.seed % 5 == 4

    @property
    def settings(self) -> Settings:
        """Half of the scripts have reviews; every third writes with another pad."""
        return changed(close_look(review=self.seed % 2 == 0), pad=PADS[self.seed % len(PADS)])


def script(seed: int, keys: int) -> Script:
    """Some `keys` keys in bursts of one to a dozen, with held keys and pastes among them."""
    dice = random.Random(seed)
    bursts: list[tuple[str, ...]] = []
    if Script(seed, ()).new:
        cut = dice.randrange(len(SET_UP))
        bursts = [SET_UP[:cut], (*SET_UP[cut:], *("enter",) * dice.randint(1, 4))]
    while sum(map(len, bursts)) < keys:
        bursts.append(_burst(dice))
        if dice.random() < 0.2:
            bursts.append(WAY_BACK)
    return Script(seed, tuple(bursts))


def _burst(dice: random.Random) -> tuple[str, ...]:
    kind = dice.random()
    if kind < 0.15:
        return (_any_key(dice),)
    if kind < 0.55:  # opens something, and goes on before it is there
        return (dice.choice(OPENERS), *(_near_a_dialog(dice) for _ in range(dice.randint(1, 3))))
    if kind < 0.7:  # a key that is held down or bounces
        return (dice.choice(OPENERS), *(dice.choice(CLOSERS),) * dice.randint(2, 6))
    if kind < 0.95:
        return tuple(_any_key(dice) for _ in range(dice.randint(2, 12)))
    return tuple(_any_key(dice) for _ in range(60))  # a paste without its marks


def _any_key(dice: random.Random) -> str:
    kind = dice.random()
    return dice.choice(OPENERS if kind < 0.3 else CHARACTERS if kind < 0.6 else NAMED)


def _near_a_dialog(dice: random.Random) -> str:
    return dice.choice(CLOSERS) if dice.random() < 0.7 else _any_key(dice)


@dataclass
class Sight:
    """What stands after a burst: the screen, its words, and every row of the book."""

    screen: str
    words: str
    rows: Rows


async def _type(app: CourtlogApp, pilot: Pilot[None], keys: Sequence[str]) -> None:
    for key in keys:
        if len(key) == 1:
            event = Key(_character_to_key(key), key)
        else:
            event = Key(key, {"space": " ", "enter": "\r", "tab": "\t"}.get(key))
        app.post_message(event)
    await pilot.pause()


async def _go_back(app: CourtlogApp, pilot: Pilot[None]) -> None:
    for _ in range(DEEPEST):
        if isinstance(app.screen, CourtScreen):
            return
        await _type(app, pilot, WAY_BACK)
    raise AssertionError(f"Escape does not lead back from {type(app.screen).__name__}")


def played(
    script: Script, folder: Path, together: bool, check: Callable[[int, Sight], None]
) -> None:
    """Play the script; `check` gets the sight after each burst. Raises what the program raises."""
    folder.mkdir()
    with (  # both ways of playing it draw the same, and neither waits for time
        mock.patch("textual.app.wait_for_idle", settled),
        mock.patch("textual.pilot.wait_for_idle", settled),
        mock.patch("courtlog.courtside.app.own_app.gc", mock.Mock(spec=gc)),
        mock.patch("secrets.randbelow", return_value=1),
        mock.patch("secrets.randbits", side_effect=random.Random(script.seed).getrandbits),
    ):
        _play(script, folder, together, check)


def _play(
    script: Script, folder: Path, together: bool, check: Callable[[int, Sight], None]
) -> None:
    if script.new:
        desk = Desk(open_book(folder), lambda: LIBRARY, script.settings, Clock())
    else:
        desk = desk_in(folder, settings=script.settings)
        feed(desk, "222 0-1!/ 111")
    desk.book.db.execute("PRAGMA synchronous = OFF")

    async def run() -> None:
        app = CourtlogApp(desk, None, "UTC")
        async with app.run_test(size=(80, 24)) as pilot:
            for number, burst in enumerate(script.bursts):
                if burst == WAY_BACK:
                    await _go_back(app, pilot)
                    burst = ()
                for keys in (burst,) if together else ((key,) for key in burst):
                    await _type(app, pilot, keys)
                check(number, _sight(app, desk))

    try:
        asyncio.run(run())
    finally:
        desk.book.close()


def _sight(app: CourtlogApp, desk: Desk) -> Sight:
    screen = app.screen
    assert isinstance(screen, OwnScreen), "no screen of ours stands"
    if isinstance(screen, CourtScreen):
        mark = lookups.bookmark(desk.book)
        assert mark is not None
        kept = None if mark.round_id is None else lookups.live_round(desk.book, mark.round_id)
        assert desk.view.live == kept, "the court shows another round than the book holds"
    assert tallies.proof(desk.book.db) == []
    return Sight(type(screen).__name__, shown(screen), rows_of(desk))


def rows_of(desk: Desk) -> Rows:
    """Every row of every table but those that name the file."""
    tables = desk.book.db.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
    return {
        name: sorted(desk.book.db.execute(f"SELECT * FROM {name}").fetchall(), key=repr)
        for (name,) in tables
        if name not in ("book", "home", "_sqlite_migrations")
    }


def keys_together(folder: Path, long: bool) -> Figure:
    """Every burst of every script ends where the same keys lead one at a time."""
    figure = Figure("keys together: bursts do what single keys do")
    for seed in range(250 if long else 2):
        compare(script(seed, 200 if long else 80), folder / str(seed), figure)
    return figure


def compare(script: Script, folder: Path, figure: Figure) -> None:
    """One script, both ways; each burst is a trial, and the first that goes wrong ends it."""
    folder.mkdir()
    singly: list[Sight] = []
    names = [" ".join(burst) for burst in script.bursts]
    with figure.trial(f"seed {script.seed}, one at a time"):
        played(script, folder / "singly", False, lambda _, sight: singly.append(sight))

    def check(number: int, sight: Sight) -> None:
        if number >= len(singly):
            return
        with figure.trial(f"seed {script.seed}, burst {number}: {names[number]}"):
            expected = singly[number]
            assert sight.screen == expected.screen, f"{sight.screen}, not {expected.screen}"
            assert sight.rows == expected.rows, _difference(sight.rows, expected.rows)
            assert sight.words == expected.words, "the screens differ"

    with figure.trial(f"seed {script.seed}, together"):
        played(script, folder / "together", True, check)


def _difference(found: Rows, expected: Rows) -> str:
    """The first rows in which two books differ."""
    for name, rows in expected.items():
        more = [row for row in found[name] if row not in rows]
        less = [row for row in rows if row not in found[name]]
        if more or less:
            return f"the books differ in {name}: {more[:2]}, not {less[:2]}"
    return "the books have other tables"
