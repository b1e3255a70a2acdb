"""One round laid out ball by ball, to put any of them right."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TypeVar

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.screen import Screen
from textual.widgets import Static

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.on_court.feeding import CleanBall, Rate, ToughOpen
from courtlog.courtside.commands.rounds import drill_choices
from courtlog.courtside.desk.amend_desk import AmendDesk
from courtlog.courtside.desk.keymap import key_name, meaning_of
from courtlog.courtside.desk.step_sentences import ball_words
from courtlog.courtside.dialogs.own_keys import OwnKeys, moved
from courtlog.courtside.dialogs.own_screen import OwnDialog
from courtlog.courtside.dialogs.questions import Ask, Choice, Pick
from courtlog.courtside.surface.lines import foot
from courtlog.errors import CourtlogError
from courtlog.plain_text import plain

T = TypeVar("T")

WIDTH = 72
"""Columns for the balls."""

FOOT = (
    ("pad keys, t", "rate anew"),
    ("Enter", "write it"),
    ("Delete", "strike out"),
    ("Tab", "more"),
    ("Backspace", "take back"),
    ("Esc", "done"),
)


class AmendScreen(OwnKeys[str | None], OwnDialog[str | None]):
    """Arrows choose a ball; gives back what was done last, in words."""

    def __init__(self, desk: AmendDesk, round_id: int) -> None:
        super().__init__()
        self._desk = desk
        self._live = desk.round(round_id)
        self._at = len(self._balls)
        self._said = ""

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
        self._show()

    def take_key(self, event: Key) -> None:
        name = key_name(event.key, event.character)
        steps = {"left": -1, "right": 1, "up": -self._a_row, "down": self._a_row}
        to = moved(name, self._at - 1, len(self._balls), steps)
        if name == "escape":
            self.dismiss(self._said or "Nothing was changed.")
        elif to is not None:
            self._at = to + 1
            self._show()
        elif name == "enter":
            title = f"Ball {self._at} as a sheet writes it, like 2-0! (- not seen, ! tough)"
            self._ask(
                Ask(title, self._ball.token(), 12),
                lambda text: self._desk.write_ball(self._live, self._at, text),
            )
        elif name == "delete":
            self._do(lambda: self._desk.strike(self._live, self._at))
        elif name == "backspace":
            self._do(lambda: self._desk.take_back_last(self._live))
        elif name == "tab":
            self._more()
        else:
            after = self._rated(name)
            if after is not None:
                self._do(lambda: self._desk.amend(self._live, self._at, after))

    @property
    def _balls(self) -> Sequence[Ball]:
        return self._live.feeding.taken

    @property
    def _ball(self) -> Ball:
        return self._balls[self._at - 1]

    @property
    def _a_row(self) -> int:
        """Balls in a row."""
        return WIDTH // self._cell

    @property
    def _cell(self) -> int:
        return len(self._live.cue_keys) + 7

    def _rated(self, name: str) -> Ball | None:
        """The ball after a pad key; the grade it has already means: not seen after all."""
        match meaning_of(self._desk.desk.view.pad, len(self._live.cue_keys), name):
            case Rate(row, grade):
                same = self._ball.grades[row] is grade
                return self._ball.with_grade(row, None if same else grade)
            case CleanBall():
                return self._ball.with_rest(Grade.MADE)
            case ToughOpen():
                return replace(self._ball, tough=not self._ball.tough)
        return None

    def _more(self) -> None:
        """What can be done besides rating the ball anew."""
        live, at, desk = self._live, self._at, self._desk
        here, last = f"ball {at}", len(self._balls)
        actions: list[Choice[Callable[[], None]]] = [
            Choice(lambda: self._give([at]), f"{here} was another player's"),
            Choice(
                lambda: self._give(range(at, last + 1)),
                f"{here} and all after it were another player's",
            ),
        ]
        if at > 1:
            actions.append(
                Choice(
                    lambda: self._do(lambda: desk.split(live, at)),
                    f"split: a round of its own begins with {here}",
                )
            )
        actions += [
            Choice(lambda: self._drill(), "the round was another drill of this stroke"),
            Choice(lambda: self._purpose(), "the round was for something else"),
        ]
        actions += [
            Choice(
                lambda other=other: self._do(lambda: desk.join(live, other)),  # type: ignore[misc]
                f"join with: {words}",
            )
            for other, words in desk.like(live)
        ]
        self._ask(Pick("Put right", actions), lambda action: action())

    def _give(self, numbers: Sequence[int]) -> None:
        live = self._live
        others = [p for p in self._desk.desk.view.roster if p.id != live.player.id]
        self._ask(
            Pick("Whose was it?", [Choice(player, player.shown_name) for player in others]),
            lambda player: self._desk.give(live, numbers, player),
        )

    def _drill(self) -> None:
        ladder = self._desk.desk.library.ladder(self._live.drill.stroke)
        self._ask(
            Pick("Which drill was it?", drill_choices([ladder])),
            lambda chosen: self._desk.drill(self._live, chosen),
        )

    def _purpose(self) -> None:
        choices = [Choice(purpose, f"{purpose}: {purpose.meaning}") for purpose in Purpose]
        self._ask(
            Pick("What was the round for?", choices, list(Purpose).index(self._live.purpose)),
            lambda purpose: self._desk.purpose(self._live, purpose),
        )

    def _ask(self, dialog: Pick[T] | Screen[T | None], then: Callable[[T], str | None]) -> None:
        def answered(answer: T | None) -> None:
            if answer is not None:
                self._do(lambda: then(answer))

        self.app.push_screen(dialog, answered)

    def _do(self, action: Callable[[], str | None]) -> None:
        """A action, or why it cannot be done; then the round as the book has it."""
        try:
            with self._desk.desk.book.told():
                self._said = action() or self._said
                self._live = self._desk.round(self._live.id)
        except CourtlogError as error:
            self._said = str(error)
        if not self._balls:
            self.dismiss(self._said)
            return
        self._at = min(self._at, len(self._balls))
        self._show()

    def _show(self) -> None:
        live = self._live
        cues = ", ".join(cue.name for cue in live.cues)
        self.query_one("#whose", Static).update(
            Content(
                plain(
                    f"{live.player.shown_name} · {live.drill.drill.name} · {live.purpose} ({cues})"
                )
            )
        )
        rows = [
            Content("").join(self._token(number) for number in range(first, first + self._a_row))
            for first in range(1, len(self._balls) + 1, self._a_row)
        ]
        self.query_one("#tokens", Static).update(Content("\n").join(rows))
        words = plain(ball_words(live, self._ball))
        self.query_one("#ball-words", Static).update(Content(f"Ball {self._at}: {words}."))
        self.query_one("#amended", Static).update(Content(plain(self._said)))
        self.query_one(VerticalScroll).scroll_to(
            y=max(0, (self._at - 1) // self._a_row - 3), animate=False
        )

    def _token(self, number: int) -> Content:
        if number > len(self._balls):
            return Content("")
        token = f"{self._balls[number - 1].token():<{len(self._live.cue_keys) + 1}}"
        style = "bold reverse" if number == self._at else ""
        return Content.assemble(f"{number:>4} ", (token, style), " ")
