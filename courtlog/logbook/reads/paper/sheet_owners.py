"""Whose sheet a code is: the clinic and the player of this book, by their names."""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.coaching.game.people import Clinic, Player
from courtlog.coaching.game.sheet_code import SheetCode
from courtlog.errors import CourtlogError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups


@dataclass(frozen=True, slots=True)
class SheetOwner:
    """The clinic and the player that a sheet was printed for."""

    clinic: Clinic
    player: Player


@dataclass(frozen=True, slots=True)
class FormOwner:
    """The clinic that a form was printed for, and the player; None on a blank form."""

    clinic: Clinic
    player: Player | None


def sheet_owners(book: Book, code: SheetCode) -> list[SheetOwner]:
    """Whom the code can mean, nearly always one. Raises CourtlogError where it means nobody."""
    found = [
        SheetOwner(clinic, player)
        for clinic in lookups.clinics(book)
        for player in lookups.players(book, clinic.id)
        if any(code.belongs_to(clinic.name, name) for name in {player.shown_name, player.name})
    ]
    if found:
        return found
    for clinic in lookups.clinics(book):
        for name in _everybody(book):
            if code.belongs_to(clinic.name, name):
                raise CourtlogError(
                    f"{name} is on the roster of {clinic.name} no longer.",
                    "`courtlog roster add` puts a player on it; then the sheet can be typed in.",
                )
    raise CourtlogError(
        f"The code {code} is of no clinic and player of this book.",
        "Is it another clinic's sheet? --book names its book. A name changed since it was printed"
        " has to be as on the sheet.",
    )


def form_owners(book: Book, code: SheetCode) -> list[FormOwner]:
    """Whom a form can be of; a blank one is of its clinic alone. Raises CourtlogError."""
    blank = [
        FormOwner(clinic, None) for clinic in lookups.clinics(book) if code.belongs_to(clinic.name)
    ]
    return blank or [FormOwner(one.clinic, one.player) for one in sheet_owners(book, code)]


def _everybody(book: Book) -> list[str]:
    return [name for (name,) in book.db.execute("SELECT name FROM player ORDER BY name")]
