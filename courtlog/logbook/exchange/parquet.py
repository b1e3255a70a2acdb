"""A table as a Parquet file, for readers of large data. Needs pyarrow, which courtlog does not
install.
"""

from __future__ import annotations

import importlib.util
import os
import sqlite3
from pathlib import Path

from courtlog import drafts, private
from courtlog.errors import CourtlogError
from courtlog.logbook.schema.tables import Kind, Table

_BATCH = 100_000


def check_installed(line_to_type: str) -> None:
    """Raises CourtlogError, with what to do, where pyarrow is not installed."""
    if importlib.util.find_spec("pyarrow") is None:
        raise CourtlogError(
            "Parquet files need pyarrow, which is not installed here.",
            f"{line_to_type}. Nothing was written.",
        )


def write_parquet(path: Path, table: Table, rows: sqlite3.Cursor) -> None:
    """The rows with the book's own types; moments are timestamps in UTC."""
    import pyarrow as pa  # not installed everywhere, and slow to load: only when asked for
    from pyarrow import parquet

    kinds = {
        Kind.INTEGER: pa.int64(),
        Kind.NUMBER: pa.float64(),
        Kind.STRING: pa.string(),
        Kind.DATE: pa.string(),
        Kind.MOMENT: pa.timestamp("ms", tz="UTC"),
        Kind.YES_NO: pa.int64(),
    }
    final = {Kind.DATE: pa.date32(), Kind.YES_NO: pa.bool_()}
    schema = pa.schema(
        [(column.name, final.get(column.kind, kinds[column.kind])) for column in table.columns]
    )
    with (
        os.fdopen(private.make_file(path), "wb") as file,
        parquet.ParquetWriter(file, schema) as to,
    ):
        while batch := rows.fetchmany(_BATCH):
            arrays = [
                pa.array(values, kinds[column.kind]).cast(field.type)
                for values, column, field in zip(
                    zip(*batch, strict=True), table.columns, schema, strict=True
                )
            ]
            to.write_batch(pa.record_batch(arrays, schema=schema))
    drafts.flush(path)
