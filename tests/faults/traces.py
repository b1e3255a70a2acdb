"""What a folder holds, in a form that two runs at different times can be compared by."""

from __future__ import annotations

import re
import shutil
import sqlite3
import tempfile
from collections.abc import Mapping
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from courtlog.logbook.file import doctor
from courtlog.logbook.file.open_book import open_existing
from tests.terminal.books import MOMENT

SIDE_FILES = ("-journal", "-wal", "-shm")
"""What SQLite keeps beside a book until it is opened and closed the next time."""

_STAMP = re.compile(r"\d{8}T\d{6}")

_seen: dict[tuple[bytes, ...], Trace] = {}
"""Books that were read before: most are the same from one trial to the next."""

_MOST_SEEN = 60

_PASSING = {"home"}
"""Tables that say where a book is, and not what it holds."""


@dataclass(frozen=True, slots=True)
class Trace:
    """A file: how much it holds (bytes, or rows by table of a book), and what exactly."""

    much: object
    exactly: object


def traces(folder: Path) -> dict[str, Trace]:
    """Every file and folder; moments in names are masked, and side files of books left out."""
    found: dict[str, Trace] = {}
    for path in sorted(folder.rglob("*")):
        name = _STAMP.sub("#", str(path.relative_to(folder)))
        while name in found:
            name += "'"
        if path.is_dir():
            found[f"{name}/"] = Trace(0, 0)
        elif not (path.name.endswith(SIDE_FILES) and _book_of(path).exists()):
            found[name] = _of_book(path) if path.suffix == ".db" else _of_file(path)
    return found


def side_files(folder: Path) -> list[str]:
    """SQLite's files beside books."""
    return sorted(
        str(path.relative_to(folder))
        for path in folder.rglob("*")
        if path.name.endswith(SIDE_FILES)
    )


def ratings(path: Path) -> set[tuple[int, int, int]]:
    """Every grade in a book, read from a copy."""
    with tempfile.TemporaryDirectory() as folder, closing(_copied(path, Path(folder))) as db:
        return set(db.execute("SELECT ball_id, row, grade FROM rating"))


def trouble(path: Path) -> list[str]:
    """What the doctor says of a book, opening it as the next command would."""
    if damaged := doctor.damage(path):
        return [damaged]
    with closing(open_existing(path, MOMENT)) as book:
        return [finding.sentence for finding in doctor.findings(book)]


def _book_of(path: Path) -> Path:
    return Path(re.sub("-(journal|wal|shm)$", "", str(path)))


def _of_file(path: Path) -> Trace:
    data = path.read_bytes()
    return Trace(len(data), data)


def _of_book(path: Path) -> Trace:
    """Rows by table; the same of a copy with what a log or journal beside it says."""
    parts = (Path(f"{path}{ending}") for ending in ("", "-journal", "-wal"))
    held = tuple(part.read_bytes() if part.exists() else b"" for part in parts)
    if held not in _seen:
        if len(_seen) > _MOST_SEEN:
            _seen.clear()
        _seen[held] = _read(path)
    return _seen[held]


def _read(path: Path) -> Trace:
    try:
        with tempfile.TemporaryDirectory() as folder, closing(_copied(path, Path(folder))) as db:
            names = [
                name
                for (name,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
                if name not in _PASSING
            ]
            rows: Mapping[str, list[object]] = {
                name: sorted(db.execute(f"SELECT * FROM {name}"), key=repr) for name in names
            }
            assert db.execute("PRAGMA quick_check(1)").fetchone() == ("ok",)
    except (sqlite3.Error, AssertionError):
        return Trace("damaged", path.read_bytes())
    return Trace({name: len(found) for name, found in rows.items()}, rows)


def _copied(path: Path, folder: Path) -> sqlite3.Connection:
    for ending in ("", *SIDE_FILES):
        part = Path(f"{path}{ending}")
        if part.exists() and ending != "-shm":
            shutil.copyfile(part, folder / f"book.db{ending}")
    return sqlite3.connect(folder / "book.db")
