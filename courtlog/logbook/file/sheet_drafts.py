"""Sheets that are being typed in: each is a file beside the book until it is kept.

The file is named by its book and by the sheet's code, which names nobody. Two books of one clinic,
like those of two courts, may lie in one folder: neither goes on with what was typed for the other.
A draft is written after every key, so that a laptop that dies costs nothing that was seen. Erasing
a person deletes theirs.
"""

from __future__ import annotations

import contextlib
from collections.abc import Collection
from pathlib import Path

from courtlog import drafts, given_files, private
from courtlog.coaching.game.sheet_code import SheetCode, SheetCodeError, SheetKind
from courtlog.coaching.paper.filled_form import form_of_draft
from courtlog.errors import CourtlogError
from courtlog.names import folded_name

_ENDING = ".typing.json"
_MOST_BYTES = 100_000
"""Bytes of a draft at most; a sheet of 300 rows has a tenth."""


def folder_of(book: Path) -> Path:
    """Where the drafts of this book lie, and those of its neighbours."""
    return book.absolute().parent / "typing"


class SheetDraft:
    """The draft of one sheet in this program's hands; what another program typed stays."""

    def __init__(self, book: Path, code: SheetCode) -> None:
        self._book, self._code = book, code
        self._last: bytes | None = None

    def read(self) -> bytes | None:
        """What was typed before; None where nothing was. Raises CourtlogError."""
        self._last = read_draft(self._book, self._code)
        return self._last

    def write(self, text: str) -> None:
        """Keep what was typed so far. Raises CourtlogError where another program did meanwhile."""
        data = text.encode("utf-8")
        if data == self._last:
            return
        if read_draft(self._book, self._code) != self._last:
            raise CourtlogError(
                "Another courtlog types this sheet in too, or has kept it.",
                "Leave one of the two; what is typed here now is only on this screen.",
            )
        write_draft(self._book, self._code, text)
        self._last = data

    def delete(self) -> None:
        """Delete it, unless another program has gone on with it. Raises CourtlogError."""
        if self._last is not None and read_draft(self._book, self._code) == self._last:
            delete_draft(self._book, self._code)
            self._last = None


def read_draft(book: Path, code: SheetCode) -> bytes | None:
    """What was typed of this sheet before; None where nothing was. Raises CourtlogError."""
    path = _path(book, code)
    try:
        return given_files.read_ordinary(path, "draft", _MOST_BYTES)
    except FileNotFoundError:
        return None
    except OSError as error:
        raise _failed(path, error) from error


def write_draft(book: Path, code: SheetCode, text: str) -> None:
    """Keep what was typed so far. Raises CourtlogError."""
    path = _path(book, code)
    try:
        private.make_folder(path.parent)
        drafts.write(path, text)
    except OSError as error:
        raise _failed(path, error) from error


def delete_draft(book: Path, code: SheetCode) -> None:
    """Delete what was typed, and the folder with the last of them. Raises CourtlogError."""
    path = _path(book, code)
    try:
        path.unlink(missing_ok=True)
    except OSError as error:
        raise _failed(path, error) from error
    with contextlib.suppress(OSError):  # not empty, or never made
        path.parent.rmdir()


def codes_of_drafts(book: Path) -> list[SheetCode]:
    """The codes of all sheets that wait to be gone on with."""
    codes = []
    of_book = f"{book.name}."
    for path in sorted(folder_of(book).glob(f"*{_ENDING}")):
        if path.name.startswith(of_book):
            with contextlib.suppress(SheetCodeError):
                code = path.name.removeprefix(of_book).removesuffix(_ENDING)
                codes.append(SheetCode.from_text(code))
    return codes


def delete_drafts_of(book: Path, clinics: Collection[str], names: Collection[str]) -> int:
    """Delete all that was typed of a person's sheets; how many there were. Raises CourtlogError."""
    theirs = [
        code
        for code in codes_of_drafts(book)
        if any(code.belongs_to(clinic, name) for clinic in clinics for name in names)
        or _is_form_of(book, code, names)
    ]
    for code in theirs:
        delete_draft(book, code)
    return len(theirs)


def _is_form_of(book: Path, code: SheetCode, names: Collection[str]) -> bool:
    """Whether a form, blank when it was printed, was filled in for a person of these names."""
    if code.kind is not SheetKind.FORM:
        return False
    try:
        form = form_of_draft(read_draft(book, code) or b"")
    except ValueError:
        return True  # nobody can go on with it, and it may hold the name
    theirs = set(map(folded_name, names))
    return not theirs.isdisjoint(map(folded_name, (form.name, form.player)))


def _path(book: Path, code: SheetCode) -> Path:
    return folder_of(book) / f"{book.name}.{code}{_ENDING}"


def _failed(path: Path, error: OSError) -> CourtlogError:
    return CourtlogError(
        f"What is typed cannot be kept in {path} ({error.strerror}).",
        "Check the folder; the sheet can still be kept in the book.",
    )
