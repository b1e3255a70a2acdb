"""A court among others: hands a player over, picks one, tells and reads the stick; all in words.

Everything is stored before the stick is touched, so that a stick that is out costs nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from courtlog.coaching.game.court_book import CourtBook
from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.rotation import Presence
from courtlog.coaching.voice.court_ages import age_words, unknown_words
from courtlog.courtside.desk.desk import Desk
from courtlog.errors import CourtlogError
from courtlog.logbook.exchange.courts import stick, trade
from courtlog.logbook.exchange.courts.stick import StickRead
from courtlog.logbook.reads.care_lookups import reds_in_words
from courtlog.logbook.reads.courts.court_groups import (
    PlayerCourt,
    court_groups,
    others_of_book,
    readings,
)
from courtlog.plain_text import listed


@dataclass(frozen=True, slots=True)
class TradeSession:
    """The desk of a court whose clinic is on several."""

    desk: Desk

    @property
    def own(self) -> CourtBook:
        """Of which court this is. Raises CourtlogError where the clinic is on one court."""
        return stick.own_court(self.desk.book)

    def on_the_way(self) -> bool:
        """Whether another court handed somebody over to this one who was not picked yet.

        Raises CourtlogError where the clinic is on one court.
        """
        own = self.own.court
        return any(at.court == own for _, at in self.elsewhere())

    def here(self) -> list[Player]:
        """The players of this court, whoever is at the feed first."""
        court = self.desk.view.rotation.court
        return sorted(court.roster, key=lambda player: player.id != court.at_feed)

    def elsewhere(self) -> list[tuple[Player, PlayerCourt]]:
        """The players of the other courts, those on the way here first."""
        day = self.desk.view.day
        return others_of_book(self.desk.book, day.clinic_id, day.date)

    def other_courts(self) -> list[str]:
        """The names of the other courts."""
        day, own = self.desk.view.day, self.own
        groups = court_groups(self.desk.book, day.clinic_id, day.date)
        return [group.court for group in groups if group.court != own.court]

    def ages(self) -> list[str]:
        """How old it is what is known of each other court."""
        known, view = readings(self.desk.book), self.desk.view
        now = self.desk.clock()
        return [
            age_words(court, known[court], now, view.clinic.place)
            for court in self.other_courts()
            if court in known
        ]

    def hand_over(self, player: Player, court: str) -> None:
        """Give the player to another court; the round on court ends if it is theirs."""
        desk, day = self.desk, self.desk.view.day
        live = desk.state.open_round
        if live is not None and live.player.id == player.id:
            desk.rounds.end_round()
        at_ms = desk.clock()
        trade.hand_over(desk.book, day.clinic_id, day.date, player.id, court, at_ms)
        desk.state.resume()
        desk.rotation.settle()
        words = f"{player.shown_name} goes to court {court}."
        try:
            stick.lay_copy(desk.book, at_ms)
        except CourtlogError as error:
            desk.state.tell(f"{words} {error} Tell court {court} about arm and heat.")
        else:
            desk.state.tell(f"{words} Carry the stick there: court {court} picks.")

    def pick(self, player: Player) -> None:
        """Take a player of another court, with what the stick knows of them."""
        desk, day = self.desk, self.desk.view.day
        at_ms = desk.clock()
        picked = trade.pick(desk.book, day.clinic_id, day.date, player.id, at_ms)
        desk.state.resume()
        desk.rotation.attend(player, Presence.HERE)
        place, came_from = desk.view.clinic.place, picked.came_from
        until = readings(desk.book).get(came_from)
        words = [f"{player.shown_name} is on this court now."]
        if picked.handed and until is not None:
            words.append(f"Known of {age_words(came_from, until, at_ms, place)}.")
        else:
            words.append(unknown_words(came_from, until, place))
        desk.state.tell(" ".join([*words, *self._troubles(picked.read)]))

    def tell_and_read(self) -> None:
        """Lay a copy of this court on the stick, and read those of the others."""
        desk, day = self.desk, self.desk.view.day
        at_ms = desk.clock()
        read = stick.read_stick(desk.book, day.clinic_id, at_ms)
        desk.state.resume()
        desk.rotation.settle()
        courts = f"Court {listed(read.courts)} read." if read.courts else "Nothing new was read."
        words = [courts, *self._troubles(read)]
        try:
            stick.lay_copy(desk.book, at_ms)
        except CourtlogError as error:
            if str(error) not in read.troubles:
                words.append(str(error))
        desk.state.tell(" ".join(words))

    def set_stick(self, folder: str) -> None:
        """Lay copies in this folder from now on."""
        stick.set_stick(self.desk.book, Path(folder.strip()).expanduser())
        self.desk.state.tell(f"The stick is {self.own.stick}.")

    def _troubles(self, read: StickRead) -> Sequence[str]:
        reds = [f"Red: {red}." for red in reds_in_words(self.desk.book, read.reds)]
        return [*reds, *read.troubles]
