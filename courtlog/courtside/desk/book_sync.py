"""Keeps the desk abreast of a book that others may write in, and that may refuse to be written."""

from __future__ import annotations

from contextlib import suppress

from courtlog.courtside.desk.desk import Desk
from courtlog.errors import ChangedElsewhereError, CourtlogError
from courtlog.logbook.file.watch import Watch

READ_ONLY = "The book cannot be written to here: look at everything; nothing is stored."


class Abreast:
    """One desk, and whether what it shows may be older than the book."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._watch = Watch(desk.book.db)
        self._unsure = False

    def failed(self, error: CourtlogError) -> None:
        """Something could not be stored: show what the book holds, by the next key at latest."""
        self._unsure = True
        with suppress(CourtlogError), self._desk.book.told():
            self._desk.resume()
            self._unsure = False
        self._desk.rings += 1
        self._desk.refuse(str(error))

    def catch_up(self) -> None:
        """Show what the book holds now. Raises ChangedElsewhereError if the round is another."""
        news = self._watch.news()
        if not (news or self._unsure):
            return
        before = self._desk.view.live
        self._desk.resume(self._desk.view.said)
        self._unsure = False
        if news and self._desk.view.live != before and not self._desk.book.read_only:
            raise ChangedElsewhereError(
                "Another window has changed this round; here is what the book holds.",
                "Look at it before you go on.",
            )

    def take_over(self, anyway: bool = False) -> bool:
        """Write from here on, if nobody else does; shows what the book holds then."""
        claim = self._desk.book.claim
        if claim is None or not claim.take(anyway):
            return False
        self._watch.news()
        self._unsure = True
        self._desk.resume("Nobody else writes in this book now: you do. Press the key again.")
        self._unsure = False
        return True


def first_words(desk: Desk) -> str:
    """What to say of a book that opens to read only; nothing of any other."""
    if desk.book.claim is not None and not desk.book.claim.held:
        return str(desk.book.claim.refusal())
    return READ_ONLY if desk.book.fixed else ""
