"""Whether a new book begins where none is: a court's book never does, since `courts` writes it.

A name typed wrong would else begin an empty book, into which an assistant feeds a morning.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from courtlog.coaching.game.court_book import COURT_FILES
from courtlog.errors import BookError
from courtlog.plain_text import listed, plain

_MOST_NAMED = 4
"""Books nearby that are named; more would not fit a sentence."""

COURTS_FOLDER = "courts"
"""The folder beside the head coach's book for the books of courts, where none is named."""


def check_new_book(path: Path) -> None:
    """Refuse to begin a book that is called like a court's. Raises BookError."""
    if not path.match(COURT_FILES) or (path.exists() and path.stat().st_size):
        return
    if path.exists():
        raise BookError(f"{path} is empty: its copying did not end.", "Copy it once more.")
    home = path.parent
    near = sorted([*home.glob(COURT_FILES), *(home / COURTS_FOLDER).glob(COURT_FILES)])
    there = f" Near there: {_names(near)}." if near else ""
    raise BookError(
        f"There is no book of a court at {path}.{there}",
        "`courtlog courts` on the head coach's laptop writes it; copy it from the stick.",
    )


def may_begin(path: Path) -> bool:
    """Whether a book named by hand begins new: asked where other books lie beside it."""
    near = [] if path.exists() else sorted(path.parent.glob("*.db"))
    if not near:
        return True
    print(plain(f"There is no book at {path}. Books there: {_names(near)}."))
    try:
        return input("Enter leaves, new begins a new book: ").strip().casefold() == "new"
    except EOFError:
        return False


def _names(books: Sequence[Path]) -> str:
    more = [f"{len(books) - _MOST_NAMED} more"] if len(books) > _MOST_NAMED else []
    return listed([*map(str, books[:_MOST_NAMED]), *more])
