"""Keeps what is shown in step with a book that others may write in, or that cannot be written."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace

from courtlog.courtside.desk.court_state import CourtState
from courtlog.courtside.sound.sounds import Sound
from courtlog.errors import ChangedElsewhereError, CourtlogError
from courtlog.logbook.file.book import Book, Watch

READ_ONLY = "The book cannot be written to here: look at everything; nothing is stored."


class BookSync:
    """Watches the book, and knows whether what is shown may be older than it."""

    def __init__(self, state: CourtState) -> None:
        self._state = state
        self._watch = Watch(state.book.db)
        self._unsure = False
        self._commits_at_failure: int | None = None

    def recover_from(self, error: CourtlogError) -> None:
        """Say what could not be stored, and show what the book holds, by the next key at latest."""
        self._unsure = True
        with suppress(CourtlogError), self._state.book.reading():
            self._state.resume()
            self._unsure = False
        self._state.ring(Sound.REFUSED)
        self._state.refuse(str(error))
        if not isinstance(error, ChangedElsewhereError):
            self._commits_at_failure = self._state.book.commits.made
        self.show_failure()

    def show_failure(self) -> None:
        """Show that something could not be stored, until something was."""
        state = self._state
        failed = self._commits_at_failure == state.book.commits.made
        if state.view.not_stored is not failed:
            state.view = replace(state.view, not_stored=failed)

    def catch_up(self) -> None:
        """Show what the book holds now. Raises ChangedElsewhereError if the round is another."""
        news = self._watch.news()
        if not (news or self._unsure):
            return
        before = self._state.view.live
        self._state.resume(self._state.view.message)
        self._unsure = False
        if news and self._state.view.live != before and not self._state.book.read_only:
            raise ChangedElsewhereError(
                "Another window has changed this round; here is what the book holds.",
                "Look at it before you go on.",
            )

    def take_over(self, anyway: bool = False) -> bool:
        """Write from here on, if nobody else does, and show the book; whether that is so."""
        claim = self._state.book.lock
        if claim is None or not claim.take(anyway):
            return False
        self._watch.news()
        self._unsure = True
        self._state.resume("Nobody else writes in this book now: you do. Press the key again.")
        self._unsure = False
        return True


def first_message(book: Book) -> str:
    """What to say of a book that opens to read only; nothing of any other."""
    if book.lock is not None and not book.lock.held:
        return str(book.lock.refusal())
    return READ_ONLY if book.is_copy else ""
