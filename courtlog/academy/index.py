"""The small file of an academy's folder that says which files count.

It is replaced as a whole. A file that it does not name is not there for any question. So whatever
stopped a program, the folder is as it was before or as it is after.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from pathlib import Path

from courtlog import drafts
from courtlog.errors import CourtlogError
from courtlog.values import WrongValueError, take_json

INDEX = "academy.json"
FORMAT = 1
"""Of the index; a later one may name files that today's reader would misunderstand."""

_MOST_BYTES = 64 << 20
TABLE = re.compile(r"[a-z][a-z_]*")
BOOK = re.compile(r"[1-9]\d{0,18}")
_EXPORT = re.compile(r"\d{8}T\d{6}Z")


@dataclass(frozen=True, slots=True, kw_only=True)
class BookEntry:
    """The newest export of one book."""

    export: str
    """When it was written, in UTC, as its folders are called: `20260512T173000Z`."""
    progress: tuple[int, ...]
    """How far the book had come; of two exports the one that is further counts."""
    schema: int
    """The version of the book's tables."""
    anonymous: bool
    """Whether names and texts were left out."""
    with_minors: bool
    """Whether minors are in it."""
    minors_left_out: int
    """How many stayed at home."""
    rows: dict[str, int]
    """The rows of each table that has a file."""


@dataclass(frozen=True, slots=True)
class Index:
    """Every book of the folder, by its number."""

    format: int = FORMAT
    books: dict[str, BookEntry] = field(default_factory=dict)

    def with_book(self, book: int, entry: BookEntry) -> Index:
        """The index after that export."""
        return Index(self.format, {**self.books, str(book): entry})


def part_of(table: str, book: int | str, export: str) -> Path:
    """Where in the folder the rows of a table are, of one export of one book."""
    return Path(table) / f"book={book}" / f"export={export}" / "part.parquet"


def files_of(index: Index | Mapping[str, BookEntry], table: str) -> list[Path]:
    """The table's files that count, in the order of the books' numbers."""
    books = index.books if isinstance(index, Index) else index
    return [
        part_of(table, book, entry.export)
        for book, entry in sorted(books.items(), key=lambda item: int(item[0]))
        if table in entry.rows
    ]


def read_index(folder: Path) -> Index:
    """The folder's index; an empty one where none was written yet. Raises CourtlogError."""
    path = folder / INDEX
    try:
        if not path.exists():
            return Index()
        text = path.read_bytes()[: _MOST_BYTES + 1]
        index = take_json(Index, text)
    except OSError as error:
        raise CourtlogError(
            f"The folder {folder} cannot be read ({error.strerror}).", "Check its name and place."
        ) from error
    except WrongValueError as error:
        raise _strange(path) from error
    if index.format > FORMAT:
        raise CourtlogError(f"A later courtlog wrote {path}.", "Update courtlog.")
    for book, entry in index.books.items():
        names = all(map(TABLE.fullmatch, entry.rows))
        if not (BOOK.fullmatch(book) and _EXPORT.fullmatch(entry.export) and names):
            raise _strange(path)
    return index


def write_index(folder: Path, index: Index) -> None:
    """Replace the index. Raises OSError."""
    text = json.dumps(asdict(index), indent=1, sort_keys=True)
    drafts.write(folder / INDEX, text + "\n")


def _strange(path: Path) -> CourtlogError:
    return CourtlogError(
        f"{path} is not an index that courtlog wrote.",
        "Name another folder, or make a new one and add the books again.",
    )
