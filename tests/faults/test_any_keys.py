"""Any keys in any order: the book, the screen's view and a simple model never part.

The model is written down here once more from what a coach reads, with whole copies for taking back.
"""

from __future__ import annotations

import asyncio
import random
import tempfile
from copy import deepcopy
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    rule,
    run_state_machine_as_test,
)

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.feeding import ToughLast
from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.commands.balls import LastWasTough
from courtlog.courtside.commands.table import BY_KEY
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import key_name, meaning_of
from courtlog.logbook.reads import lookups
from courtlog.logbook.rows import tallies
from courtlog.settings import Settings
from tests.court import LIBRARY, again, close_look, desk_in
from tests.doses import dose

PADS = {
    "numbers": ("789", "456", "123", "/*-"),
    "right": ("uio", "jkl", "m,.", "789"),
    "left": ("wer", "sdf", "xcv", "234"),
    "taught": (("pageup", "insert", "é"), "!&;", "56'"),
}
CLICKER = ("pagedown", "b")
CUES = [cue.key for cue in LIBRARY.ladder("forehand").cues]
EVERY_KEY = (
    *sorted({key for pad in PADS.values() for row in pad for key in row}),
    *CLICKER,
    *("space", "enter", "t", "T", "=", "backspace", "0", "#", "ß"),
)


@dataclass
class Model:
    """A round as a coach keeps it in the head: balls taken, the open one, and how it was before."""

    pad: str
    cues: int
    main: int
    taken: list[str] = field(default_factory=list)
    open: list[str] = field(default_factory=list)
    tough: bool = False
    before: list[Model] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.open = self.open or ["-"] * self.cues

    def press(self, key: str) -> None:
        was = deepcopy((self.taken, self.open, self.tough))
        if key == "backspace":
            if self.before:
                last = self.before.pop()
                self.taken, self.open, self.tough = last.taken, last.open, last.tough
            return
        self._change(key)
        if was != (self.taken, self.open, self.tough):
            self.before.append(Model(self.pad, self.cues, self.main, *was))

    def _change(self, key: str) -> None:
        for row, keys in enumerate(PADS[self.pad][: self.cues]):
            if key in keys:
                self.open[row] = str(list(keys).index(key))
                if "-" not in self.open:
                    self._take()
                return
        if key == CLICKER[1]:
            if self.open[self.main] == "-":
                self.open[self.main] = "0"
            self._take()
        elif key in ("space", CLICKER[0]) or (key == "0" and self.pad == "numbers"):
            self.open = ["2" if grade == "-" else grade for grade in self.open]
            self._take()
        elif key == "enter":
            self._take()
        elif key in ("t", "T") or (key in (".", ",") and self.pad == "numbers"):
            self.tough = not self.tough
        elif key in LastWasTough.keys and self.taken:
            last = self.taken[-1]
            self.taken[-1] = last[:-1] if last.endswith("!") else last + "!"

    def _take(self) -> None:
        self.taken.append("".join(self.open) + "!" * self.tough)
        self.open, self.tough = ["-"] * self.cues, False

    def state(self) -> tuple[list[str], str]:
        return self.taken, "".join(self.open) + "!" * self.tough


def in_the_book(desk: Desk) -> tuple[list[str], str]:
    """The same, read row by row."""
    live = desk.view.live
    assert live is not None
    cues = len(live.cue_keys)
    taken, open_ball = [], "-" * cues
    for ball, is_taken, tough in desk.book.db.execute(
        "SELECT id, taken, tough FROM ball WHERE round_id = ? ORDER BY number", [live.id]
    ).fetchall():
        digits = ["-"] * cues
        for row, grade in desk.book.db.execute(
            "SELECT row, grade FROM rating WHERE ball_id = ?", [ball]
        ):
            digits[row] = str(grade)
        token = "".join(digits) + "!" * tough
        if is_taken:
            taken.append(token)
        elif set(token) != {"-"}:
            assert open_ball == "-" * cues, "two open balls"
            open_ball = token
    return taken, open_ball


def on_the_screen(desk: Desk) -> tuple[list[str], str]:
    """The same as the view has it."""
    live = desk.view.live
    assert live is not None
    dots = "-" * len(live.cue_keys)
    tokens = [ball.token().replace(".", dots) for ball in live.feeding.taken]
    return tokens, live.feeding.open.token().replace(".", dots)


