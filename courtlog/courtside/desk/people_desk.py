"""The part of the desk that knows people: a clinic's beginning, its roster, what the coach saw."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from courtlog import times
from courtlog.coaching.game.cards import Focus, PlayerCard, card_of, same_name
from courtlog.coaching.game.people import Clinic, Player
from courtlog.courtside.desk.desk import Desk
from courtlog.errors import CourtlogError
from courtlog.logbook.reads import clinic_lookups, lookups, people_lookups
from courtlog.logbook.reads.clinic_lookups import FirstDay
from courtlog.logbook.reads.people_lookups import Entry, Look
from courtlog.logbook.writes import clinics
from courtlog.logbook.writes.people_writer import PeopleDoor
from courtlog.settings import changed

NOTHING: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Beginning:
    """What a clinic needs to begin; `stroke` is empty where no drill could be read.

    `typed` is what stood in each line, to be shown again when it cannot be stored.
    """

    clinic: str
    zone: str
    coach: str
    court: str
    players: tuple[PlayerCard, ...]
    stroke: str
    pad: str
    typed: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Known:
    """What need not be asked: a clinic without a day yet, its players, a book in use.

    `coach`, `court`, `zone` and `pad` stand in their lines when these are asked.
    """

    coach: str
    court: str
    zone: str
    pad: str
    clinic: Clinic | None = None
    has_players: bool = False
    has_coach: bool = False
    escape: str = "leaves"
    asks_pad: bool = True


class PeopleDesk:
    """Writes through the people's door and then shows what the book holds."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._book = desk.book
        self._door = PeopleDoor(desk.book)

    def asks(self, zone: str) -> Known | None:
        """What the first screen need not ask; None where the book can simply be resumed."""
        settings = self._desk.settings
        begun = self._desk.is_begun()
        clinic = clinic_lookups.upcoming(self._book)
        if begun and clinic is None:
            return None
        escape = "leaves"
        if begun:
            mark = lookups.bookmark(self._book)
            assert mark is not None
            escape = f"goes on with {lookups.clinic(self._book, mark.clinic_id).name}"
        first = clinic_lookups.first_day(self._book, clinic.id) if clinic else FirstDay()
        return Known(
            first.coach or settings.coach,
            first.court or "1",
            clinic.zone if clinic else zone,
            settings.pad,
            clinic,
            clinic is not None and bool(lookups.players(self._book, clinic.id)),
            clinic is not None and bool(first.coach or settings.coach),
            escape,
            not begun,
        )

    def begin(self, beginning: Beginning, known: Known) -> None:
        """The clinic's first day is today, and the first player is on court if there is a drill."""
        desk, at = self._desk, self._desk.clock()
        with self._book.writing():
            clinic = known.clinic or clinics.begin(
                self._book, Clinic(0, beginning.clinic, beginning.zone), FirstDay(), at
            )
            self._door.add(clinic.id, beginning.players, at)
            today = times.local_date(at, clinic.place)
            desk.continue_day(clinic.id, today, beginning.court, beginning.coach)
            desk.pick_up(desk.settings.basket)
        desk.tell("")
        if beginning.stroke and desk.view.roster:
            ladder = desk.library.ladder(beginning.stroke)
            desk.start(drill=(ladder, ladder.first_fed))

    def entries(self) -> list[Entry]:
        """The roster with its cards."""
        with self._book.told():
            return people_lookups.entries(self._book, self._desk.view.clinic.id)

    def is_on_roster(self, name: str) -> bool:
        """Whether somebody of that name is."""
        return any(same_name(one.name) == same_name(name) for one in self._desk.view.roster)

    def add(self, name: str, other: bool = False) -> None:
        """A player at the end of the roster; `other`: another person of a name that is there."""
        card = _read({"name": name}, None)
        self._door.add(self._desk.view.clinic.id, [card], self._desk.clock(), other)
        self._desk.resume()
        self._desk.rotation.arrive_if_begun(self._desk.view.roster[-1])
        self._desk.tell(f"{card.name} is on the roster.")

    def save(self, entry: Entry, values: dict[str, str]) -> None:
        """The card with these words over it. Raises CourtlogError with what is wrong."""
        card = _read(values, entry.card)
        self._door.edit(self._desk.view.clinic.id, entry.player.id, card, self._desk.clock())
        self._desk.resume(f"The card of {card.name} is kept.")

    def move(self, player: Player, by: int) -> None:
        """The player goes up (-1) or down (1) in the order."""
        self._door.move(self._desk.view.clinic.id, player.id, by)
        self._desk.resume(self._desk.view.said)

    def looks(self, player: Player) -> list[Look]:
        """What the coach saw of this player, by stroke, in words."""
        return people_lookups.looks(self._book, self._desk.view.clinic.id, player.id)

    def keep_cues(self, player: Player, stroke: str, cues: tuple[str, ...]) -> Focus:
        """The chosen cues of a stroke, beside the words that were kept with earlier ones."""
        clinic = self._desk.view.clinic.id
        before = people_lookups.focus(self._book, clinic, player.id, stroke)
        focus = Focus(stroke, before.strengths, cues, before.why)
        self._door.keep_focus(clinic, player.id, focus, self._desk.clock())
        return focus

    def keep_words(self, player: Player, focus: Focus) -> None:
        """What is good already, and why these cues."""
        self._door.keep_focus(self._desk.view.clinic.id, player.id, focus, self._desk.clock())
        self._desk.tell(f"Kept for {player.shown_name}: what is good, and why these cues.")

    def use_pad_and_coach(self, beginning: Beginning) -> bool:
        """Use what the first screen asked about this laptop; whether a setting changed."""
        before = self._desk.settings
        after = changed(before, pad=beginning.pad, coach=beginning.coach or before.coach)
        if after != before:
            self._desk.use(after, self._desk.view.said)
        return after != before


def _read(values: dict[str, str], before: PlayerCard | None) -> PlayerCard:
    try:
        return card_of(values, before)
    except ValueError as error:
        raise CourtlogError(f"{'; '.join(error.args).capitalize()}.") from error
