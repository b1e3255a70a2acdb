"""Drafts that are being written or were left by dead programs: how they are named and removed.

A draft is a folder whose name says which program of which computer writes in it. A draft may hold a
note of where another one lies; both are removed together.
"""

from __future__ import annotations

import contextlib
import os
import re
import shutil
import sys
import time
from pathlib import Path

from courtlog import processes

_NAME = re.compile(r"\.courtlog-([0-9a-f]{8})-(\d+)-[0-9a-f]{8}\.new")
"""The names of drafts: the computer, the process, and a random number."""

_ELSEWHERE = "elsewhere"
"""The file in a draft that notes where another one lies."""

_OLDER_NAME = re.compile(r"book-[a-z0-9_]{8}\.new(-journal|-wal|-shm)?")
"""The names that earlier versions gave to half-made copies of a book."""

_A_DAY = 86_400.0
"""Seconds after which a draft counts as dead, where its program cannot be checked."""

being_written: set[Path] = set()
"""Drafts that this program writes just now."""


def new_name() -> str:
    """A name for a draft of this program that no other draft has."""
    return f".courtlog-{processes.computer()}-{os.getpid()}-{os.urandom(4).hex()}.new"


def note_elsewhere(note: Path, draft: Path) -> None:
    """Write into a draft where another one lies. Raises OSError."""
    (note / _ELSEWHERE).write_text(str(draft), encoding="utf-8", errors="surrogateescape")


def sweep(place: Path) -> None:
    """Remove the drafts of dead programs from a folder, as far as that can be done."""
    for draft in left_in(place):
        if _is_dead(draft):
            remove(draft)


def left_in(place: Path) -> list[Path]:
    """All drafts in a folder: of programs that write there now, or that have died."""
    try:
        with os.scandir(place) as entries:
            names = [entry.name for entry in entries]
    except OSError:
        return []
    return [
        place / name
        for name in sorted(names)
        if _NAME.fullmatch(name) or _OLDER_NAME.fullmatch(name)
    ]


def remove(draft: Path) -> bool:
    """Remove a draft or another file with all that is in it; True when it is gone.

    After one error, or an order to stop, it is tried once more.
    """
    try:
        _remove(draft)
    except OSError:
        with contextlib.suppress(OSError):
            _remove(draft)
    except BaseException:
        with contextlib.suppress(OSError):
            _remove(draft)
        raise
    return not os.path.lexists(draft)


def _remove(draft: Path) -> None:
    with contextlib.suppress(FileNotFoundError):
        if draft.is_symlink() or not draft.is_dir():
            draft.unlink()
            return
        _remove_noted(draft)
        try:
            draft.rmdir()  # an empty folder can go even where no file can be opened
        except OSError:
            shutil.rmtree(draft)


def _remove_noted(note: Path) -> None:
    """Remove the draft that another one notes. Raises OSError while its place is not there."""
    try:
        written = (note / _ELSEWHERE).read_text(encoding="utf-8", errors="surrogateescape")
    except (FileNotFoundError, ValueError):
        return
    noted = Path(written)
    if _NAME.fullmatch(noted.name):
        noted.parent.stat()
        with contextlib.suppress(FileNotFoundError):
            shutil.rmtree(noted)


def _is_dead(draft: Path) -> bool:
    """Whether the program that wrote it is gone."""
    parts = _NAME.fullmatch(draft.name)
    if parts is not None and parts[1] == processes.computer():
        process = int(parts[2])
        if process == os.getpid():
            return draft.absolute() not in being_written
        if not processes.runs(process):
            return True
        if sys.platform != "win32":
            return False
    try:
        return time.time() - draft.lstat().st_mtime > _A_DAY
    except OSError:
        return False
