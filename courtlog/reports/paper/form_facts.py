"""The form before the clinic: what a player or guardian is asked, why, and who sees the answer.

What is known already stands on it to be checked. Whom to call stands on an adult's form alone.
Others may see the form of a minor, or of somebody whose age nobody has said.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from courtlog.coaching.game.cards import ADULT, MINOR, PlayerCard
from courtlog.coaching.game.people import Clinic, Player
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups, people_lookups

COACHES = "the coaches of this clinic"

NAME, AGE, HAND = "name", "age", "hand"
COMPLAINTS, CONTACT, FILMING, GOAL = "complaints", "contact", "filming", "goal"

NO_IS_FINE = "A no changes nothing else. A yes can be taken back at any time."
KEPT_ALREADY = "One is kept already. Write it again only if it has changed."


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One thing that is asked; `key` is its line of the card."""

    key: str
    asks: str
    why: str
    seen_by: str
    choices: tuple[str, ...] = ()
    """Answers to tick; empty where there are lines to write on."""
    lines: int = 0
    """Lines to write on."""
    known: str = ""
    """What the card has already: one of the choices, or a text to check."""
    hint: str = ""
    """What is said under the question, such as that an answer is kept already."""

    @property
    def blank_lines(self) -> int:
        """Lines to write on: one of several is taken by what is known."""
        return self.lines - 1 if self.known and self.lines > 1 else self.lines


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """One form, of a player or blank."""

    clinic: str
    player: str
    """The name as the roster shows it; empty on a blank form."""
    code: SheetCode
    questions: tuple[Question, ...]
    months: int
    """How long the answers are kept after the last day; 0: no time is set."""


def forms(
    book: Book, clinic: Clinic, player: str | None, blank: int, months: int, on: date
) -> list[Form]:
    """A form for everyone on the roster, or for the one who is named, and so many blank ones.

    `on` is the date it is printed. Raises UnknownNameError.
    """
    entries = people_lookups.entries(book, clinic.id)
    if player is not None:
        chosen = lookups.player_on_roster(book, clinic.id, player)
        entries = [entry for entry in entries if entry.player.id == chosen.id]
    known = [_form(clinic, entry.player, entry.card, months, on) for entry in entries]
    nobody = PlayerCard(name="")
    return known + [_form(clinic, None, nobody, months, on) for _ in range(blank)]


def _form(clinic: Clinic, who: Player | None, card: PlayerCard, months: int, on: date) -> Form:
    name = who.shown_name if who else ""
    return Form(
        clinic=clinic.name,
        player=name,
        code=SheetCode.of(SheetKind.FORM, on, clinic.name, name),
        questions=tuple(questions(card)),
        months=months,
    )


def questions(card: PlayerCard) -> Iterator[Question]:
    """What is asked, in the order of the paper, with what this card has already."""
    yield Question(
        key=NAME,
        asks="Name, as you write it",
        why="So that every ball is written down for the right player.",
        seen_by="everyone at the court",
        lines=1,
        known=card.name,
    )
    yield Question(
        key=AGE,
        asks="Age group",
        why="For a minor a parent or guardian decides, and local rules go first.",
        seen_by=COACHES,
        choices=(ADULT, MINOR),
        known=card.age,
    )
    yield Question(
        key=HAND,
        asks="Hand that holds the racquet",
        why="So that balls are fed to the right side.",
        seen_by="everyone at the court",
        choices=("right", "left"),
        known=card.hand,
    )
    yield Question(
        key=COMPLAINTS,
        asks="What hurts or has hurt: where, when (or none)",
        why="So that the coach goes easy there and stops in time. It is no medical advice.",
        seen_by=COACHES,
        lines=2,
        known=card.complaints,
    )
    yield Question(
        key=CONTACT,
        asks="Whom to call, and the number",
        why="In case something happens. It stands on no sheet that goes on court.",
        seen_by=COACHES,
        lines=1,
        known=card.contact if card.age == ADULT else "",
        hint=KEPT_ALREADY if card.contact and card.age != ADULT else "",
    )
    yield Question(
        key=FILMING,
        asks="May you be filmed?",
        why="To look at a stroke again, slowly.",
        seen_by=f"{COACHES}, and you",
        choices=("yes", "no"),
        known="" if card.filming == "yes" and not card.may_be_filmed else card.filming,
        hint=NO_IS_FINE,
    )
    yield Question(
        key=GOAL,
        asks="What you come for, in your own words",
        why="So that the plan begins with it.",
        seen_by=COACHES,
        lines=2,
        known=card.goal,
    )
