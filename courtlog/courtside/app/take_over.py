"""Writing in a book that another window held: as soon as it is free, or when the coach says so."""

from __future__ import annotations

from courtlog.courtside.commands.base import Court
from courtlog.courtside.desk.book_sync import BookSync
from courtlog.courtside.dialogs.questions import YesNoQuestion
from courtlog.courtside.sound.sounds import Sound
from courtlog.errors import BookError
from courtlog.logbook.file.writer_lock import LockOwner


class TakeOver:
    """Takes the book over from a window that has ended; asks where that cannot be told."""

    def __init__(self, court: Court, sync: BookSync) -> None:
        self._court = court
        self._sync = sync

    def ask_if_left(self) -> bool:
        """Ask if the book was left unclosed elsewhere; whether it was asked."""
        claim = self._court.state.book.lock
        if claim is None or claim.stale_owner is None:
            return False
        self._ask(claim.stale_owner)
        return True

    def stand_by(self, error: BookError) -> None:
        """Take over if whoever wrote in the book has ended, else say who it is."""
        try:
            if self._sync.take_over():
                return
        except BookError as failure:
            error = failure
        self._court.state.refuse(str(error))
        self._court.state.ring(Sound.REFUSED)
        self.ask_if_left()

    def _ask(self, left: LockOwner) -> None:
        question = YesNoQuestion(
            f"This book was not closed by {left.words()}. If nobody writes there any more, write"
            " here; two at once would spoil each other's work.",
            "writes here",
            "looks only",
        )

        def answered(here: bool | None) -> None:
            if here:
                self._court.carry_out(lambda: self._sync.take_over(anyway=True))

        self._court.open(question, answered)
