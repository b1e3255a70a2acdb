"""What an academy's folder asks of an engine: views over files, views of a statement, rows."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Self

from courtlog.errors import CourtlogError
from courtlog.logbook.schema.tables import Table


class MissingFileError(Exception):
    """A file of the index is not there: another program has replaced the export meanwhile."""


class QuestionError(CourtlogError):
    """The engine refuses a statement."""


@dataclass(frozen=True, slots=True)
class Rows:
    """What a SELECT gives: the names of its columns, and its rows."""

    names: tuple[str, ...]
    rows: list[tuple[Any, ...]]


@dataclass(frozen=True, slots=True)
class TableFiles:
    """A table's files that count. `alike`: all of them have every column of the table."""

    table: Table
    place: Path
    files: Sequence[Path]
    alike: bool


class Engine(ABC):
    """One session of an engine; `with` ends it."""

    @abstractmethod
    def register(self, files: TableFiles) -> None:
        """Make a view of the table with the columns `book` and `export` at its end."""

    @abstractmethod
    def view(self, name: str, statement: str, keep: bool = False) -> None:
        """Make a view of a SELECT; `keep`: several questions ask it, and it is worked out once."""

    @abstractmethod
    def rows(self, statement: str) -> Rows:
        """Ask a SELECT. Raises QuestionError and MissingFileError."""

    @abstractmethod
    def close(self) -> None:
        """End the session."""

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()


def refused(error: Exception) -> QuestionError:
    """The engine's own words on a statement, in one line."""
    words = " ".join(str(error).split("\n\nJVM stacktrace")[0].split())
    return QuestionError(f"The engine refuses this: {words}", "Mend the statement, or ask another.")
