"""A form: several answers on one screen. Up and down move, Enter keeps it all, Escape leaves."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog.courtside.dialogs.own_screen import OwnDialog, TextLine
from courtlog.plain_text import plain

Answers = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class TextField:
    """A line of text; left and right go through its usual words until others are written."""

    key: str
    label: str
    value: str = ""
    hint: str = ""
    most: int = 500
    usual: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ChoiceField:
    """One of several, with left and right or its first letter; the answer is its place from 0."""

    key: str
    label: str
    choices: tuple[str, ...]
    index: int = 0
    hint: str = ""


@dataclass(frozen=True, slots=True)
class TickField:
    """Yes or no, with Space; the answer is `x` or nothing."""

    key: str
    label: str
    hint: str = ""


Field = TextField | ChoiceField | TickField


class _TextControl(TextLine):
    def __init__(self, field: TextField) -> None:
        super().__init__(field.value, max_length=field.most, compact=True, id=field.key)
        self._usual = ("", *field.usual)

    @property
    def answer(self) -> str:
        return self.value.strip()

    def action_cursor_left(self, select: bool = False) -> None:
        if not self._go(-1):
            super().action_cursor_left(select)

    def action_cursor_right(self, select: bool = False) -> None:
        if not self._go(1):
            super().action_cursor_right(select)

    def _go(self, by: int) -> bool:
        if len(self._usual) == 1 or self.value not in self._usual:
            return False
        index = (self._usual.index(self.value) + by) % len(self._usual)
        self.value = self._usual[index]
        self.cursor_position = len(self.value)
        return True


class _Line(Static, can_focus=True):
    """A line whose keys change its answer."""

    def on_key(self, event: Key) -> None:
        if self.takes(event.key, event.character or ""):
            event.stop()
            event.prevent_default()

    def takes(self, key: str, character: str) -> bool:
        """Whether the key meant something here; the answer has changed then."""
        raise NotImplementedError


class _ChoiceControl(_Line):
    def __init__(self, field: ChoiceField) -> None:
        super().__init__(id=field.key)
        self._choices, self._index = field.choices, field.index
        self._show()

    @property
    def answer(self) -> str:
        return str(self._index)

    def takes(self, key: str, character: str) -> bool:
        count = len(self._choices)
        if key in ("left", "right"):
            self._index = (self._index + (1 if key == "right" else -1)) % count
        elif character.strip() and character.isprintable():
            after = [(self._index + step) % count for step in range(1, count + 1)]
            begins = character.casefold()
            self._index = next(
                (index for index in after if self._choices[index].casefold().startswith(begins)),
                self._index,
            )
        else:
            return False
        self._show()
        return True

    def _show(self) -> None:
        self.update(Content(f"‹ {plain(self._choices[self._index])} ›"))


class _TickControl(_Line):
    def __init__(self, field: TickField) -> None:
        super().__init__(id=field.key)
        self.answer = ""
        self._show()

    def takes(self, key: str, character: str) -> bool:
        if key != "space":
            return False
        self.answer = "" if self.answer else "x"
        self._show()
        return True

    def _show(self) -> None:
        self.update(Content("[x] yes" if self.answer else "[ ]"))


class Form(OwnDialog[Answers | None]):
    """Asks for all its fields at once; `complaint` says what is wrong with them, or nothing.

    The hint of the line in hand stands under the form.
    """

    def __init__(
        self,
        title: str,
        fields: Sequence[Field],
        complaint: Callable[[Answers], str] = lambda answers: "",
        first: str | None = None,
    ) -> None:
        super().__init__()
        self._title = title
        self._fields = {field.key: field for field in fields}
        self._complaint = complaint
        self._first = first or next(iter(self._fields))
        self._controls = {field.key: _control(field) for field in fields}

    def compose(self) -> ComposeResult:
        with Vertical(classes="box form"):
            yield Static(Content(plain(self._title)))
            for key, field in self._fields.items():
                with Horizontal(classes="field"):
                    yield Static(Content(field.label), classes="label")
                    yield self._controls[key]
            yield Static("", id="hint")
            yield Static(
                Content.assemble(
                    ("↑ ↓", "bold"),
                    " move   ",
                    ("Enter", "bold"),
                    " keeps   ",
                    ("Escape", "bold"),
                    " leaves",
                )
            )

    def on_mount(self) -> None:
        self._controls[self._first].focus()

    def on_descendant_focus(self) -> None:
        held = self.focused
        if held is not None and held.id in self._fields:
            self.say(self._fields[held.id].hint)

    def on_input_submitted(self) -> None:
        self._keep()

    def take_key(self, event: Key) -> bool:
        if event.key == "escape":
            self.dismiss(None)
        elif event.key == "enter":
            self._keep()
        elif event.key == "down":
            self.focus_next()
        elif event.key == "up":
            self.focus_previous()
        else:
            return False
        return True

    def _keep(self) -> None:
        answers = {key: control.answer for key, control in self._controls.items()}
        mistake = self._complaint(answers)
        if mistake:
            self.say(mistake)
        else:
            self.dismiss(answers)

    def say(self, message: str) -> None:
        self.query_one("#hint", Static).update(Content(plain(message)))


def _control(field: Field) -> _TextControl | _ChoiceControl | _TickControl:
    if isinstance(field, TextField):
        return _TextControl(field)
    return _ChoiceControl(field) if isinstance(field, ChoiceField) else _TickControl(field)