class AnyKeys(RuleBasedStateMachine):
    """Keys, commands that are none of its business, and restarts."""

    @initialize(pad=st.sampled_from(sorted(PADS)), cues=st.integers(1, 4), main=st.integers(0, 3))
    def begin(self, pad: str, cues: int, main: int) -> None:
        self.folder = tempfile.TemporaryDirectory()
        if pad == "taught":
            cues = min(cues, 3)
        taught = tuple(key for row in PADS["taught"] for key in row)
        kept = close_look(pad=pad, taught=taught, clicker=CLICKER, review=False)
        self.desk = desk_in(Path(self.folder.name), drill=None, settings=kept)
        self.desk.book.db.execute("PRAGMA synchronous = OFF")
        drill = LIBRARY.drill("forehand/racquet-feed")
        # A main cue that is not in view leaves the fault to the first one that is.
        someone = self.desk.view.roster[0]
        self.desk.people.keep_cues(someone, "forehand", tuple(CUES[:4]), CUES[main])
        self.desk.rounds.start(drill=drill, purpose=Purpose.PRACTICE, cues=CUES[:cues])
        self.model = Model(pad, cues, main if main < cues else 0)

    @rule(key=st.sampled_from(EVERY_KEY))
    def key(self, key: str) -> None:
        name = key_name(key, key if len(key) == 1 else None)
        live = self.desk.view.live
        assert live is not None
        meaning = meaning_of(self.desk.view.pad, self.model.cues, name, live.main_row)
        if key == "backspace":
            self.desk.balls.take_back()
        elif name in LastWasTough.keys:
            self.desk.balls.press(ToughLast())
        elif meaning is not None:
            self.desk.balls.press(meaning)
        self.model.press(key)

    @rule()
    def restart(self) -> None:
        before = self.desk
        self.desk = again(before)
        before.book.close()
        self.desk.book.db.execute("PRAGMA synchronous = OFF")

    @invariant()
    def the_three_agree(self) -> None:
        if hasattr(self, "desk"):
            assert in_the_book(self.desk) == on_the_screen(self.desk) == self.model.state()
            assert tallies.proof(self.desk.book.db) == []

    def teardown(self) -> None:
        if hasattr(self, "desk"):
            self.desk.book.close()
            self.folder.cleanup()


def test_the_book_the_view_and_a_simple_model_agree_after_every_key() -> None:
    run_state_machine_as_test(
        AnyKeys,
        settings=settings(
            max_examples=dose(8, 200),
            stateful_step_count=dose(30, 80),
            derandomize=True,
            database=None,
            deadline=None,
            suppress_health_check=list(HealthCheck),
        ),
    )


NOT_PRESSED = {"ctrl+q", "ctrl+z"}
"""Leaving, and leaving for a moment."""

ON_COURT = (
    *sorted(set(BY_KEY) - NOT_PRESSED),
    *("u", "i", "o", "j", "k", "l", "m", "comma", "full_stop", "space", "enter", "t"),
    *("escape", "escape", "escape", "ctrl+c", "home", "delete", "X", "é", "left", "right", "down"),
)


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (40, 12)])
def test_no_key_on_any_screen_brings_the_program_down(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    """Every command and dialog: what the court shows is what a restart would show."""

    async def play(seed: int) -> None:
        dice = random.Random(f"{size} {seed}")
        at = seed + size[0] // 40
        quick = Settings(look="close" if at % 3 else "far", review=at % 2 == 0)
        desk = desk_in(tmp_path / f"{size[0]} {seed}", settings=quick)
        desk.book.db.execute("PRAGMA synchronous = OFF")
        app = CourtlogApp(desk, None, "UTC")
        async with app.run_test(size=size) as pilot:
            for _ in range(60):
                key = dice.choice(ON_COURT)
                await pilot.press(key)
                if isinstance(app.screen, CourtScreen):
                    mark = lookups.bookmark(desk.book)
                    assert mark is not None
                    kept = mark.round_id and lookups.live_round(desk.book, mark.round_id)
                    assert (desk.view.live or None) == (kept or None), key
        assert tallies.proof(desk.book.db) == []
        assert desk.book.db.execute("PRAGMA foreign_key_check").fetchall() == []
        desk.book.close()

    for seed in range(dose(1, 15)):
        asyncio.run(play(seed))
