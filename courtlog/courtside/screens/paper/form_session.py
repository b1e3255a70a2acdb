"""One form from its code to the roster: whose it is, its lines as they are typed, and its draft.

Knows no screen. The date of a form's code is the date it was printed, and chooses no day. Cards
have no steps in the history: the book keeps their former values, but not when each was changed and
what was changed with it. So the look through says of each value what it was.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from courtlog import times
from courtlog.coaching.game.cards import FIELDS, PlayerCard, card_of, missing
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.sheet_code import SheetCode
from courtlog.coaching.paper.filled_form import (
    FILMING_BY,
    FILMING_ON,
    FilledForm,
    form_draft_text,
    form_of_draft,
    paste,
    press,
)
from courtlog.courtside.surface.lettering import fit_short
from courtlog.errors import CourtlogError
from courtlog.logbook.file import sheet_drafts
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups, people_lookups
from courtlog.logbook.reads.film.films import films_of_person
from courtlog.logbook.reads.paper.sheet_owners import FormOwner, form_owners
from courtlog.logbook.writes.people_writer import PeopleWriter
from courtlog.names import folded_name
from courtlog.plain_text import capital, listed, plain
from courtlog.reports.paper.form_facts import Question, questions
from courtlog.reports.paper.form_words import SIGN

LONGEST_SHOWN = 500
"""Characters of a value in the look through, where nobody asks for fewer."""

NO_WORD = {
    True: "The yes to filming counts once a guardian's name is beside it: write it in line 8.",
    False: "The yes to filming counts once it says whose it is: line 8, or adult in line 2.",
}
"""What a yes still lacks, of a minor and of anybody else."""


@dataclass(frozen=True, slots=True)
class FormPlace:
    """A form's code, and whose it is."""

    code: SheetCode
    owner: FormOwner

    @property
    def title(self) -> str:
        """`Maren · form · Harbour Week`."""
        player = self.owner.player
        return f"{player.shown_name if player else 'New player'} · form · {self.owner.clinic.name}"


