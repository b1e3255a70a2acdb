"""The desk of the people: the clinic's roster, their cards, what the coach saw of them."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import AbstractContextManager

from courtlog.coaching.answers.highlights import last_day_of
from courtlog.coaching.game.cards import (
    Focus,
    PlayerCard,
    card_from_words,
    card_mistakes,
    card_of,
)
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.people import Player
from courtlog.courtside.desk.court_state import CourtState
from courtlog.courtside.desk.rotation_desk import RotationDesk
from courtlog.errors import CourtlogError
from courtlog.logbook.file.head_book import check_head_book
from courtlog.logbook.reads import history_lookups, people_lookups
from courtlog.logbook.reads.main_cue_lookups import MainCue, is_settled, named_main
from courtlog.logbook.reads.people_lookups import FocusInWords, RosterLine
from courtlog.logbook.writes.people_writer import PeopleWriter
from courtlog.names import folded_name


class PeopleDesk:
    """Changes the roster and its cards, then shows what the book holds."""

    def __init__(self, state: CourtState, rotation: RotationDesk) -> None:
        self._state = state
        self._rotation = rotation
        self._writer = PeopleWriter(state.book)

    def entries(self) -> list[RosterLine]:
        """The roster with its cards."""
        return people_lookups.entries(self._state.book, self._state.view.clinic.id)

    def in_book(self) -> AbstractContextManager[None]:
        """Where the book is read and written: a failure of its file becomes a refusal."""
        return self._state.book.reading()

    def check_set_up(self) -> None:
        """Raise CourtlogError where people and cues are not this book's to change."""
        check_head_book(self._state.book.db)

    def is_on_roster(self, name: str) -> bool:
        """Whether somebody of that name is on the roster."""
        return any(folded_name(p.name) == folded_name(name) for p in self._state.view.roster)

    def add(self, words: str, other: bool = False) -> None:
        """Add a player to the roster; `other`: another person of a name that is there.

        The words are a name, and what `card_from_words` takes behind it.
        """
        card = new_card(words)
        self._writer.add_players(self._state.view.clinic.id, [card], self._state.clock(), other)
        self._state.resume()
        self._rotation.arrive_if_begun(self._state.view.roster[-1])
        self._state.tell(f"{card.name} is on the roster.")

    def mistakes(self, entry: RosterLine, values: dict[str, str]) -> dict[str, str]:
        """What is wrong with the card with these words in it: a sentence by the key of its line."""
        return card_mistakes(values, entry.card)

    def save(self, entry: RosterLine, values: dict[str, str]) -> None:
        """Keep the card with these words in it. Raises CourtlogError with what is wrong."""
        card = _card_of(values, entry.card)
        self._writer.edit_card(
            self._state.view.clinic.id, entry.player.id, card, self._state.clock()
        )
        self._state.resume(f"The card of {card.name} is kept.")

    def move(self, player: Player, by: int) -> None:
        """Move the player up (-1) or down (1) in the order."""
        self._writer.move_in_roster(self._state.view.clinic.id, player.id, by)
        self._state.resume(self._state.view.message)

    def looks(self, player: Player) -> list[FocusInWords]:
        """What the coach saw of this player, by stroke, in words."""
        return people_lookups.focuses_in_words(
            self._state.book, self._state.view.clinic.id, player.id
        )

    def main_cue(self, player: Player, stroke: str) -> MainCue:
        """The main cue of a stroke as named; settled once the yardstick is played."""
        where = (self._state.book, self._state.view.clinic.id, player.id, stroke)
        return MainCue(named_main(*where) or "", is_settled(*where))

    def last_counts(self, player: Player, stroke: str, cues: Iterable[str]) -> dict[str, Counts]:
        """The counts of these cues on the stroke's last day so far."""
        view = self._state.view
        past = history_lookups.history_without_ties(
            self._state.book, view.clinic.id, player.id, stroke, view.day.date
        )
        keys = tuple(cues)
        balls = last_day_of(past, keys)
        return {cue: balls.counts(cue) for cue in keys}

    def keep_cues(
        self, player: Player, stroke: str, cues: tuple[str, ...], main: str = ""
    ) -> Focus:
        """Keep the chosen cues of a stroke, with the words that were kept for earlier ones.

        Once the main cue is settled, no other is named.
        """
        clinic = self._state.view.clinic.id
        before = people_lookups.focus(self._state.book, clinic, player.id, stroke)
        if self.main_cue(player, stroke).is_settled:
            main = before.main
        focus = Focus(stroke, before.strengths, cues, before.why, main=main)
        self._writer.keep_focus(clinic, player.id, focus, self._state.clock())
        return focus

    def keep_reasons(self, player: Player, focus: Focus) -> None:
        """Keep what is good already, and why these cues."""
        self._writer.keep_focus(self._state.view.clinic.id, player.id, focus, self._state.clock())
        self._state.tell(f"Kept for {player.shown_name}: what is good, and why these cues.")


def new_card(words: str) -> PlayerCard:
    """The card of a name and what may follow it. Raises CourtlogError with what is wrong."""
    try:
        return card_from_words(words)
    except ValueError as error:
        raise CourtlogError(mistake_words(error.args)) from error


def mistake_words(mistakes: Iterable[str]) -> str:
    """One sentence of all that is wrong."""
    return f"{'; '.join(mistakes).capitalize()}."


def _card_of(values: dict[str, str], before: PlayerCard | None) -> PlayerCard:
    try:
        return card_of(values, before)
    except ValueError as error:
        raise CourtlogError(mistake_words(error.args)) from error
