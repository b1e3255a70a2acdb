"""Feeds of this round: the order, the tough balls, which balls are rated, when to speak."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog.coaching.game.drills import Order
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.on_court.feed_order import FeedChoice, rated_balls
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.courtside.dialogs.own_screen import OwnDialog

T = TypeVar("T")

_RATED = {1: "every ball", 2: "every second ball, one fed in between"}


class FeedsScreen(OwnDialog[FeedChoice | None]):
    """Up and down choose a line, left and right change it; Enter takes, Escape leaves."""

    TOPIC = "rounds"

    def __init__(self, live: LiveRound, speak: Speak) -> None:
        super().__init__()
        self._live = live
        self._speak = speak
        self._before = self._choice = live.feeding.feeds.choice(live.drill.drill)
        self._index = 0

    def compose(self) -> ComposeResult:
        with Vertical(classes="box"):
            yield Static(
                Content(
                    "Feeds of this round: ↑ ↓ a line, ← → change it, Enter takes, Escape leaves"
                )
            )
            yield Static(self._lines(), id="feeds")
            yield Static(self._outcome(), id="outcome")

    def take_key(self, event: Key) -> None:
        if event.key == "escape":
            self.dismiss(None)
        elif event.key == "enter":
            self.dismiss(None if self._choice == self._before else self._choice)
        elif event.key in ("up", "down"):
            self._index = (self._index + (1 if event.key == "down" else -1)) % 4
        elif event.key in ("left", "right"):
            self._choice = self._changed(1 if event.key == "right" else -1)
        self.query_one("#feeds", Static).update(self._lines())
        self.query_one("#outcome", Static).update(self._outcome())

    @property
    def _rated(self) -> int:
        live = self._live
        return rated_balls(live.drill.drill, live.purpose, self._choice.every, live.plan_balls)

    @property
    def _tough(self) -> int:
        return self._choice.tough_in(self._rated)

    def _changed(self, by: int) -> FeedChoice:
        """The choice with the line in hand changed by one."""
        choice = self._choice
        if self._index == 0:
            return replace(choice, order=_next(list(Order), choice.order, by))
        if self._index == 1:
            if not self._live.purpose.plans_tough:
                return choice
            tough = _next(range(self._rated // 2 + 1), self._tough, by)
            return replace(choice, tough=tough, of=self._rated)
        if self._index == 2:
            return replace(choice, every=_next(list(_RATED), choice.every, by))
        return replace(choice, speak=_next(list(Speak), choice.speak or self._speak, by))

    def _lines(self) -> Content:
        live, choice = self._live, self._choice
        order = str(choice.order) if len(live.drill.drill.spots) > 1 else "one spot"
        tough = f"{self._tough} of {self._rated} rated balls"
        if not live.purpose.plans_tough:
            tough = f"none: a {live.purpose} round is of usual balls"
        speak = (choice.speak or self._speak).meaning
        if not live.purpose.coached:
            speak = "without help: nothing is shown"
        rows = (
            ("order", order),
            ("tough", tough),
            ("rate", _RATED[choice.every]),
            ("speak", speak),
        )
        return Content("\n").join(
            Content.assemble(
                f"{'►' if index == self._index else ' '} {label:<8}",
                (f" {words} ", "bold reverse" if index == self._index else ""),
            )
            for index, (label, words) in enumerate(rows)
        )

    def _outcome(self) -> Content:
        """What Enter will do."""
        fed = self._rated * self._choice.every
        balls = f"{self._rated} balls to rate, {fed} to feed."
        if self._choice == self._before:
            return Content(f"{balls} Nothing is changed yet.")
        if self._live.empty:
            return Content(f"{balls} The feeds of this round are drawn again.")
        return Content(f"{balls} A new round begins; the balls of this one stay.")


def _next(items: Sequence[T], item: T, by: int) -> T:
    """The item that many places on; after the last comes the first."""
    return items[(items.index(item) + by) % len(items)]