class FormSession:
    """Takes keys for one form."""

    def __init__(self, book: Book, clock: Callable[[], int]) -> None:
        self.book, self._clock = book, clock
        self.place: FormPlace | None = None
        self._draft: sheet_drafts.SheetDraft
        self.form: FilledForm | None = None
        self.message = ""

    def places(self, code: SheetCode) -> list[FormPlace]:
        """Where the form can belong, nearly always one place. Raises CourtlogError."""
        return [FormPlace(code, owner) for owner in form_owners(self.book, code)]

    def open(self, place: FormPlace) -> bool:
        """Take this form in hand; False where it is blank and its name is still to be asked."""
        self.place, self.form = place, None
        self._draft = sheet_drafts.SheetDraft(self.book.path, place.code)
        draft = self._draft.read()
        if draft is not None and self._go_on(draft):
            return True
        if place.owner.player is None:
            return False
        self._begin(place.owner.player)
        return True

    def namesake(self, name: str) -> Player | None:
        """The player of this name who is on the roster already."""
        return next(
            (
                player
                for player in lookups.players(self.book, self.at.owner.clinic.id)
                if folded_name(name) in (folded_name(player.name), folded_name(player.shown_name))
            ),
            None,
        )

    def begin_new(self, name: str) -> None:
        """Begin the form of somebody who is on no roster. Raises CourtlogError."""
        _card({"name": name}, None)
        form = FilledForm.fresh(str(self.at.code), "", {}).with_answer(name, len(name))
        self._take(form.at_line(1))

    def begin_known(self, player: Player) -> None:
        """Fill the card of a player on the roster in from a blank form."""
        self._begin(player)

    @property
    def at(self) -> FormPlace:
        """Where the form in hand belongs."""
        assert self.place is not None
        return self.place

    @property
    def in_hand(self) -> FilledForm:
        """The form in hand."""
        assert self.form is not None
        return self.form

    @property
    def title(self) -> str:
        """Whose form it is, by the name on it where the player is new."""
        form = self.form
        if form is None:
            return self.at.title
        name = form.player or f"{form.name or 'No name'}, new on the roster"
        return f"{name} · form · {self.at.owner.clinic.name}"

    def lines(self) -> list[Question]:
        """The questions of the paper, and the two lines at its foot."""
        filled_in_by, on = SIGN
        return [
            *questions(self._before()),
            Question(
                key=FILMING_BY,
                asks=filled_in_by,
                why="Kept as who said yes or no to filming.",
                seen_by="",
            ),
            Question(
                key=FILMING_ON,
                asks=on,
                why="Of the yes or no to filming, like 2026-05-12. Empty: today.",
                seen_by="",
            ),
        ]

    def press(self, name: str) -> bool:
        """Act on a key; whether it is one here. Raises CourtlogError."""
        form = press(self.in_hand, name)
        if form is None:
            return False
        self.form, self.message = form, ""
        self.keep_draft()
        return True

    def paste(self, text: str) -> None:
        """Act on pasted text. Raises CourtlogError."""
        form, is_whole = paste(self.in_hand, text)
        self.form = form
        self.message = "" if is_whole else "Not all of what was pasted goes into this line."
        self.keep_draft()

    def look_through(self, most: int = LONGEST_SHOWN) -> Iterator[str]:
        """What the card will say other than before, and what is still open.

        Of each value as many characters at most. Raises CourtlogError where it cannot be kept.
        """
        before, card = self._before(), self._new_card()
        now, then = card.words(), before.words()
        titles = {field.key: field.title for field in FIELDS}
        changed = [key for key in titles if now[key] != then[key]]
        if not changed:
            yield "Nothing on the card changes."
        for key in changed:
            empty = "today" if key == FILMING_ON else "nobody is named"
            was = f", was {_short(then[key], most)}" if then[key] else ""
            yield f"{titles[key]}: {_short(now[key], most) or empty}{was}"
        if card.filming == "yes" and not card.may_be_filmed:
            yield NO_WORD[card.minor]
        still_open = missing(card)
        if still_open:
            yield f"Still open: {listed(still_open)}."

    def keep(self) -> str:
        """Put the form onto the card or the roster, and say what came. Raises CourtlogError."""
        before, card, clinic = self._before(), self._new_card(), self.at.owner.clinic
        player, writer = self._player(), PeopleWriter(self.book)
        said: list[str] = []
        if player is None:
            known = people_lookups.known_from(self.book, clinic.id, card.name)
            writer.add_players(clinic.id, [card], self._clock())
            who = lookups.players(self.book, clinic.id)[-1]
            said.append(f"{who.shown_name} is on the roster of {clinic.name}.")
            if known is not None:
                said.append(f"Where the form is empty, the card came along from {known}.")
        elif card == before:
            said.append(f"The card of {player.shown_name} stays as it is.")
        else:
            writer.edit_card(clinic.id, player.id, card, self._clock())
            said.append(f"The card of {card.name} is kept; `courtlog roster edit` mends it.")
            if before.may_be_filmed and not card.may_be_filmed:
                films = films_of_person(self.book, [player.id])
                if films:
                    said.append(f"On film already: {listed(films)}. courtlog deletes no film.")
        self._draft.delete()
        return " ".join(said)

    def throw_away(self) -> None:
        """Forget what was typed of this form. Raises CourtlogError."""
        self._draft.delete()
        self.form = None

    def keep_draft(self) -> None:
        """Keep what was typed so far beside the book. Raises CourtlogError."""
        if self.in_hand.is_changed:
            self._draft.write(form_draft_text(self.in_hand))
        else:
            self._draft.delete()

    def _go_on(self, draft: bytes) -> bool:
        try:
            form = form_of_draft(draft)
        except ValueError:
            self.message = "What was typed of it before cannot be read, and is typed once more."
            return False
        self._take(form)
        if form.player and self._player() is None:
            self.form = None
            return False
        self.message = f"Going on with the form of {form.name}; Esc can throw it away."
        return True

    def _begin(self, player: Player) -> None:
        card = people_lookups.card(self.book, self.at.owner.clinic.id, player.id)
        known = {question.key: question.known for question in questions(card)}
        self._take(FilledForm.fresh(str(self.at.code), player.shown_name, known))

    def _take(self, form: FilledForm) -> None:
        self.form = form

    def _player(self) -> Player | None:
        """Whose card is filled in; None where the player is new, or is on the roster no longer."""
        if self.at.owner.player is not None:
            return self.at.owner.player
        return self.namesake(self.in_hand.player) if self.in_hand.player else None

    def _before(self) -> PlayerCard:
        player = self._player()
        if player is None:
            return PlayerCard(name="")
        return people_lookups.card(self.book, self.at.owner.clinic.id, player.id)

    def _new_card(self) -> PlayerCard:
        """The card as it is to be. Raises CourtlogError with what is wrong."""
        card = _card(self.in_hand.card_values(), self._before())
        today = times.local_date(self._clock(), self.at.owner.clinic.place)
        if card.filming_on > today.isoformat():
            raise CourtlogError(
                f"The date in line 9 is still to come: {card.filming_on}.", "Write it once more."
            )
        return card


def _short(text: str, most: int) -> str:
    return fit_short(plain(text), most)


def _card(values: dict[str, str], before: PlayerCard | None) -> PlayerCard:
    try:
        return card_of(values, before)
    except ValueError as error:
        raise CourtlogError(
            f"{capital('; '.join(error.args))}.", "Nothing was kept yet: mend its line."
        ) from error
