"""The coach's desk: takes meanings and wishes, writes them to the book, and only then shows them.

Knows no screen. `view` is always what the book holds; `rings` counts how often the bell is due.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date

from courtlog import times
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.drills import Drill, Ladder
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose, cue_counts
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.on_court import feeding
from courtlog.coaching.on_court.feed_order import FeedChoice
from courtlog.coaching.on_court.feeding import Meaning, Step
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.courtside.desk import next_round
from courtlog.courtside.desk.care_desk import CareDesk, care_view
from courtlog.courtside.desk.idle_time import Quiet
from courtlog.courtside.desk.keymap import pad_of
from courtlog.courtside.desk.next_round import Wish
from courtlog.courtside.desk.rotation_desk import RotationDesk
from courtlog.courtside.desk.step_sentences import FEED_ONE, step_words, whose
from courtlog.courtside.desk.view import CourtView
from courtlog.errors import CourtlogError
from courtlog.library.drill_files import Library
from courtlog.logbook.file.opening import Book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.writes.round_writer import Door
from courtlog.plain_text import many
from courtlog.settings import Settings

Clock = Callable[[], int]
"""Milliseconds UTC since 1970."""


class Desk:
    """One open book at the court."""

    view: CourtView

    def __init__(
        self, book: Book, library: Callable[[], Library], settings: Settings, clock: Clock
    ) -> None:
        self.book = book
        self.clock = clock
        self.rings = 0
        self._refused = False
        self._library = library
        self._door = Door(book)
        self._settings = settings
        self.rotation = RotationDesk(self)
        self.care = CareDesk(self)
        self.quiet = Quiet(self)

    @property
    def library(self) -> Library:
        """The drills, read from their files when first asked for."""
        return self._library()

    @property
    def settings(self) -> Settings:
        """The settings in use."""
        return self._settings

    def use(self, settings: Settings, said: str) -> None:
        """Use these settings from now on."""
        self._settings = settings
        self.view = replace(
            self.view,
            pad=pad_of(settings),
            letters=settings.marks == "letters",
            speak=Speak(settings.speak),
            said=said,
        )

    @property
    def who(self) -> str:
        """Who puts something right: the coach of this laptop, else the day's."""
        return self._settings.coach or self.view.day.coach

    def today(self) -> date:
        """The date in the clinic's zone."""
        return times.local_date(self.clock(), self.view.clinic.place)

    def is_over(self) -> bool:
        """Whether the date has gone on since the day of the book, and no round is open."""
        return self.view.ended and self.today() > self.view.day.date and not self.book.read_only

    def is_begun(self) -> bool:
        """Whether the book has a day to resume."""
        return lookups.bookmark(self.book) is not None

    def resume(self, said: str = "") -> None:
        """Read everything from the book, as after a restart. Raises CourtlogError if it is new."""
        mark = lookups.bookmark(self.book)
        if mark is None:
            raise CourtlogError("This book has no day yet.")
        live = None if mark.round_id is None else lookups.live_round(self.book, mark.round_id)
        roster = tuple(lookups.players(self.book, mark.clinic_id))
        day = lookups.day(self.book, mark.day_id)
        self.view = CourtView(
            lookups.clinic(self.book, mark.clinic_id),
            day,
            pad_of(self._settings),
            self._settings.marks == "letters",
            live,
            mark.basket,
            (),
            roster,
            self.rotation.read(mark.clinic_id, day, roster),
            mark.paused_at,
            self.clock(),
            said,
            self.book.read_only,
            Speak(self._settings.speak),
            care_view(self, mark.clinic_id, mark.day_id),
        )
        self._look_at_trends()

    def resettle(self, said: str) -> None:
        """The turn at the feed is another one: read everything, and send everyone where it does."""
        self.resume()
        self.rotation.settle()
        self.tell(said)

    def begin_day(self, on: date) -> None:
        """The clinic's next day, on the same court with the same coach."""
        day = self.view.day
        quiet = self.quiet.count()
        self._finish_open_ball()
        self.continue_day(self.view.clinic.id, on, day.court, day.coach)
        self.tell(f"{quiet}{self.view.day.words()}: Tab puts the first player on court.")

    def open_last_day(self) -> None:
        """A book that was filled by sheets, and never open at a court, opens on its last day."""
        clinics = lookups.clinics(self.book)
        if self.is_begun() or not clinics or self.book.read_only:
            return
        days = lookups.days(self.book, clinics[-1].id)
        if days:
            last = days[-1]
            self._door.open_day(last.clinic_id, last.date, last.court, last.coach, self.clock())

    def continue_day(self, clinic: int, on: date, court: str, coach: str) -> None:
        """A day of that clinic, new or begun, with a full basket and no round on court."""
        self._door.open_day(clinic, on, court, coach, self.clock())
        self.resume()

    def press(self, meaning: Meaning) -> None:
        """A feeding key: stored first, then shown."""
        live = self._on_court()
        if live is None:
            self.tell("No round is open: Tab next player, Enter the same again, Backspace back in.")
            return
        was_paused = self.view.paused
        if was_paused:
            self.toggle_pause()
        state, steps = feeding.press_key(live.feeding, meaning)
        if not steps:
            return
        quiet = self.quiet.count()
        step, *between = steps
        self._door.key(live.id, step, self.clock(), *between)
        had_balls = not self.view.basket.empty
        self._show(replace(live, feeding=state), step)
        if self._refused:
            self.tell("")
        if was_paused or not _speaks_for_itself(step):
            self.tell(step_words(live, step) + (" The pause is over." if was_paused else ""))
        if step.took:
            self._ring_if_due(had_balls, len(live.feeding.taken))
            self.rotation.ball_taken()
        if quiet:
            self.tell(quiet + self.view.said)

    def take_back(self) -> None:
        """Undo the last key; in a round with none left, go back into the round before."""
        live = self.view.live
        if live is None:
            self.tell("There is nothing to take back.")
        elif live.ended_at is not None:
            self._door.go_to_round(live.id)
            self.resettle(f"Back in {whose(live)} round.")
        elif not live.feeding.steps:
            self._go_back_a_round(live)
        else:
            state, steps = feeding.take_back_key(live.feeding)
            self._door.take_back(live.id, steps[0], self.clock(), *steps[1:])
            step = steps[-1]
            self._show(replace(live, feeding=state), step.reversed())
            self.tell(f"Taken back: {step_words(live, step)}")

    def start(
        self,
        player: Player | None = None,
        drill: tuple[Ladder, Drill] | None = None,
        purpose: Purpose | None = None,
        cues: Sequence[str] | None = None,
        feeds: FeedChoice | None = None,
    ) -> None:
        """A new round; what is not given stays as it is. Raises CourtlogError without a drill."""
        wish = Wish(player, drill, purpose, tuple(cues) if cues else None, feeds)
        plan = next_round.plan(self.book, self._library, self.view, wish)
        taken = self.quiet.count() + self._finish_open_ball()
        self._door.start_round(
            plan.player.id,
            plan.used,
            plan.purpose,
            plan.cues,
            self.clock(),
            plan.feeds,
            plan.balls,
        )
        why = "" if plan.purpose is Purpose.PRACTICE else f" ({plan.reason}; F2 changes it)"
        between = f" {FEED_ONE}" if plan.feeds.every > 1 else ""
        self.resettle(
            f"{taken}{plan.player.shown_name}: {plan.used.drill.name},"
            f" {plan.purpose}{why}.{between}"
        )

    def has_drill_for(self, player: Player) -> bool:
        """Whether a round of this player can start without choosing a drill."""
        return next_round.knows_a_drill(self.book, self.view, player)

    def change_rung(self, by: int) -> None:
        """The same player on the next rung up (1) or down (-1)."""
        live = self.view.live
        if live is None:
            self.tell("Choose a drill first.")
            return
        ladder = self.library.ladder(live.drill.stroke)
        drill = ladder.beside(live.drill.drill, by)
        if drill is None:
            self.tell(f"This is the {'highest' if by > 0 else 'lowest'} rung of the ladder.")
        else:
            self.start(drill=(ladder, drill))

    def end_round(self) -> None:
        """The round on court is over; a ball half rated is taken first."""
        live = self._on_court()
        if live is None:
            self.tell("No round is open.")
            return
        quiet = self.quiet.count()
        self._finish_open_ball()
        self._door.end_round(self.clock())
        self.resume(f"{quiet}Round over.")
        self.rings += 1

    def take_the_call(self) -> None:
        """The player goes one rung up the next time, as the rung call says."""
        live = self.view.live
        if live is None:
            return
        ladder = self.library.ladder(live.drill.stroke)
        drill = ladder.beside(live.drill.drill, 1)
        if drill is None:
            self.tell("This is the highest rung of the ladder.")
            return
        self._door.put_down(self.view.clinic.id, live.player.id, f"{ladder.stroke}/{drill.key}")
        self.tell(f"{live.player.shown_name} goes up to {drill.name} next time.")

    def mark_clip(self) -> None:
        """The time of day on the ball in hand, to find it in a phone video."""
        live = self._on_court()
        if live is not None:
            at = self.clock()
            self.press(feeding.MarkClip(at - at % 1000))

    def note(self, text: str) -> None:
        """A note on the ball in hand, or on the round before its first ball."""
        live = self.view.live
        text = text.strip()
        if live is None or not text:
            return
        number, _ = live.feeding.in_hand
        on_ball = number if live.feeding.touched or number < live.feeding.number else None
        self._door.note(live.id, on_ball, text, self.clock())
        self.tell(f"Noted on {'the round' if on_ball is None else f'ball {on_ball}'}.")

    def move_balls(self, player: Player, count: int) -> None:
        """The last `count` balls were another player's. Raises CourtlogError."""
        from courtlog.logbook.writes.repairs import move_balls

        live = self.view.live
        if live is None:
            raise CourtlogError("There is no round on court to move balls from.")
        taken = len(live.feeding.taken)
        numbers = range(taken - count + 1, taken + 1)
        move_balls(self.book, live.id, numbers, player.id, self.who, self.clock())
        self.resettle(f"{many(count, 'ball')} moved to {player.shown_name}, who is on court now.")

    def pick_up(self, size: int | None = None) -> None:
        """The balls are back in the basket, at a new size if one is given."""
        self._door.refill_basket(size)
        self._look_at_basket()
        self.tell(f"Basket full: {self.view.basket.size} balls.")

    def toggle_pause(self) -> None:
        """Pause the round's time, or go on."""
        at, quiet = self.clock(), ""
        if self.view.paused:
            self._door.go_on(at)
            self.quiet.alive()
        else:
            quiet = self.quiet.count()
            self._door.pause(at)
        self.view = replace(self.view, paused_at=None if self.view.paused else at)
        self.rotation.look()
        words = "Paused; any feeding key goes on." if self.view.paused else "Going on."
        self.tell(quiet + words)

    def _on_court(self) -> LiveRound | None:
        live = self.view.live
        return live if live is not None and live.ended_at is None else None

    def _finish_open_ball(self) -> str:
        """A ball half rated is taken as it is before its round is left; says so."""
        live = self._on_court()
        if live is None or not live.feeding.touched:
            return ""
        number = live.feeding.number
        self.press(feeding.TakeBall())
        return f"Ball {number} taken as it was. "

    def _go_back_a_round(self, live: LiveRound) -> None:
        before = lookups.last_round_before(self.book, live.id) if live.empty else None
        if before is None:
            self.tell("There is nothing more to take back in this round.")
            return
        self._door.go_to_round(before)
        back = lookups.live_round(self.book, before)
        self.resettle(f"Back in {whose(back)} round, at ball {back.feeding.number}.")

    def _show(self, live: LiveRound, step: Step) -> None:
        self.view = replace(self.view, live=live)
        if not (step.was_open and step.is_open):
            self._count(step)
            self._look_at_basket()

    def _count(self, step: Step) -> None:
        """Take the step into today's counts, as the book's tallies do."""
        before = [] if step.was_open else [step.before]
        after = [] if step.is_open else [step.after]
        trends = tuple(
            (*days[:-1], days[-1] - cue_counts(before, row) + cue_counts(after, row))
            for row, days in enumerate(self.view.trends)
        )
        self.view = replace(self.view, trends=trends)

    def _look_at_trends(self) -> None:
        live = self.view.live
        if live is None:
            self.view = replace(self.view, trends=())
            return
        rows = day_lookups.counts_by_day(
            self.book, self.view.clinic.id, live.player.id, live.drill.stroke
        )
        dates = lookups.dates(self.book, self.view.clinic.id, self.view.day.date)
        found = {(row.cue, row.date): row.counts for row in rows}
        trends = tuple(
            tuple(found.get((cue, on), Counts()) for on in dates) for cue in live.cue_keys
        )
        self.view = replace(self.view, trends=trends)

    def _look_at_basket(self) -> None:
        mark = lookups.bookmark(self.book)
        assert mark is not None
        self.view = replace(self.view, basket=mark.basket)

    def _ring_if_due(self, had_balls: bool, before: int) -> None:
        live = self.view.live
        assert live is not None
        if had_balls and self.view.basket.empty:
            self.tell(f"{self.view.said} The basket is empty: pick up, then b.")
            self.rings += 1
        elif before < live.planned <= len(live.feeding.taken):
            self.tell(f"{live.planned} balls: the round is full. Tab next player, or feed on.")
            self.rings += 1

    def wrong_key(self, name: str) -> None:
        """A key that means nothing here: say so and ring, so that no grade is lost unseen."""
        self.rings += 1
        self.refuse(f"{name} is not on this pad ({self.view.pad.title}): F6 changes it, ? helps.")

    def refuse(self, words: str) -> None:
        """Say that something could not be done; the next key that can be done clears it."""
        self.tell(words)
        self._refused = True

    def tell(self, words: str) -> None:
        """Say something on the screen."""
        self._refused = False
        self.view = replace(self.view, said=words)


def _speaks_for_itself(step: Step) -> bool:
    """A grade on the open ball stands in its row as shape and word already."""
    return step.is_open and step.before.grades != step.after.grades
