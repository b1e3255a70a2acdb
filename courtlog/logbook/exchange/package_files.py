"""The files of an exported folder: listed by its descriptor, and the SQL that takes their rows."""

from __future__ import annotations

import csv
import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TextIO

from courtlog.errors import BookError, LibraryError, Problem
from courtlog.logbook.exchange.package import DESCRIPTOR, FORMAT
from courtlog.logbook.schema import schema_check
from courtlog.logbook.schema.cells import read_sql
from courtlog.logbook.schema.tables import Table

MOST_PROBLEMS = 200
"""More would only scroll away; mend these first."""


_LARGEST = 64 << 20
"""Bytes of a descriptor: more is a mistake or an attack."""


@dataclass(frozen=True, slots=True)
class PackageFile:
    table: Table
    path: Path


def files_of(folder: Path, every: Sequence[Table]) -> list[PackageFile]:
    """The files of the descriptor, in the order in which they can go in."""
    where = folder / DESCRIPTOR
    problems: list[Problem] = []
    found: dict[str, PackageFile] = {}
    known = {table.name: table for table in every}
    for number, resource in enumerate(_resources(where), 1):
        name, path = resource.get("name"), resource.get("path")
        place = f"resource {number}"
        if not isinstance(name, str) or name not in known:
            problems.append(Problem(str(where), place, f"{name!r} is no table of a book."))
        elif name in found:
            problems.append(Problem(str(where), place, f"{name} is there twice."))
        elif not _lies_in(folder, path):
            problems.append(Problem(str(where), place, f"{path!r} is no file of this folder."))
        else:
            found[name] = PackageFile(known[name], folder / str(path))
    if problems:
        raise refusal(problems)
    return [found[name] for name in known if name in found]


def _resources(where: Path) -> list[dict[str, object]]:
    """What the descriptor lists. Raises BookError where it is none of ours."""
    try:
        if not where.is_file() or where.stat().st_size > _LARGEST:
            raise FileNotFoundError
        package = json.loads(where.read_bytes())
        resources = package["resources"]
        number = package["courtlog"]["format"]
        good = isinstance(resources, list) and all(isinstance(one, dict) for one in resources)
        if not good or not isinstance(number, int):
            raise TypeError
    except (OSError, ValueError, TypeError, KeyError, RecursionError) as error:
        raise BookError(
            f"There is no {DESCRIPTOR} of an exported book in {where.parent}.",
            "Name the folder that `courtlog export` wrote.",
        ) from error
    if number > FORMAT:
        raise BookError(
            "A later courtlog wrote this folder.", "Update courtlog; nothing was written."
        )
    return list(resources)


def _lies_in(folder: Path, path: object) -> bool:
    """Whether it is the bare name of a plain file in that folder, and no way out of it."""
    if not isinstance(path, str) or not path.endswith(".csv") or "\0" in path:
        return False
    if {"/", "\\", ":"} & set(path):
        return False
    file = folder / path
    try:
        return file.is_file() and not file.is_symlink()
    except OSError:  # no name that a file can have
        return False


class HeadingError(Exception):
    """The first line does not name the table's columns."""


def open_file(file: PackageFile) -> TextIO:
    csv.field_size_limit(schema_check.MOST_BYTES)
    return file.path.open(encoding="utf-8-sig", newline="")


def insert_sql(file: PackageFile, heading: list[str] | None, rows: int = 1) -> str:
    """The INSERT that takes this many of the file's rows. Raises HeadingError."""
    by_name = {column.name: column for column in file.table.columns}
    names = heading or []
    unknown = [name for name in names if name not in by_name]
    if unknown or len(set(names)) != len(names):
        raise HeadingError(f"{(unknown or names)[0]!r} is no column of {file.table.name}.")
    missing = [
        column.name
        for column in file.table.columns
        if column.name not in names and column.required and column.default is None
    ]
    if missing:
        raise HeadingError(f"the column {missing[0]} is missing.")
    cells = [read_sql(by_name[name], place) for place, name in enumerate(names * rows, 1)]
    taken = [
        ", ".join(cells[index : index + len(names)]) for index in range(0, len(cells), len(names))
    ]
    columns = ", ".join(f'"{name}"' for name in names)
    return f"INSERT INTO {file.table.name} ({columns}) VALUES ({'), ('.join(taken)})"


def refusal(problems: Sequence[Problem]) -> LibraryError:
    more = len(problems) > MOST_PROBLEMS
    return LibraryError(
        "The folder has mistakes; nothing was written.",
        problems[:MOST_PROBLEMS],
        "There are more than these." if more else "",
    )
