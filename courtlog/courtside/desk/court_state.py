"""What every desk of the court stands on: the open book, and the view of it that is shown.

Knows no screen. `view` is always what the book holds; `due` is what is
to be heard with what is shown next.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date

from courtlog import times
from courtlog.coaching.answers.cue_rounds import CueRound
from courtlog.coaching.care.heat_care import in_short
from courtlog.coaching.game.people import Clinic, Day, Player
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.coaching.on_court.next_act import Act
from courtlog.courtside.desk.keymap import pad_of
from courtlog.courtside.desk.view import HELP_KEY, CareView, CourtView, Rotation
from courtlog.courtside.sound.sounds import Sound
from courtlog.errors import CourtlogError
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import (
    care_lookups,
    clinic_lookups,
    lookups,
    rotation_lookups,
)
from courtlog.logbook.reads.courts.court_groups import group_of_book
from courtlog.logbook.reads.courts.origins import origins
from courtlog.logbook.reads.cue_round_lookups import cue_rounds
from courtlog.settings import Settings

Clock = Callable[[], int]
"""Milliseconds UTC since 1970."""


class CourtState:
    """One open book, the settings in use, and what is shown; every desk changes it through here."""

    view: CourtView

    def __init__(
        self, book: Book, library: Callable[[], Library], settings: Settings, clock: Clock
    ) -> None:
        self.book = book
        self.clock = clock
        self.settings = settings
        self.act_keys: Mapping[Act, str] = {}  # told by the court, before it is shown
        self.due: list[Sound] = []
        self._chosen: tuple[int, int] | None = None  # the day's id and the player's
        self.let_hit: set[tuple[int, str]] = set()  # players, each with the red the coach read
        self.refused = False
        self.ended_day: int | None = None  # the day that the coach said is over, by its id
        self._library = library

    @property
    def library(self) -> Library:
        """The drills, read from their files when first asked for."""
        return self._library()

    @property
    def amender(self) -> str:
        """Who puts something right: the coach of this laptop, else the day's."""
        return self.settings.coach or self.view.day.coach

    @property
    def open_round(self) -> LiveRound | None:
        """The round on court; None while none is open."""
        live = self.view.live
        return live if live is not None and live.ended_at is None else None

    def today(self) -> date:
        """The date in the clinic's zone."""
        return times.local_date(self.clock(), self.view.clinic.place)

    @property
    def _check_in(self) -> str:
        return self.act_keys.get(Act.CHECK_IN, HELP_KEY)

    def use(self, settings: Settings, message: str) -> None:
        """Use these settings from now on."""
        self.settings = settings
        self.view = replace(
            self.view,
            pad=pad_of(settings),
            letters=settings.marks == "letters",
            speak=Speak(settings.speak),
            far=settings.look == "far",
            message=message,
        )

    def resume(self, message: str = "") -> None:
        """Read everything from the book, as after a restart. Raises CourtlogError if it is new."""
        book, settings = self.book, self.settings
        mark = lookups.bookmark(book)
        if mark is None:
            raise CourtlogError("This book has no day yet.")
        clinic, day = lookups.clinic(book, mark.clinic_id), lookups.day(book, mark.day_id)
        live = None if mark.round_id is None else lookups.live_round(book, mark.round_id)
        roster = tuple(lookups.players(book, mark.clinic_id))
        self.view = CourtView(
            clinic=clinic,
            day=day,
            pad=pad_of(settings),
            letters=settings.marks == "letters",
            live=live,
            basket=mark.basket,
            earlier=earlier_rounds(book, clinic, day, live),
            roster=roster,
            rotation=self._rotation_of(clinic, day, roster),
            paused_at=mark.paused_at,
            now=self.clock(),
            message=message,
            read_only=book.read_only,
            act_keys=self.act_keys,
            speak=Speak(settings.speak),
            far=settings.look == "far",
            care=_care(book, clinic, day),
        )

    def read_rotation(self) -> None:
        """Show the rotation as the book holds it."""
        view = self.view
        rotation = self._rotation_of(view.clinic, view.day, view.roster)
        self.view = replace(view, rotation=rotation, now=self.clock())

    def choose_next(self, player: Player | None) -> None:
        """Let this player hit next, whatever the queue says; None goes by the queue.

        It holds until somebody is put on court, and is shown with the next reading.
        """
        self._chosen = None if player is None else (self.view.day.id, player.id)

    def _rotation_of(self, clinic: Clinic, day: Day, roster: Sequence[Player]) -> Rotation:
        """The rotation of the book, and whom the coach chose to hit next."""
        rotation = _rotation(self.book, clinic, day, roster, self._check_in, self.clock())
        chosen = next((who for who in roster if self._chosen == (day.id, who.id)), None)
        return replace(rotation, chosen=chosen) if chosen else rotation

    def read_basket(self) -> None:
        """Show the basket as the book holds it."""
        mark = lookups.bookmark(self.book)
        assert mark is not None
        self.view = replace(self.view, basket=mark.basket)

    def tell(self, message: str) -> None:
        """Say something on the screen."""
        self.refused = False
        self.view = replace(self.view, message=message)

    def refuse(self, message: str) -> None:
        """Say that something could not be done; the next key that can be done clears it."""
        self.tell(message)
        self.refused = True

    def turn_down(self, message: str) -> None:
        """Say that a key does nothing here, and why; it is heard too."""
        self.tell(message)
        self.ring(Sound.REFUSED)

    def ring(self, sound: Sound = Sound.OVER) -> None:
        """Sound once, with what is shown next."""
        self.due.append(sound)

    def take_due(self) -> list[Sound]:
        """The sounds that are due; they are not due any more."""
        due, self.due = self.due, []
        return due


