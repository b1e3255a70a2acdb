"""One round laid out ball by ball, to put any of them right."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from dataclasses import replace
from functools import partial

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.on_court.feeding import CleanBall, Fault, Rate, ToughOpen
from courtlog.courtside.desk.amend_desk import AmendDesk
from courtlog.courtside.desk.keymap import key_name, meaning_of
from courtlog.courtside.desk.step_sentences import ball_words
from courtlog.courtside.dialogs.own_screen import OwnDialog, next_index
from courtlog.courtside.dialogs.questions import (
    Choice,
    PickList,
    TextQuestion,
    drill_choices,
    purpose_choices,
)
from courtlog.courtside.surface.lettering import foot
from courtlog.logbook.reads.past_rounds import PastRound
from courtlog.plain_text import plain

FOOT = (
    ("pad keys, t", "rate again"),
    ("Enter", "write it"),
    ("Delete", "strike out"),
    ("Tab", "more"),
    ("Backspace", "take back"),
    ("Esc", "done"),
)


class AmendScreen(OwnDialog[str | None]):
    """Arrows choose a ball; gives back what was done last, in words."""

    TOPIC = "data"

    def __init__(self, desk: AmendDesk, round_id: int) -> None:
        super().__init__()
        self._desk = desk
        self._live = desk.round(round_id)
        self._number = len(self._balls)
        self._message = ""

    def compose(self) -> ComposeResult:
        with Vertical(classes="box"):
            yield Static(id="whose")
            with VerticalScroll(id="balls"):
                yield Static(id="tokens")
            yield Static(id="ball-words")
            yield Static(id="amended")
            yield Static(foot(FOOT))

    def on_mount(self) -> None:
        self.query_one(VerticalScroll).can_focus = False

    def on_resize(self) -> None:
        self.show()

    def in_book(self) -> AbstractContextManager[None]:
        return self._desk.state.book.reading()

    def take_key(self, event: Key) -> None:
        name = key_name(event.key, event.character)
        steps = {"left": -1, "right": 1, "up": -self._balls_in_row, "down": self._balls_in_row}
        to = next_index(name, self._number - 1, len(self._balls), steps)
        if name == "escape":
            self.dismiss(self._message or "Nothing was changed.")
        elif to is not None:
            self._number = to + 1
        elif name == "enter":
            title = f"Ball {self._number} as a sheet writes it, like 2-0! (- not seen, ! tough)"
            self.ask(
                TextQuestion(title, self._ball.token(), 12),
                lambda text: self._done(self._desk.write_ball(self._live, self._number, text)),
            )
        elif name == "delete":
            self._done(self._desk.strike(self._live, self._number))
        elif name == "backspace":
            self._done(self._desk.take_back_last(self._live))
        elif name == "tab":
            self._more()
        else:
            after = self._rated(name)
            if after is not None:
                self._done(self._desk.amend(self._live, self._number, after))

    @property
    def _balls(self) -> Sequence[Ball]:
        return self._live.feeding.taken

    @property
    def _ball(self) -> Ball:
        return self._balls[self._number - 1]

    @property
    def _balls_in_row(self) -> int:
        """Balls in a row."""
        return max(self.query_one(VerticalScroll).size.width // self._cell, 1)

    @property
    def _cell(self) -> int:
        return len(self._live.cue_keys) + 7

    def _rated(self, name: str) -> Ball | None:
        """The ball after a pad key; the grade it has already means: not seen after all."""
        live = self._live
        match meaning_of(self._desk.state.view.pad, len(live.cue_keys), name, live.main_row):
            case Rate(row, grade):
                same = self._ball.grades[row] is grade
                return self._ball.with_grade(row, None if same else grade)
            case CleanBall():
                return self._ball.with_rest(Grade.MADE)
            case Fault(row):
                return self._ball.with_fault(row)
            case ToughOpen():
                return replace(self._ball, tough=not self._ball.tough)
        return None

    def _more(self) -> None:
        """Offer what can be done besides rating the ball again."""
        live, number, desk = self._live, self._number, self._desk
        here, last = f"ball {number}", len(self._balls)
        actions: list[Choice[Callable[[], None]]] = [
            Choice(lambda: self._give([number]), f"{here} was another player's"),
            Choice(
                lambda: self._give(range(number, last + 1)),
                f"{here} and all after it were another player's",
            ),
        ]
        if number > 1:
            actions.append(
                Choice(
                    lambda: self._done(desk.split(live, number)),
                    f"split: a round of its own begins with {here}",
                )
            )
        actions += [
            Choice(self._change_drill, "the round was another drill of this stroke"),
            Choice(self._change_purpose, "the round was for something else"),
        ]
        actions += [
            Choice(partial(self._join, other), f"join with: {words}")
            for other, words in desk.joinable(live)
        ]
        self.ask(PickList("Put right", actions), lambda action: action())

    def _give(self, numbers: Sequence[int]) -> None:
        live = self._live
        others = [p for p in self._desk.state.view.court_first if p.id != live.player.id]
        self.ask(
            PickList("Whose was it?", [Choice(player, player.shown_name) for player in others]),
            lambda player: self._done(self._desk.give(live, numbers, player)),
        )

    def _join(self, other: PastRound) -> None:
        self._done(self._desk.join(self._live, other))

    def _change_drill(self) -> None:
        used = self._live.drill
        choices = drill_choices([self._desk.state.library.ladder(used.stroke)])
        keys = [choice.value[1].key for choice in choices]
        # The file of a drill may have gone since.
        index = keys.index(used.drill.key) if used.drill.key in keys else 0
        self.ask(
            PickList("Which drill was it?", choices, index),
            lambda drill: self._done(self._desk.change_drill(self._live, drill)),
        )

    def _change_purpose(self) -> None:
        index = list(Purpose).index(self._live.purpose)
        self.ask(
            PickList("What was the round for?", purpose_choices(), index),
            lambda purpose: self._done(self._desk.change_purpose(self._live, purpose)),
        )

    def _done(self, message: str) -> None:
        """Show the round as the book has it now, and what was done."""
        self._message = message
        self._live = self._desk.round(self._live.id)

    def say(self, message: str) -> None:
        self._message = message

    def show(self) -> None:
        if not self._balls:
            self.dismiss(self._message)
            return
        self._number = min(self._number, len(self._balls))
        live = self._live
        cues = ", ".join(cue.name for cue in live.cues)
        name = live.player.shown_name
        self.query_one("#whose", Static).update(
            Content(plain(f"{name} · {live.drill.drill.name} · {live.purpose} ({cues})"))
        )
        rows = [
            Content("").join(
                self._token(number) for number in range(first, first + self._balls_in_row)
            )
            for first in range(1, len(self._balls) + 1, self._balls_in_row)
        ]
        self.query_one("#tokens", Static).update(Content("\n").join(rows))
        words = plain(ball_words(live, self._ball))
        self.query_one("#ball-words", Static).update(Content(f"Ball {self._number}: {words}."))
        self.query_one("#amended", Static).update(Content(plain(self._message)))
        self.query_one(VerticalScroll).scroll_to(
            y=max(0, (self._number - 1) // self._balls_in_row - 3), animate=False
        )

    def _token(self, number: int) -> Content:
        if number > len(self._balls):
            return Content("")
        token = f"{self._balls[number - 1].token():<{len(self._live.cue_keys) + 1}}"
        style = "bold reverse" if number == self._number else ""
        return Content.assemble(f"{number:>4} ", (token, style), " ")
