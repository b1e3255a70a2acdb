"""The court screen: a key in, the desk writes it, the parts that changed are repainted."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from typing import TypeVar, cast

from textual.app import ComposeResult
from textual.events import Key
from textual.reactive import reactive
from textual.screen import Screen

from courtlog.coaching.on_court.next_act import Act
from courtlog.courtside.app.ears import Ears
from courtlog.courtside.app.held_key import HeldKey
from courtlog.courtside.app.new_day import NewDay
from courtlog.courtside.app.take_over import TakeOver
from courtlog.courtside.commands.base import Command
from courtlog.courtside.commands.on_court import ask_about_red, put_on
from courtlog.courtside.commands.people import ChooseCues
from courtlog.courtside.commands.table import BEHIND_ESCAPE, BY_KEY, COMMANDS, FOOT
from courtlog.courtside.desk.book_sync import BookSync
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import key_name, meaning_of
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.dialogs.own_screen import OwnScreen, Refusal, refusal_words
from courtlog.courtside.dialogs.questions import TextQuestion
from courtlog.courtside.screens import blank
from courtlog.courtside.sound.sounds import Sound
from courtlog.courtside.surface.layout import CourtLayout
from courtlog.courtside.surface.surface import Surface
from courtlog.errors import BookError, HeldElsewhereError
from courtlog.settings import Settings

T = TypeVar("T")

NUMLOCK_OFF = "NumLock is off: switch it on. What arrows do stands behind Esc."

LEAVE = {"ctrl+q", "ctrl+z"}
"""Keys that are not asked about a new day."""

LOOK_AGAIN = 1.0
"""Seconds between two looks at the clock, and at what others wrote in the book."""


class CourtScreen(OwnScreen[None]):
    """Rates every ball with single keys; shows nothing that is not in the book."""

    AUTO_FOCUS = None
    BLANK = True
    STAYS = True
    TOPIC = None
    view: reactive[CourtView | None] = reactive(None, repaint=False)

    def __init__(self, desk: Desk, keep_settings: Callable[[Settings], None]) -> None:
        super().__init__()
        self.desk = desk
        self.state = desk.state
        self.commands: Sequence[type[Command]] = COMMANDS
        self._sync = BookSync(desk.state)
        self._take_over = TakeOver(self, self._sync)
        self._new_day = NewDay(self)
        self._held_key = HeldKey(self)
        self._is_in_book = False
        self._keep_settings = keep_settings
        self._ears = Ears(desk.state, lambda: self.app.bell())
        self.set_reactive(CourtScreen.view, desk.state.view)

    def compose(self) -> ComposeResult:
        yield Surface(CourtLayout(FOOT, BEHIND_ESCAPE))

    def on_mount(self) -> None:
        self._surface = self.query_one(Surface)
        self.look()
        self._surface.show(self.state.view)
        self.set_interval(LOOK_AGAIN, self._tick)
        if not self._take_over.ask_if_left():
            self._new_day.ask_if_later()

    def watch_view(self, view: CourtView) -> None:
        if self.is_mounted:
            self._surface.show(view)

    @contextmanager
    def in_book(self) -> Iterator[None]:
        """Where the book is read and written, after one look at what others wrote in it."""
        with self.state.book.reading():
            if self._is_in_book:
                yield
                return
            self._is_in_book = True
            try:
                self._sync.catch_up()
                yield
            finally:
                self._is_in_book = False

    def refuse(self, error: Refusal) -> None:
        """Say why something could not be done; what the book holds is shown then."""
        if isinstance(error, HeldElsewhereError):
            self._take_over.stand_by(error)
        elif isinstance(error, BookError):
            self._sync.recover_from(error)
        else:
            self.say(refusal_words(error))
            self.state.ring(Sound.REFUSED)

    def say(self, message: str) -> None:
        """Say why something could not be done."""
        self.state.refuse(message)

    def read(self) -> None:
        self.desk.read_next_act()
        self._sync.show_failure()

    def show(self) -> None:
        """Show what the state holds, and let it be heard."""
        self.view = self.state.view
        self._ears.listen()

    def on_unmount(self) -> None:
        self._ears.close()

    def take_key(self, event: Key) -> None:
        name = key_name(event.key, event.character)
        if self._held_key.is_held(name):
            return
        with self._waiting_shown():
            self.press(name)

    @contextmanager
    def _waiting_shown(self) -> Iterator[None]:
        """Where the storage is slow, say so before the key is stored and until it is.

        What the key before has changed is painted first, so that each key is seen by itself.
        """
        if not self.state.book.commits.slow:
            yield
            return
        self._surface.show(replace(self.state.view, writing=True))
        self._paint()
        yield
        self._surface.show(self.state.view)

    def _paint(self) -> None:
        """Send the terminal now what Textual would send with its next frame."""
        self._dirty_widgets.add(self._surface)
        self._on_timer_update()

    def press(self, name: str) -> None:
        """Act on a key by its name: a rating, a command, or nothing."""
        if name not in LEAVE and self.ask_for_new_day():
            return
        state, balls = self.state, self.desk.balls
        view = state.view
        cues = len(view.live.cue_keys) if view.live else 0
        main = view.live.main_row if view.live else 0
        meaning = meaning_of(view.pad, cues, name, main)
        if meaning is not None and not (name == "enter" and view.ended):
            if ask_about_red(self, name):
                return
            self.carry_out(lambda: balls.press(meaning))
        elif name == "enter" and view.next_act and view.next_act.does(Act.PICK_CUES_AFTER):
            self.run(ChooseCues())
        elif name == "enter":
            put_on(self, view.live.player if view.live else view.rotation.next_up)
        elif name in view.pad.unlocked:
            self.carry_out(lambda: state.turn_down(NUMLOCK_OFF))
        elif name in BY_KEY:
            self.run(BY_KEY[name]())
        elif name in ("ctrl+c", "ctrl+d"):
            self.carry_out(lambda: state.tell("Ctrl+Q leaves; everything is in the book already."))
        elif len(name) == 1:
            self.carry_out(lambda: balls.refuse_key(name))

    def run(self, command: Command) -> None:
        """Carry out a command, and show what came of it."""
        self.carry_out(lambda: command.run(self))

    def open(self, screen: Screen[T], then: Callable[[T | None], None] | None = None) -> None:
        """Put a screen over the court; where the court is blanked, once the coach is back."""
        blank.when_back(self.app, lambda: self.app.push_screen(screen, then))

    def ask(self, dialog: Screen[T | None], then: Callable[[T], object]) -> None:
        """Ask, and go on with the answer; no answer changes nothing.

        A text that the book could not take is offered again, so that it is not lost.
        """

        def answered(answer: T | None) -> None:
            if answer is None or self.carry_out(lambda: then(answer)):
                return
            if isinstance(dialog, TextQuestion) and isinstance(answer, str):
                again = dialog.again(answer, self.state.view.message)
                self.ask(cast("Screen[T | None]", again), then)

        self.open(dialog, answered)

    def keep(self, settings: Settings, message: str) -> None:
        """Use and keep these settings."""
        self.state.use(settings, message)
        self._keep_settings(settings)

    def ask_for_new_day(self) -> bool:
        """Ask whether a new day begins, if that is due; whether it was asked."""
        return self._new_day.ask_if_due()

    def _tick(self) -> None:
        with self._ears.by_the_clock():
            self.carry_out(self.desk.rotation.tick)
