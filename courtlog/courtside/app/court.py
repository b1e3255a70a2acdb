"""The court screen: a key in, the desk writes it, the parts that changed are repainted."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from typing import TypeVar, cast

from textual.app import ComposeResult
from textual.events import Key
from textual.message import Message
from textual.reactive import reactive
from textual.screen import Screen

from courtlog import times
from courtlog.coaching.care.arm_care import BEFORE_COURT
from courtlog.coaching.game.drills import Drill, Ladder
from courtlog.coaching.game.people import Player
from courtlog.courtside.commands import BY_KEY, FOOT
from courtlog.courtside.commands.base import Command
from courtlog.courtside.commands.rounds import drill_choices
from courtlog.courtside.desk.book_sync import Abreast
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import key_name, meaning_of
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.dialogs.own_keys import OwnKeys
from courtlog.courtside.dialogs.questions import Ask, Decide, Pick
from courtlog.courtside.screens import blank
from courtlog.courtside.surface.layout import CourtLayout
from courtlog.courtside.surface.surface import Surface
from courtlog.errors import BookError, CourtlogError, HeldElsewhereError
from courtlog.logbook.file.writer_lock import Holder
from courtlog.settings import Settings, changed

T = TypeVar("T")

NUMLOCK_OFF = {"home", "right", "end", "pageup", "pagedown", "insert", "delete"}
"""What the number pad sends while NumLock is off."""

LEAVE = {"ctrl+q", "ctrl+z"}
"""Keys that are not asked about a new day."""

LOOK_AGAIN = 1.0
"""Seconds between two looks at the clock, and at what others wrote in the book."""


class DayBegun(Message):
    """A new day of the clinic was begun."""


class CourtScreen(OwnKeys[None]):
    """Rates every ball with single keys; shows nothing that is not in the book."""

    AUTO_FOCUS = None
    BLANK = True
    STAYS = True
    view: reactive[CourtView | None] = reactive(None, repaint=False)

    def __init__(self, desk: Desk, keep_settings: Callable[[Settings], None]) -> None:
        super().__init__()
        self.desk = desk
        self._abreast = Abreast(desk)
        self._keep_settings = keep_settings
        self._day_refused: date | None = None
        self._rung = desk.rings
        self.set_reactive(CourtScreen.view, desk.view)

    def compose(self) -> ComposeResult:
        yield Surface(CourtLayout(FOOT))

    def on_mount(self) -> None:
        self._surface = self.query_one(Surface)
        self._surface.show(self.desk.view)
        self.set_interval(LOOK_AGAIN, self._tick)
        claim = self.desk.book.claim
        if claim is not None and claim.left is not None:
            self._offer_to_take_over(claim.left)
        elif self.desk.today() > self.desk.view.day.date and not self.desk.book.read_only:
            self._offer_new_day(self.desk.today())

    def watch_view(self, view: CourtView) -> None:
        if self.is_mounted:
            self._surface.show(view)

    def take_key(self, event: Key) -> None:
        with self._waiting_shown():
            self._take(key_name(event.key, event.character))

    @contextmanager
    def _waiting_shown(self) -> Iterator[None]:
        """Where the storage is slow, say so before the key is stored and until it is.

        What the key before has changed is painted first, so that each key is seen by itself.
        """
        if not self.desk.book.commits.slow:
            yield
            return
        self._surface.show(replace(self.desk.view, writing=True))
        self._paint()
        yield
        self._surface.show(self.desk.view)

    def _paint(self) -> None:
        """Send the terminal now what Textual would send with its next frame."""
        self._dirty_widgets.add(self._surface)
        self._on_timer_update()

    def _take(self, name: str) -> None:
        """A key by its name: a rating, a command, or nothing."""
        if name not in LEAVE and self._asks_for_a_new_day():
            return
        view = self.desk.view
        cues = len(view.live.cue_keys) if view.live else 0
        meaning = meaning_of(view.pad, cues, name)
        if meaning is not None and not (name == "enter" and view.ended):
            self._do(lambda: self.desk.press(meaning))
        elif name == "enter":
            self.put_on(view.live.player if view.live else view.rotation.next_up)
        elif name in BY_KEY:
            self.run(BY_KEY[name]())
        elif name in NUMLOCK_OFF and view.pad.key == "numbers":
            self._do(lambda: self.desk.tell("The number pad sends arrows: switch NumLock on."))
        elif name in ("ctrl+c", "ctrl+d"):
            self._do(lambda: self.desk.tell("Ctrl+Q leaves; everything is in the book already."))
        elif len(name) == 1:
            self._do(lambda: self.desk.wrong_key(name))

    def say(self, words: str) -> None:
        """Say something that came about beside the keys."""
        self._do(lambda: self.desk.tell(words))

    def run(self, command: Command) -> None:
        """Carry out a command, and show what came of it."""
        self._do(lambda: command.run(self))

    def open(self, screen: Screen[T], then: Callable[[T | None], None] | None = None) -> None:
        """A screen over the court; where the court is blanked, not before the coach is back."""
        blank.when_back(self.app, lambda: self.app.push_screen(screen, then))

    def ask(self, dialog: Pick[T] | Screen[T | None], then: Callable[[T], None]) -> None:
        """Ask, and go on with the answer; no answer changes nothing.

        A text that the book could not take is offered again, so that it is not lost.
        """

        def answered(answer: T | None) -> None:
            if answer is None or self._do(lambda: then(answer)):
                return
            if isinstance(dialog, Ask) and isinstance(answer, str):
                self.ask(cast("Screen[T | None]", dialog.again(answer, self.desk.view.said)), then)

        self.open(dialog, answered)

    def put_on(self, player: Player | None, knowing: bool = False) -> None:
        """A player on court, after the review of the round that ends with it.

        Takes the drill the player had last; asks for one when there is none. Who is kept off the
        feed goes on only `knowing` why.
        """
        self._do(lambda: self._put_on(player, knowing))

    def _put_on(self, player: Player | None, knowing: bool) -> None:
        live = self.desk.view.live
        on_court = live is not None and not self.desk.view.ended and live.feeding.taken
        if on_court and not (self.end_round() and self.on_top):
            return
        if self._asks_for_a_new_day():
            return
        kept_off = self.desk.view.rotation.court.off.get(player.id) if player else None
        if player is None:
            self.desk.tell("Nobody is here to hit: F12 says who is, F9 adds one.")
        elif kept_off and not knowing:
            self._ask_to_put_on(player, kept_off)
        elif self.desk.has_drill_for(player):
            self.desk.start(player=player)
        else:
            self.choose_drill(player)

    def _ask_to_put_on(self, player: Player, reason: str) -> None:
        def answered(on: bool | None) -> None:
            if on:
                self.put_on(player, knowing=True)

        words = f"{player.shown_name} is kept off the feed: {reason}."
        if self.desk.care.held_back(player):
            words = f"{words} {BEFORE_COURT}"
        # Not Enter: pressed twice in a row it would pass over the caution unread.
        question = Decide(words, "puts them on all the same", "leaves it", ("ctrl+y", "Ctrl+Y"))
        self.open(question, answered)

    def choose_drill(self, player: Player | None) -> None:
        """Choose a drill for this player, or for whoever is on court."""
        ladders = [ladder for _, ladder in sorted(self.desk.library.ladders.items())]
        choices = drill_choices(ladders)
        live = self.desk.view.live
        here = next(
            (
                at
                for at, choice in enumerate(choices)
                if live
                and choice.value[0].stroke == live.drill.stroke
                and choice.value[1].key == live.drill.drill.key
            ),
            0,
        )

        def chosen(drill: tuple[Ladder, Drill]) -> None:
            self.desk.start(player=player, drill=drill)

        self.ask(Pick("Drill", choices, here), chosen)

    def end_round(self) -> bool:
        """End the round on court, and review it if that is wished; whether the book took it."""
        if not self._do(self.desk.end_round):
            return False
        live = self.desk.view.live
        if self.desk.settings.review and live is not None and live.feeding.taken:
            self.review()
        return True

    def review(self) -> None:
        """The quick review of the round on court; a key that goes on is carried out after it."""
        live = self.desk.view.live
        if live is None or not live.feeding.taken:
            self._do(lambda: self.desk.tell("There is no ball to review yet."))
            return
        # Measures and words of the review are loaded at the first one, not at the start.
        from courtlog.courtside.screens.review import ReviewScreen, review_of

        def closed(key: str | None) -> None:
            if key == "up":
                self._do(self.desk.take_the_call)
            elif key is not None:
                self._take(key)

        view = self.desk.view
        review = review_of(self.desk.book, view, live)
        self.open(ReviewScreen(review, live, view.speak_rule), closed)

    def trends(self) -> None:
        """Everyone's trends over days and clinics; the round on court waits as it is."""
        from courtlog.courtside.screens.trends import TrendsScreen

        self.open(TrendsScreen(self.desk.book, self.desk.view))

    def who_is_where(self) -> None:
        """The rotation: everyone's place, balls and waits; Enter puts the chosen one on court."""
        from courtlog.courtside.screens.board import BoardScreen

        def chosen(player: Player | None) -> None:
            self.view = self.desk.view
            if player is not None:
                self.put_on(player)

        self.open(BoardScreen(self.desk), chosen)

    def plan(self) -> None:
        """The plan of the day on court, or of the next one once this was played."""
        from courtlog.courtside.screens.plan import PlanScreen

        def closed(_: object) -> None:
            self._do(self.desk.rotation.look)

        self.open(PlanScreen(self.desk), closed)

    def reps_alone(self) -> None:
        """What the player on court did alone before, in the player's word."""
        from courtlog.courtside.screens.reps import RepsScreen

        live = self.desk.view.live
        player = live.player if live else self.desk.view.rotation.next_up
        if player is None:
            self._do(lambda: self.desk.tell("Nobody is on the roster."))
            return

        def closed(_: object) -> None:
            self._do(lambda: None)

        self.open(RepsScreen(self.desk, player), closed)

    def show(self, screen: Screen[None]) -> None:
        """A screen over the court; what it changed is shown when it closes."""

        def closed(_: object) -> None:
            self._do(lambda: None)

        self.open(screen, closed)

    def show_help(self) -> None:
        """The pad as it is now, and every command."""
        from courtlog.courtside.screens.help import HelpScreen

        self.open(HelpScreen(self.desk.view))

    def teach(self) -> None:
        """Learn nine keys, and use them."""
        from courtlog.courtside.screens.teach import TeachScreen

        def learned(keys: tuple[str, ...]) -> None:
            self.keep(changed(self.desk.settings, pad="taught", taught=keys), "Pad: taught keys.")

        self.ask(TeachScreen(), learned)

    def keep(self, settings: Settings, said: str) -> None:
        """Use and keep these settings."""
        self.desk.use(settings, said)
        self._keep_settings(settings)

    def _do(self, action: Callable[[], None]) -> bool:
        """The one place where a refusal becomes a sentence on the screen.

        Whether the book could do it; it rings when it could not.
        """
        try:
            with self.desk.book.told():
                self._abreast.catch_up()
                action()
        except HeldElsewhereError as error:
            self._stand_by(error)
        except BookError as error:
            self._abreast.failed(error)
        except CourtlogError as error:
            self.desk.refuse(str(error))
        except (ImportError, OSError) as error:
            why = error.strerror if isinstance(error, OSError) else "a part of the program is gone"
            self.desk.refuse(f"This could not be opened ({why}): try it again.")
        else:
            self._show()
            return True
        self._show()
        return False

    def _show(self) -> None:
        """What the desk holds, and its bell."""
        self.view = self.desk.view
        if self.desk.rings != self._rung:
            self._rung = self.desk.rings
            if self.desk.settings.bell:
                self.app.bell()

    def _tick(self) -> None:
        self._do(self.desk.rotation.tick)

    def _stand_by(self, error: BookError) -> None:
        """Somebody else writes in the book: take over when that has ended, else say who it is."""
        claim = self.desk.book.claim
        try:
            if self._abreast.take_over():
                return
        except BookError as failed:
            error = failed
        self.desk.refuse(str(error))
        if claim is not None and claim.left is not None:
            self._offer_to_take_over(claim.left)

    def _offer_to_take_over(self, left: Holder) -> None:
        question = Decide(
            f"This book was not closed by {left.words()}. If nobody writes there any more, write"
            " here; two at once would spoil each other's work.",
            "writes here",
            "looks only",
        )

        def answered(here: bool | None) -> None:
            if here:
                self._do(self._take_over)

        self.open(question, answered)

    def _take_over(self) -> None:
        self._abreast.take_over(anyway=True)

    def _asks_for_a_new_day(self) -> bool:
        """Midnight has passed since the last key: a round stays on its day, the next one is asked.

        Whoever goes on with the day before is not asked again.
        """
        if not self.desk.is_over() or self.desk.today() == self._day_refused:
            return False
        self._offer_new_day(self.desk.today())
        return True

    def _offer_new_day(self, today: date) -> None:
        view = self.desk.view
        question = Decide(
            f"{view.clinic.name} was left on {view.day.words()}. Today is"
            f" {times.date_words(today)}.",
            "begins a new day",
            f"goes on with {times.date_words(view.day.date)}",
        )

        def answered(begin: bool | None) -> None:
            if not begin:
                self._day_refused = today
                return
            self._do(lambda: self.desk.begin_day(today))
            self.post_message(DayBegun())

        self.open(question, answered)
