"""The questions the court screen asks: lists, a line of text, a yes or no."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar, Generic, TypeVar

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from courtlog.coaching.game.drills import Drill, Ladder
from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.desk.keymap import key_name, shown_key
from courtlog.courtside.dialogs.own_screen import STEPS, OwnDialog, TextLine
from courtlog.names import folded_name
from courtlog.plain_text import plain

T = TypeVar("T")

DIGITS = "123456789"
"""Keys of the first lines of a list."""


_SIDES = 4
"""Columns of a list's box beside its words."""


@dataclass(frozen=True, slots=True)
class Choice(Generic[T]):
    """One line of a list: what it stands for, and the words shown and searched."""

    value: T
    words: str
    key: str = ""
    """The key that takes it."""


def matching_choices(choices: Sequence[Choice[T]], typed: str) -> list[Choice[T]]:
    """Choices whose words hold every typed word, whatever the case; the whole phrase first."""
    phrase = folded_name(typed)
    matching = [c for c in choices if all(word in folded_name(c.words) for word in phrase.split())]
    return sorted(matching, key=lambda c: phrase not in folded_name(c.words))


class PickList(OwnDialog[T | None]):
    """Choose one: by the key of its line, or by arrows and Enter; type to narrow, Escape leaves.

    The keys of the lines hold until a word is typed. Space begins a word with one of them.
    """

    OTHER_ROWS: ClassVar[int] = 4
    """Rows of its box beside title and choices: the frame, a blank one, the line typed in."""

    def __init__(
        self,
        title: str,
        choices: Sequence[Choice[T]],
        index: int | None = 0,
        hint: str = "",
        digits: bool = True,
    ) -> None:
        """`index` is the line that Enter takes at first; None for no line.

        `digits` gives the first nine lines a digit each, unless they have keys of their own.
        """
        super().__init__()
        keyed = any(choice.key for choice in choices)
        self._choices = with_digits(choices) if digits and not keyed else list(choices)
        self._shown: Sequence[Choice[T]] = self._choices
        self._index = index
        self._searches = False
        last = min(len(self._choices), len(DIGITS))
        takes = f"{'1' if last < 2 else f'1-{last}'} or Enter" if digits else "Enter"
        hint = hint or f"{takes} takes, type to narrow"
        mark = "" if title.endswith("?") else ":"
        self._title = f"{title}{mark} {hint}, Escape leaves"

    @property
    def columns(self) -> int:
        """Columns that the words in the box have."""
        return max(self.size.width - _SIDES, 1)

    @property
    def title_words(self) -> str:
        """What stands above the line to type in."""
        return self._title

    def compose(self) -> ComposeResult:
        with Vertical(classes="box"):
            yield Static(Content(self.title_words), id="title")
            yield _SearchLine(self.take_at_once)
            yield Static(Content("nothing fits"), id="none")
            yield OptionList(compact=True)

    def on_mount(self) -> None:
        self.query_one(OptionList).can_focus = False
        self._fill(self._index)

    def on_resize(self) -> None:
        title = sum(-(-len(line) // self.columns) for line in self.title_words.splitlines())
        rows = self.size.height - self.OTHER_ROWS - title
        self.query_one(OptionList).styles.max_height = max(rows, 1)

    def on_input_changed(self, event: Input.Changed) -> None:
        # Blanks are no word: Enter behind them would take the first line of all.
        word = event.value if folded_name(event.value) else ""
        self._shown = self.fitting(word) if word else self.before_a_word()
        self._fill(0 if word else self._index)

    def on_input_submitted(self) -> None:
        index = self.highlighted
        if index is not None and index < len(self._shown):
            self.take(self._shown[index].value)
        elif self._shown:
            self.nothing_chosen()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        self.take(self._shown[event.option_index].value)

    def take(self, value: T) -> None:
        """Do what the line of this value stands for: here it is the answer."""
        self.dismiss(value)

    def fitting(self, typed: str) -> Sequence[Choice[T]]:
        """The lines shown for what is typed."""
        return matching_choices(self._choices, typed)

    def line_of(self, choice: Choice[T]) -> Content:
        """A line as it is shown, without its key."""
        return Content(plain(choice.words))

    def before_a_word(self) -> Sequence[Choice[T]]:
        """The lines shown before a word is typed."""
        return self._choices

    def nothing_chosen(self) -> None:
        """What Enter does while it takes no line."""
        how = "type a word, or choose one with ↓" if self._searches else "press the key of one"
        self.say(f"No line is chosen yet: {how}.")

    @property
    def highlighted(self) -> int | None:
        """The place of the line that Enter takes."""
        return self.query_one(OptionList).highlighted

    def take_key(self, event: Key) -> bool:
        if event.key == "escape":
            self.dismiss(None)
        elif event.key in STEPS and self._shown:
            options = self.query_one(OptionList)
            index = (-1 if self.highlighted is None else self.highlighted) + STEPS[event.key]
            options.highlighted = min(max(index, 0), len(self._shown) - 1)
        else:
            return False
        return True

    def take_at_once(self, name: str) -> bool:
        """Take the line of this key, or begin a search; whether the key is no part of a word."""
        if self._searches:
            return False
        if name == "space":
            self._searches = True
            self._shown = self.before_a_word()
            self._fill(self._index)
            return True
        choice = next((choice for choice in self.before_a_word() if choice.key == name), None)
        if choice is not None:
            self.take(choice.value)
        return choice is not None

    def _fill(self, index: int | None) -> None:
        options = self.query_one(OptionList)
        options.clear_options()
        typing = self._searches or bool(self.query_one(_SearchLine).value)
        keys = [shown_key(choice.key) for choice in self._shown]
        width = 0 if typing else max(map(len, keys), default=0)
        options.add_options(
            [
                Option(
                    Content.assemble(
                        (f"{key:<{width}} " if width else "", "bold"),
                        self.line_of(choice),
                    )
                )
                for key, choice in zip(keys, self._shown, strict=True)
            ]
        )
        chosen = index is not None and bool(self._shown)
        options.highlighted = min(index or 0, len(self._shown) - 1) if chosen else None
        self.query_one("#none", Static).display = not self._shown


class _SearchLine(TextLine):
    """The line of a list that words are typed in; the list is asked first about every key."""

    def __init__(self, take_at_once: Callable[[str], bool]) -> None:
        super().__init__(compact=True)
        self._take_at_once = take_at_once

    async def on_key(self, event: Key) -> None:
        if not self.value and self._take_at_once(key_name(event.key, event.character)):
            event.stop()
            event.prevent_default()


def with_digits(choices: Sequence[Choice[T]]) -> list[Choice[T]]:
    """The choices, the first nine with a digit as key."""
    digits = DIGITS + " " * len(choices)
    return [
        replace(choice, key=digit.strip()) for choice, digit in zip(choices, digits, strict=False)
    ]


class TextQuestion(OwnDialog[str | None]):
    """One line of text; Enter keeps it, Escape leaves."""

    def __init__(self, title: str, value: str = "", most: int = 500) -> None:
        super().__init__()
        self._title = title
        self._value = value
        self._most = most
        self._caution = ""

    def again(self, text: str, why: str) -> TextQuestion:
        """The same question with the text that could not be kept, and why it could not."""
        other = TextQuestion(self._title, text, self._most)
        other._caution = f"Not stored: {why} Enter tries again, Escape leaves."
        return other

    def compose(self) -> ComposeResult:
        with Vertical(classes="box short"):
            yield Static(Content(plain(self._title)))
            yield TextLine(self._value, max_length=self._most, compact=True)
            if self._caution:
                yield Static(Content(plain(self._caution)), id="caution")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        self.dismiss(event.value)


class YesNoQuestion(OwnDialog[bool | None]):
    """A question with two answers: Enter and Escape; `key` is another one than Enter for yes.

    Its words may be several lines.
    """

    def __init__(
        self,
        words: str | Sequence[str],
        enter: str,
        escape: str,
        key: tuple[str, str] = ("enter", "Enter"),
    ) -> None:
        super().__init__()
        self._lines = [words] if isinstance(words, str) else words
        self._enter, self._escape = enter, escape
        self._key, self._key_shown = key

    def compose(self) -> ComposeResult:
        with Vertical(classes="box short"):
            yield Static(Content("\n".join(map(plain, self._lines))))
            yield Static(
                Content.assemble(
                    (self._key_shown, "bold"),
                    f" {self._enter}   ",
                    ("Escape", "bold"),
                    f" {self._escape}",
                )
            )

    def take_key(self, event: Key) -> bool:
        if event.key not in (self._key, "escape"):
            return False
        self.dismiss(event.key == self._key)
        return True


def drill_choices(ladders: Sequence[Ladder]) -> list[Choice[tuple[Ladder, Drill]]]:
    """Every drill of these ladders, by stroke and rung."""
    return [
        Choice((ladder, drill), f"{ladder.title} {drill.rung}/{ladder.top}  {drill.name}")
        for ladder in ladders
        for drill in ladder.in_rung_order()
    ]


def purpose_choices() -> list[Choice[Purpose]]:
    """Every purpose of a round, and what it means."""
    return [Choice(purpose, f"{purpose}: {purpose.meaning}") for purpose in Purpose]
