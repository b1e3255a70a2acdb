"""Spark: on this machine, or on a cluster that sees the folder under the same name."""

from __future__ import annotations

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from courtlog.academy.engines.engine import Engine, MissingFileError, Rows, TableFiles, refused
from courtlog.logbook.schema.tables import Kind

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it warns of a pandas that is not used here
    from pyspark.errors import PySparkException
    from pyspark.sql import SparkSession

_TYPES = {
    Kind.INTEGER: "BIGINT",
    Kind.NUMBER: "DOUBLE",
    Kind.STRING: "STRING",
    Kind.DATE: "DATE",
    Kind.MOMENT: "TIMESTAMP",
    Kind.YES_NO: "BOOLEAN",
}

_QUIET = Path(__file__).with_name("quiet.properties")
"""Spark speaks on the error stream of things that no reader of a page asked for."""

_MISSING = ("PATH_NOT_FOUND", "FAILED_READ_FILE", "FileNotFoundException")


class Spark(Engine):
    """A session; it ends with this program."""

    def __init__(self, scratch: Path, master: str) -> None:
        build = SparkSession.builder.master(master).appName("courtlog academy")
        for name, value in settings_of(master, scratch).items():
            build = build.config(name, value)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # the same warning again
            self._spark: Any = build.getOrCreate()

    def register(self, files: TableFiles) -> None:
        """A view over the files; a column that a file lacks is empty."""
        schema = ", ".join(
            f"`{column.name}` {_TYPES[column.kind]}" for column in files.table.columns
        )
        schema += ", book BIGINT, export STRING"
        if not files.files:
            empty = self._spark.createDataFrame([], schema)
            empty.createOrReplaceTempView(files.table.name)
            return
        with self._told():
            read = self._spark.read.schema(schema).option("basePath", str(files.place))
            read.parquet(*map(str, files.files)).createOrReplaceTempView(files.table.name)

    def view(self, name: str, statement: str, keep: bool = False) -> None:
        """A temporary view, in memory where it is kept."""
        with self._told():
            frame = self._spark.sql(statement)
            (frame.cache() if keep else frame).createOrReplaceTempView(name)

    def rows(self, statement: str) -> Rows:
        """All rows at once."""
        with self._told():
            frame = self._spark.sql(statement)
            return Rows(tuple(frame.columns), [tuple(row) for row in frame.collect()])

    @contextmanager
    def _told(self) -> Iterator[None]:
        try:
            yield
        except PySparkException as what:
            if any(sign in str(what) for sign in _MISSING):
                raise MissingFileError(str(what)) from what
            raise refused(what) from what

    def close(self) -> None:
        self._spark.stop()


def settings_of(master: str, scratch: Path) -> dict[str, str]:
    """What a session is started with."""
    settings = {
        "spark.ui.enabled": "false",
        "spark.ui.showConsoleProgress": "false",
        "spark.sql.session.timeZone": "UTC",
        "spark.sql.warehouse.dir": (scratch / "warehouse").as_uri(),
    }
    if master.startswith("local"):
        settings |= {
            "spark.driver.bindAddress": "127.0.0.1",  # nothing here is for another machine
            "spark.driver.host": "127.0.0.1",
            "spark.local.dir": str(scratch),
            "spark.sql.shuffle.partitions": "8",
            "spark.driver.extraJavaOptions": f"-Dlog4j2.configurationFile={_QUIET.as_uri()}",
        }
    return settings
