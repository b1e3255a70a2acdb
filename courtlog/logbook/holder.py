"""Who writes in a book: a small file beside it, locked by the system while its program lives.

The system's own file lock says whether the holder still lives; the words in the file say who it
is. Where a file system has no locks, the process number of this computer stands in for them.
"""

from __future__ import annotations

import contextlib
import errno
import getpass
import json
import os
import socket
import sys
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path

from courtlog import drafts
from courtlog.errors import HeldElsewhereError
from courtlog.processes import runs

_MOST = 2000
"""Bytes of the file that are read; it holds far fewer."""

_FAR = 1 << 30
"""Windows locks bytes, not files, and hides them from readers: this one is behind all words."""


@dataclass(frozen=True, slots=True)
class Holder:
    """A program that writes in a book, or would: whose, where, and since when (ms UTC)."""

    who: str
    host: str
    process: int
    since: int

    @classmethod
    def here(cls, coach: str, now: int) -> Holder:
        """This program; the coach's name, or else the name of the computer's user."""
        user = coach.strip()
        if not user:
            with contextlib.suppress(OSError, KeyError, ImportError):
                user = getpass.getuser()
        return cls(user or "somebody", socket.gethostname() or "this computer", os.getpid(), now)

    def words(self) -> str:
        """`Ines on court-laptop (process 812) since 2026-05-12 09:30`, by this computer's clock."""
        begun = ""
        with contextlib.suppress(OverflowError, OSError, ValueError):
            begun = f" since {datetime.fromtimestamp(self.since / 1000):%Y-%m-%d %H:%M}"  # noqa: DTZ006
        return f"{self.who} on {self.host} (process {self.process}){begun}"


UNKNOWN = Holder("another program", "a computer that did not say its name", 0, 0)
"""Held, but the file says nothing that can be read."""


class Claim:
    """One program's wish to write in a book; `held` while it may, else `other` is who may.

    `left` is a holder on another computer that is not seen to be alive, nor known to be gone.
    """

    def __init__(self, book: Path, me: Holder) -> None:
        self.path = book.with_name(f"{book.name}-holder")
        self.book = book
        self.me = me
        self.held = False
        self.other: Holder | None = None
        self.left: Holder | None = None
        self._file: int | None = None

    def take(self, anyway: bool = False) -> bool:
        """Take hold if nobody has it; with `anyway` also from a computer that may be gone."""
        if self.held:
            return True
        self.other = self.left = None
        try:
            file = os.open(self.path, os.O_RDWR | os.O_CREAT, 0o600)
        except OSError:
            # Not even a file can be made here: SQLite's own locks are all there is.
            self.held = True
            return True
        self._look(file, anyway)
        if self.other is None and not self._is_still_there(file):
            os.close(file)
            return self.take(anyway)
        self.held = self.other is None and self.left is None
        if self.held:
            self._file = file
            _write(file, self.me)
        else:
            os.close(file)
        return self.held

    def release(self) -> None:
        """Let go of the book; the file goes away."""
        file, self._file, self.held = self._file, None, False
        if file is None:
            return
        drafts.remove(self.path)
        with contextlib.suppress(OSError):
            os.close(file)
        if sys.platform == "win32":  # an open file cannot be removed there
            drafts.remove(self.path)

    @property
    def is_afar(self) -> bool:
        """Whether another computer has the book, or may still have it."""
        return self.left is not None or (self.other or self.me).host != self.me.host

    def check(self) -> None:
        """Raises HeldElsewhereError while somebody else writes in the book."""
        if not self.held:
            raise self.refusal()

    def refusal(self) -> HeldElsewhereError:
        """Who has the book, and what to do about it."""
        if self.left is not None:
            return HeldElsewhereError(
                f"The book was not closed by {self.left.words()}.",
                "Nothing is written here until you take it over.",
            )
        other = self.other or UNKNOWN
        return HeldElsewhereError(
            f"{other.words()} writes in this book.", "Here it is read only; close it there first."
        )

    def _look(self, file: int, anyway: bool) -> None:
        """Lock the file, and say who stands in the way."""
        last = _read(file)
        try:
            _lock(file)
        except OSError as error:
            if error.errno in (errno.EACCES, errno.EAGAIN, errno.EDEADLK):
                self.other = last or UNKNOWN
                return
            if last is not None and last.host == self.me.host and runs(last.process):
                self.other = last
                return
        if last is not None and last.host != self.me.host and not anyway:
            self.left = last

    def _is_still_there(self, file: int) -> bool:
        """Whether the locked file is the one beside the book, not one just taken away."""
        try:
            return os.path.samestat(os.fstat(file), self.path.stat())
        except OSError:
            return False


def _read(file: int) -> Holder | None:
    try:
        os.lseek(file, 0, os.SEEK_SET)
        found = json.loads(os.read(file, _MOST).decode())
        return Holder(
            str(found["who"]), str(found["host"]), int(found["process"]), int(found["since"])
        )
    except (OSError, ValueError, KeyError, TypeError):
        return None


def _write(file: int, holder: Holder) -> None:
    """On a full disk the lock holds without its words."""
    with contextlib.suppress(OSError):
        os.ftruncate(file, 0)
        os.lseek(file, 0, os.SEEK_SET)
        os.write(file, json.dumps(asdict(holder)).encode())


if sys.platform == "win32":
    import msvcrt

    def _lock(file: int) -> None:
        os.lseek(file, _FAR, os.SEEK_SET)
        msvcrt.locking(file, msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _lock(file: int) -> None:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
