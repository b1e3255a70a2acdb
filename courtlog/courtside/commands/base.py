"""A command of the court screen: its key, its words, what it does, and what it may ask for."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Sequence
from typing import Any, ClassVar, Protocol, TypeVar

from textual.app import App
from textual.screen import Screen

from courtlog.coaching.on_court.next_act import Act
from courtlog.courtside.desk.court_state import CourtState
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import shown_key
from courtlog.courtside.dialogs import paged_list
from courtlog.settings import Settings

T = TypeVar("T")

PLAIN_NAMES = ("tab", "backspace", "escape")
"""Keys with a name that every keyboard has under a finger."""


class Court(Protocol):
    """What a command may ask of the court screen."""

    desk: Desk
    state: CourtState

    @property
    def commands(self) -> Sequence[type[Command]]:
        """Every command there is."""

    @property
    def app(self) -> App[Any]:
        """The application that runs."""

    @property
    def on_top(self) -> bool:
        """Whether no other screen is over the court."""

    def carry_out(self, action: Callable[[], object]) -> bool:
        """Do something, or say why it cannot be done; whether it was done."""

    def look(self) -> None:
        """Show what the book holds now."""

    def run(self, command: Command) -> None:
        """Carry out a command."""

    def press(self, name: str) -> None:
        """Act on a key by its name."""

    def open(self, screen: Screen[T], then: Callable[[T | None], None] | None = None) -> None:
        """Put a screen over the court."""

    def ask(self, dialog: Screen[T | None], then: Callable[[T], object]) -> None:
        """Ask, and go on with the answer; no answer changes nothing."""

    def keep(self, settings: Settings, message: str) -> None:
        """Use and keep these settings."""

    def ask_for_new_day(self) -> bool:
        """Ask whether a new day begins, if that is due; whether it was asked."""


class Command(ABC):
    """A thing the coach can ask for. The docstring of each is its help, in one sentence."""

    keys: ClassVar[tuple[str, ...]]
    """The keys that ask for it, by the names of `desk.keymap`; none where only Esc leads to it."""
    shown: ClassVar[str] = ""
    """Its first key, as the screen writes it; empty where only Esc leads to it."""
    label: ClassVar[str]
    """Its words at the foot of the screen and in the list of commands."""
    few: ClassVar[str] = ""
    """Its words in fewer letters, for a narrow foot."""
    letter: ClassVar[str] = ""
    """Its key in the list of all commands, where that is another than its first one."""
    seldom: ClassVar[bool] = False
    """Whether it stands on the second page of that list: needed mornings, evenings or once."""
    in_foot: ClassVar[bool] = True
    """Whether the foot of the screen shows its first key."""
    after_escape: ClassVar[bool] = False
    """Whether the foot shows its key in the list of all commands, behind Esc."""
    act: ClassVar[Act | None] = None
    """What a sentence calls it, where one can tell the coach to do it."""

    @classmethod
    def list_key(cls) -> str:
        """Its plain key on its page of the list of all commands, whatever the pad."""
        return cls.letter or cls.keys[0]

    @classmethod
    def list_way(cls) -> tuple[str, ...]:
        """The plain keys that lead to it from the court over the list of all commands."""
        return ("escape", *([paged_list.TURN] if cls.seldom else []), cls.list_key())

    @classmethod
    def list_way_shown(cls) -> str:
        """The same as the screen writes them: `Esc c`, `Esc Enter 7`."""
        return " ".join(["Esc", *(shown_key(key) for key in cls.list_way()[1:])])

    @classmethod
    def plain_shown(cls) -> str:
        """The way to it without a function key or modifier, as the screen writes it."""
        is_plain = cls.keys and (len(cls.keys[0]) == 1 or cls.keys[0] in PLAIN_NAMES)
        return cls.shown if is_plain or not cls.letter else cls.list_way_shown()

    @classmethod
    def all_shown(cls) -> tuple[str, ...]:
        """Its first key and the way over Esc, as a reader writes them."""
        over_escape = cls.list_way_shown() if cls.letter else ""
        return tuple(filter(None, (cls.shown, over_escape)))

    @classmethod
    def help(cls) -> str:
        """What the command does, in one sentence."""
        return (cls.__doc__ or "").strip()

    @abstractmethod
    def run(self, court: Court) -> None:
        """Do it; dialogs go on in callbacks, so that the next key already belongs to them."""