def _rotation(
    book: Book, clinic: Clinic, day: Day, roster: Sequence[Player], check_in: str, now: int
) -> Rotation:
    """The rotation in the order of the day's plan; `check_in` is the key that asks about an arm."""
    order = rotation_lookups.order_on(book, clinic.id, day.date)
    places = {player.id: place for place, player in enumerate(order)}
    group = group_of_book(book, clinic.id, day.date)
    if group is not None:
        roster = [player for player in roster if player.id in group]
    roster = sorted(roster, key=lambda player: places.get(player.id, len(places)))
    off = rotation_lookups.over_limit(book, clinic.id, day.id)
    for player_id, amber in care_lookups.ask_first_on(book, clinic.id, day.date).items():
        off[player_id] = f"{amber.words}: ask first, and check in ({check_in})"
    off |= care_lookups.held_back(book, clinic.id, day.id)
    came_from = origins(book, clinic, day, now)
    off = {
        who: f"{why} ({came_from[who]})" if who in came_from else why for who, why in off.items()
    }
    return Rotation(
        rotation_lookups.court(book, clinic.id, day.id, roster, off),
        rotation_lookups.stations_now(book, day.id),
        clinic_lookups.plan(book, clinic.id),
        rotation_lookups.limited(book, clinic.id),
        came_from,
    )


def _care(book: Book, clinic: Clinic, day: Day) -> CareView:
    """Arms and heat of this day."""
    readings = care_lookups.heat_on(book, clinic.id, day.date)
    lines = clinic_lookups.plan(book, clinic.id).heat_lines
    heat = in_short(readings[-1], lines) if readings else ""
    levels = care_lookups.levels_on(book, clinic.id, day.id)
    return CareView(levels, heat, care_lookups.held_back(book, clinic.id, day.id))


def earlier_rounds(
    book: Book, clinic: Clinic, day: Day, live: LiveRound | None
) -> tuple[tuple[CueRound, ...], ...]:
    """For each cue in view, the player's rounds of the drill on court before this one."""
    if live is None:
        return ()
    of_cues = cue_rounds(
        book,
        live.player.id,
        live.drill.stroke,
        day.date,
        clinic.id,
        drill=live.drill.name,
        without=live.id,
    )
    return tuple(of_cues.get(cue, ()) for cue in live.cue_keys)
