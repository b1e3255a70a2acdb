"""Files that somebody names: only ordinary ones are opened, and no more is read than makes sense.

A device may never end, a pipe may never begin, and SQLite has names of its own that are no files.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from courtlog.errors import NotAFileError

MOST_BYTES = 16 << 20
"""Most bytes of a text file; a sheet of this size has three million balls.

Reading it takes some ten times as much memory.
"""

_NO_FILES = {":memory:"}
"""Names that SQLite takes for a book in memory."""

_NEXT = "Nothing was changed. Name an ordinary file."
_LONGEST = 300

_KINDS = (
    (stat.S_ISDIR, "a folder"),
    (stat.S_ISCHR, "a device"),
    (stat.S_ISBLK, "a device"),
    (stat.S_ISFIFO, "a pipe"),
    (stat.S_ISSOCK, "a socket"),
)


def check_ordinary(path: Path, wanted: str) -> None:
    """Refuse a path that leads to anything but a file or nothing; `wanted`: a book, a sheet.

    Raises NotAFileError.
    """
    if path.name in _NO_FILES:
        raise NotAFileError(f"{path.name} is no {wanted}.", _NEXT)
    try:
        mode = path.stat().st_mode
    except (FileNotFoundError, NotADirectoryError, PermissionError):
        return  # the error comes when it is opened
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) else "no such name"
        raise NotAFileError(f"{_short(path)} is no {wanted} ({reason}).", _NEXT) from error
    _check_mode(path, wanted, mode)


def read_ordinary(path: Path, wanted: str, most: int = MOST_BYTES) -> bytes:
    """What an ordinary file holds. Raises NotAFileError, also where it holds more than `most`.

    Raises OSError where the system does not let it be read.
    """
    with open_ordinary(path, wanted) as file:
        content = file.read(most + 1)
    if len(content) > most:
        raise NotAFileError(f"{_short(path)} is too large for a {wanted}.", _NEXT)
    return content


@contextmanager
def open_ordinary(path: Path, wanted: str) -> Iterator[BinaryIO]:
    """An ordinary file, open to be read in part. Raises NotAFileError and OSError."""
    check_ordinary(path, wanted)
    # Another file may have taken its place meanwhile, so the open file is checked too.
    number = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    with os.fdopen(number, "rb") as file:
        _check_mode(path, wanted, os.fstat(number).st_mode)
        yield file


def _check_mode(path: Path, wanted: str, mode: int) -> None:
    if not stat.S_ISREG(mode):
        kind = next((words for is_kind, words in _KINDS if is_kind(mode)), "something else")
        raise NotAFileError(f"{_short(path)} is {kind}, not a {wanted}.", _NEXT)


def _short(path: Path) -> str:
    """The path, or the end of one that is too long to be meant."""
    text = str(path)
    return text if len(text) <= _LONGEST else f"…{text[-80:]}"
