"""DuckDB: in this process, in memory, over the files of the folder."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import duckdb

from courtlog.academy.engines.engine import Engine, MissingFileError, Rows, TableFiles, refused
from courtlog.logbook.schema.tables import Kind

_TYPES = {
    Kind.INTEGER: "BIGINT",
    Kind.NUMBER: "DOUBLE",
    Kind.STRING: "VARCHAR",
    Kind.DATE: "DATE",
    Kind.MOMENT: "TIMESTAMPTZ",
    Kind.YES_NO: "BOOLEAN",
}
_PLACE = "hive_partitioning = true, hive_types = {'book': BIGINT, 'export': VARCHAR}"


class DuckDb(Engine):
    """A session; what does not fit memory goes to a folder that ends with it."""

    def __init__(self, scratch: Path) -> None:
        self._db: Any = duckdb.connect(config={"autoinstall_known_extensions": "false"})
        self._db.execute("SET TimeZone = 'UTC'")
        self._db.execute("SET temp_directory = " + _text(str(scratch)))
        self._db.execute("SET enable_progress_bar = false")

    def register(self, files: TableFiles) -> None:
        """A view over the files; a column that none of them has is empty."""
        columns = [f'"{column.name}" {_TYPES[column.kind]}' for column in files.table.columns]
        columns += ["book BIGINT", "export VARCHAR"]
        empty = ", ".join(
            f"CAST(NULL AS {kind}) AS {name}" for name, kind in (one.split(" ") for one in columns)
        )
        parts = [f"SELECT {empty} WHERE false"]
        if files.files:
            names = ", ".join(_text(str(file)) for file in files.files)
            union = "" if files.alike else ", union_by_name = true"
            parts.append(f"SELECT * FROM read_parquet([{names}], {_PLACE}{union})")
        if files.files and files.alike:
            parts = parts[1:]
        self.view(files.table.name, " UNION ALL BY NAME ".join(parts))

    def view(self, name: str, statement: str, keep: bool = False) -> None:
        """A temporary view, or table."""
        with self._told():
            kind = "TABLE" if keep else "VIEW"
            self._db.execute(f'CREATE OR REPLACE TEMP {kind} "{name}" AS {statement}')

    def rows(self, statement: str) -> Rows:
        """All rows at once."""
        with self._told():
            answer = self._db.execute(statement)
            if answer.description is None:
                return Rows((), [])
            return Rows(tuple(one[0] for one in answer.description), answer.fetchall())

    @contextmanager
    def _told(self) -> Iterator[None]:
        try:
            yield
        except duckdb.IOException as what:
            raise MissingFileError(str(what)) from what
        except duckdb.Error as what:
            raise refused(what) from what

    def close(self) -> None:
        self._db.close()


def _text(words: str) -> str:
    return "'" + words.replace("'", "''") + "'"
