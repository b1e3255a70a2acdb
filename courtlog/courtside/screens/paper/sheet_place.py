"""Where a sheet belongs by its code: the clinic, the player, and whether its day has come."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog import times
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.errors import CourtlogError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.paper.sheet_owners import SheetOwner, sheet_owners

TYPED = (SheetKind.COURT, SheetKind.HOME)
"""Kinds of sheets with rows of balls."""


@dataclass(frozen=True, slots=True)
class SheetPlace:
    """A sheet's code, and whose it is."""

    code: SheetCode
    owner: SheetOwner

    @property
    def title(self) -> str:
        """`Maren · court sheet, round 2 · Tue 12 May · Harbour Week`.

        The date of a home yardstick is that of the one it is held against, and is said to be.
        """
        kind = str(self.code.kind)
        if self.code.kind is SheetKind.COURT:
            kind += f", round {self.code.number}"
        owner = self.owner
        when = times.date_words(self.code.on)
        if self.code.kind is SheetKind.HOME:
            when = f"held against {when}"
        return f"{owner.player.shown_name} · {kind} · {when} · {owner.clinic.name}"

    def today(self, at_ms: int) -> date:
        """The date of that moment where the clinic is."""
        return times.local_date(at_ms, self.owner.clinic.place)


def sheet_places(book: Book, text: str, at_ms: int) -> list[SheetPlace]:
    """Where the sheet of a typed code can belong, nearly always one place.

    Raises CourtlogError.
    """
    code = SheetCode.from_text(text)
    if code.kind not in TYPED:
        raise CourtlogError(
            f"{code} is the code of a {code.kind}.", "This screen takes sheets with boxes."
        )
    places = [SheetPlace(code, owner) for owner in sheet_owners(book, code)]
    for place in places:
        if code.on > place.today(at_ms):
            raise CourtlogError(
                f"The sheet is for {times.date_words(code.on)}, a day still to come.",
                "Read its code once more, or see whether this laptop has the right date.",
            )
    return places
