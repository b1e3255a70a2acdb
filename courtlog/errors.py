"""Every way courtlog says no. One sentence for what happened, one for the next step.

CourtlogError
├── BookError            the book cannot be opened, read or written
│   ├── NotABookError    the file is something else, or damaged
│   ├── NewerBookError   a later courtlog wrote it
│   ├── BookLockedError  the folder or file cannot be written, or another program holds it
│   ├── HeldElsewhereError     another window writes in the book; this one reads only
│   └── ChangedElsewhereError  another window has changed what this one shows
├── NotAFileError        a path that leads to a folder, a device or a pipe
├── NotAVideoError       a file that is no video, or has no times
├── LibraryError         drill files or sheets with mistakes, all of them at once
├── UnknownNameError     a player, drill, day or clinic that is not there
└── SettingsError        the settings file cannot be read
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


class CourtlogError(Exception):
    """What happened, and what to do next; both are shown to the coach as they stand."""

    def __init__(self, happened: str, next_step: str = "") -> None:
        super().__init__(happened)
        self.happened = happened
        self.next_step = next_step

    def __str__(self) -> str:
        return f"{self.happened} {self.next_step}".strip()


class BookError(CourtlogError):
    """The book cannot be opened, read or written."""


class NotABookError(BookError):
    """The file is something else than a book, or damaged."""


class NewerBookError(BookError):
    """A later courtlog wrote this book."""


class BookLockedError(BookError):
    """The place cannot be written to, or another program holds the book."""


class HeldElsewhereError(BookError):
    """Another window writes in this book; here it can only be read."""


class ChangedElsewhereError(BookError):
    """Another window has changed what this one shows; nothing was written over it."""


class NotAFileError(CourtlogError):
    """A path that leads to something else than an ordinary file."""


class NotAVideoError(CourtlogError):
    """A file that is no MP4 or MOV video, or does not say how long it is."""


class UnknownNameError(CourtlogError):
    """A name that the book or the library does not hold."""


class SettingsError(CourtlogError):
    """The settings file cannot be read."""


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One mistake in a file: where (a file, then a line or a key path) and one sentence."""

    file: str
    place: str
    sentence: str

    def __str__(self) -> str:
        where = f"{self.file}:{self.place}" if self.place else self.file
        return f"{where}: {self.sentence}"


class LibraryError(CourtlogError):
    """A file has mistakes; carries all of them, so that they can be mended in one go."""

    def __init__(self, happened: str, problems: Sequence[Problem], next_step: str = "") -> None:
        super().__init__(happened, next_step)
        self.problems = tuple(problems)
