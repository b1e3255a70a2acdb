"""Lines to fill in, one under the other: Enter goes on, and from the last one it is done."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.events import DescendantFocus, Key
from textual.message import Message
from textual.visual import VisualType
from textual.widget import Widget
from textual.widgets import Input, Static

from courtlog.courtside.dialogs.own_screen import TextLine
from courtlog.plain_text import plain


@dataclass(frozen=True, slots=True)
class FormLine:
    """What is asked, words that help, and what stands there; choices are (value, words)."""

    key: str
    title: str
    hint: str = ""
    value: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    most: int = 200


class Chooser(Widget, can_focus=True):
    """One of a few values: the arrows to left and right change it."""

    def __init__(self, line: FormLine) -> None:
        super().__init__(id=line.key)
        self._choices = line.choices
        values = [value for value, _ in line.choices]
        self._index = values.index(line.value) if line.value in values else 0

    @property
    def value(self) -> str:
        """What is chosen."""
        return self._choices[self._index][0]

    def render(self) -> VisualType:
        return Content(f"‹ {plain(self._choices[self._index][1])} ›")

    def on_key(self, event: Key) -> None:
        if event.key in ("left", "right"):
            self._index = (self._index + (1 if event.key == "right" else -1)) % len(self._choices)
            self.refresh()
            event.stop()


class LineForm(Vertical):
    """Asks its lines and posts the answers; a caution keeps the coach on its line."""

    # With priority they are carried out before the next key is given to any line. So a fast hand
    # never writes the players behind the clinic's name.
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "go_on", priority=True),
        Binding("up", "move(-1)", priority=True),
        Binding("down", "move(1)", priority=True),
    ]

    class Done(Message):
        """All lines were answered; holds those whose words changed, as they stand."""

        def __init__(self, values: dict[str, str]) -> None:
            super().__init__()
            self.values = values

    def __init__(
        self,
        lines: Sequence[FormLine],
        caution: str = "",
        mistake_of: Callable[[str, str], str] = lambda key, value: "",
        proposes: bool = False,
    ) -> None:
        """`mistake_of` says what is wrong with a line: Enter stays there until nothing is.

        `proposes`: what stands in the lines is a proposal, written over by the first key.
        """
        super().__init__()
        self._proposes = proposes and not caution
        self._leaves_with: list[str] | None = None
        """What stands in the lines where Escape leaves without asking."""
        self._lines = lines
        self._caution = caution
        self._mistake_of = mistake_of

    def compose(self) -> ComposeResult:
        with VerticalScroll(classes="lines", can_focus=False):
            for line in self._lines:
                with Horizontal(classes="line"):
                    yield Static(Content(line.title), classes="title")
                    if line.choices:
                        yield Chooser(line)
                    else:
                        yield TextLine(
                            plain(line.value),
                            id=line.key,
                            max_length=line.most,
                            compact=True,
                            select_on_focus=self._proposes,
                        )
        yield Static("", id="hint")
        yield Static(Content(plain(self._caution)), id="caution")

    def on_mount(self) -> None:
        if not self._caution:
            self._leaves_with = [self._value(line.key) for line in self._lines]

    def point_to(self, key: str, caution: str) -> None:
        """Say what is wrong with a line, and go there."""
        self.query_one("#caution", Static).update(Content(plain(caution)))
        self.query_one(f"#{key}").focus()

    def may_leave(self) -> bool:
        """Whether Escape may leave: what was typed is only left by a second Escape behind it."""
        values = [self._value(line.key) for line in self._lines]
        if values == self._leaves_with:
            return True
        self._leaves_with = values
        words = "Escape again leaves without keeping what was typed."
        self.query_one("#caution", Static).update(Content(words))
        return False

    def finish(self) -> None:
        """Post the texts of all lines, whichever line the coach is on."""
        values = {line.key: self._value(line.key) for line in self._lines}
        self.post_message(
            self.Done(
                {
                    line.key: values[line.key]
                    for line in self._lines
                    if line.choices or values[line.key] != plain(line.value)
                }
            )
        )

    def on_input_changed(self, event: Input.Changed) -> None:
        """Go on writing where the coach comes back: only what was proposed is written over."""
        proposed = next(line.value for line in self._lines if line.key == event.input.id)
        if event.value != plain(proposed):
            event.input.select_on_focus = False

    def on_descendant_focus(self, event: DescendantFocus) -> None:
        line = next((line for line in self._lines if line.key == event.widget.id), None)
        if line is not None:
            arrows = "← → change it. " if line.choices else ""
            self.query_one("#hint", Static).update(Content(arrows + line.hint))

    def action_go_on(self) -> None:
        """Go to the next line; from the last one finish, once what was typed there has arrived."""
        index = self._line_in_hand()
        if index is not None:
            key = self._lines[index].key
            mistake = self._mistake_of(key, self._value(key))
            self.query_one("#caution", Static).update(Content(plain(mistake)))
            if mistake:
                return
        if index is not None and index + 1 == len(self._lines) and self.app.focused:
            self.app.focused.call_later(self.finish)
        else:
            self.action_move(1)

    def action_move(self, by: int) -> None:
        """Go to the line that many further down."""
        index = self._line_in_hand()
        if index is not None:
            to = min(max(index + by, 0), len(self._lines) - 1)
            self.screen.set_focus(self.query_one(f"#{self._lines[to].key}"))

    def _line_in_hand(self) -> int | None:
        """The place of the line that has the cursor."""
        focused = self.app.focused
        keys = [line.key for line in self._lines]
        return keys.index(focused.id) if focused and focused.id in keys else None

    def _value(self, key: str) -> str:
        widget = self.query_one(f"#{key}")
        assert isinstance(widget, Input | Chooser)
        return widget.value
