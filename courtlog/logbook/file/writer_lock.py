"""Who writes in a book: a small file beside it, locked by the system while its program lives.

The system's own file lock says whether the writer still lives; the words in the file say who it is.
Where a file system has no locks, the process number on this computer replaces them.
"""

from __future__ import annotations

import contextlib
import errno
import getpass
import json
import os
import socket
import sys
import time
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path

from courtlog import private, stale_drafts
from courtlog.errors import BookLockedError, HeldElsewhereError
from courtlog.processes import runs

_MOST = 2000
"""Bytes of the file that are read; it holds far fewer."""

_A_WHILE, _PATIENCE = 0.02, 75
"""Seconds between two looks at a lock without words, and how many looks are taken."""

_NO_LINK = getattr(os, "O_NOFOLLOW", 0)
"""Somebody may have put a link there, to a file that would be written over."""

_FAR = 1 << 30
"""Windows locks bytes, not files, and hides them from readers: this one is behind all words."""


@dataclass(frozen=True, slots=True)
class LockOwner:
    """A program that writes in a book, or would: whose, where, and since when (ms UTC)."""

    who: str
    host: str
    process: int
    since: int

    @classmethod
    def here(cls, coach: str, now: int) -> LockOwner:
        """This program; the coach's name, or else the name of the computer's user."""
        user = coach.strip()
        if not user:
            with contextlib.suppress(OSError, KeyError, ImportError):
                user = getpass.getuser()
        return cls(user or "somebody", socket.gethostname() or "this computer", os.getpid(), now)

    def words(self) -> str:
        """`Ines on court-laptop (process 812) since 2026-05-12 09:30`, by this computer's clock."""
        if not self.since:
            return f"{self.who} on {self.host}"
        begun = ""
        with contextlib.suppress(OverflowError, OSError, ValueError):
            begun = f" since {datetime.fromtimestamp(self.since / 1000):%Y-%m-%d %H:%M}"  # noqa: DTZ006
        return f"{self.who} on {self.host} (process {self.process}){begun}"


UNKNOWN = LockOwner("another program", "a computer that did not say its name", 0, 0)
"""Locked, but the file holds nothing that can be read."""


class WriterLock:
    """One program's lock on a book; `held` while it may write, else `other_owner` is who may.

    `stale_owner` is on another computer: nothing shows that it lives, nor that it ended.
    """

    def __init__(self, book: Path, owner: LockOwner) -> None:
        self.path = book.with_name(f"{book.name}-holder")
        self.book = book
        self.owner = owner
        self.held = False
        self.other_owner: LockOwner | None = None
        self.stale_owner: LockOwner | None = None
        self._file: int | None = None

    def take(self, anyway: bool = False, briefly: bool = False, tries: int = 20) -> bool:
        """Take the lock if nobody has it; with `anyway` also from a computer that may have ended.

        A lock taken `briefly` names no owner: others wait for it and are not refused. While the
        file is being removed, it is tried again.
        """
        if self.held:
            return True
        self.other_owner = self.stale_owner = None
        try:
            file = self._open(os.O_CREAT)
        except OSError:
            # Not even a file can be made here: SQLite's own locks are all there is.
            self.held = True
            return True
        self._look(file, anyway)
        if self.other_owner is None and not self._is_still_there(file) and tries:
            os.close(file)
            return self.take(anyway, briefly, tries - 1)
        self.held = self.other_owner is None and self.stale_owner is None
        if self.held:
            self._file = file
            _write(file, None if briefly else self.owner)
        else:
            os.close(file)
        return self.held

    def check_near(self) -> None:
        """Raises HeldElsewhereError while another computer has the book, or may have it.

        Takes no lock, so that commands which only add never wait for one another.
        """
        self.other_owner = self.stale_owner = None
        try:
            file = self._open(0)
        except OSError:
            return
        try:
            last = _read(file)
            if last is None or last.host != self.owner.host:
                self._look(file, False)
        finally:
            os.close(file)
        if self.other_owner is UNKNOWN:
            return  # it has not yet said who it is, and SQLite's own locks order who writes when
        if (self.other_owner or self.stale_owner or self.owner).host != self.owner.host:
            raise self.refusal()

    def release(self) -> None:
        """Unlock the book and remove the lock's file."""
        file, self._file, self.held = self._file, None, False
        if file is None:
            return
        stale_drafts.remove(self.path)
        with contextlib.suppress(OSError):
            os.close(file)
        if sys.platform == "win32":  # an open file cannot be removed there
            stale_drafts.remove(self.path)

    def check(self) -> None:
        """Raises HeldElsewhereError while another program writes in the book."""
        if not self.held:
            raise self.refusal()

    def refusal(self) -> HeldElsewhereError:
        """Who has the book, and what to do about it."""
        if self.stale_owner is not None:
            return HeldElsewhereError(
                f"The book was not closed by {self.stale_owner.words()}.",
                "Nothing is written here until you take it over: open `courtlog` on it.",
            )
        other = self.other_owner or UNKNOWN
        return HeldElsewhereError(
            f"{other.words()} writes in this book.", "Here it is read only; close it there first."
        )

    def _open(self, create: int) -> int:
        """The file's number. Raises OSError, and BookLockedError where it is a link."""
        try:
            file = os.open(self.path, os.O_RDWR | create | _NO_LINK, private.FILE)
        except OSError as error:
            if error.errno == errno.ELOOP:
                raise self._is_a_link() from error
            raise
        if os.fstat(file).st_nlink > 1:
            os.close(file)
            raise self._is_a_link()
        return file

    def _look(self, file: int, anyway: bool) -> None:
        """Lock the file, or find out who has it."""
        for patience in range(_PATIENCE, -1, -1):
            last = _read(file)
            try:
                _lock(file)
                break
            except OSError as error:
                if error.errno in (errno.EACCES, errno.EAGAIN, errno.EDEADLK):
                    if last is None and patience:
                        time.sleep(_A_WHILE)  # who has just taken it has not yet written who it is
                        continue
                    self.other_owner = last or UNKNOWN
                    return
                if last is not None and last.host == self.owner.host and runs(last.process):
                    self.other_owner = last
                    return
                break
        if last is not None and last.host != self.owner.host and not anyway:
            self.stale_owner = last

    def _is_a_link(self) -> BookLockedError:
        return BookLockedError(
            f"The file {self.path} is a link to another file; courtlog would write into that one.",
            "Remove the link; courtlog makes a file of that name itself.",
        )

    def _is_still_there(self, file: int) -> bool:
        """Whether the locked file is the one beside the book, not one just taken away."""
        try:
            return os.path.samestat(os.fstat(file), self.path.stat())
        except OSError:
            return False


def _read(file: int) -> LockOwner | None:
    """The owner that the file names; None where it names nobody."""
    try:
        os.lseek(file, 0, os.SEEK_SET)
        words = json.loads(os.read(file, _MOST).decode())
        return LockOwner(
            str(words["who"]), str(words["host"]), int(words["process"]), int(words["since"])
        )
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return None


def _write(file: int, owner: LockOwner | None) -> None:
    """On a full disk the lock holds without its words."""
    with contextlib.suppress(OSError):
        os.ftruncate(file, 0)
        os.lseek(file, 0, os.SEEK_SET)
        if owner is not None:
            os.write(file, json.dumps(asdict(owner)).encode())


if sys.platform == "win32":
    import msvcrt

    def _lock(file: int) -> None:
        os.lseek(file, _FAR, os.SEEK_SET)
        msvcrt.locking(file, msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _lock(file: int) -> None:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
