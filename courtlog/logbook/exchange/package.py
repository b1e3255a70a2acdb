"""The descriptor of an export: Data Package and Table Schema, version 1 of both standards.

Source: specs.frictionlessdata.io, "Data Package", "Tabular Data Resource", "Table Schema".
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from courtlog import __version__
from courtlog.logbook.schema.cells import GUARD
from courtlog.logbook.schema.tables import Column, Kind, Table

DESCRIPTOR = "datapackage.json"
FORMAT = 1
"""The number of this way of writing a book; an import refuses a higher one."""

_ABOUT = (
    "A courtlog book, one file a table. Times are UTC. An empty cell is no value, or an empty text."
    f" A text that a spreadsheet would run has one {GUARD} in front; take it off to get the text."
)
_FORMATS = {Kind.MOMENT: "any", Kind.DATE: "default"}


def describe(every: Sequence[Table], created: str, anonymous: bool) -> str:
    """The descriptor's text."""
    package = {
        "profile": "tabular-data-package",
        "name": "courtlog-book",
        "title": "A courtlog book",
        "description": _ABOUT,
        "version": __version__,
        "created": created,
        "courtlog": {"format": FORMAT, "anonymous": anonymous},
        "resources": [_resource(table) for table in every],
    }
    return json.dumps(package, ensure_ascii=False, indent=1) + "\n"


def file_of(table: Table) -> str:
    """The name of the table's file."""
    return f"{table.name}.csv"


def _resource(table: Table) -> dict[str, Any]:
    return {
        "profile": "tabular-data-resource",
        "name": table.name,
        "path": file_of(table),
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "dialect": {"delimiter": ",", "lineTerminator": "\r\n", "quoteChar": '"', "header": True},
        "schema": {
            "fields": [_field(column) for column in table.columns],
            "missingValues": [""],
            "primaryKey": list(table.key),
            "foreignKeys": [
                {
                    "fields": link.name,
                    "reference": {
                        "resource": "" if link.parent == table.name else link.parent,
                        "fields": "id",
                    },
                }
                for link in table.links
            ],
        },
    }


def _field(column: Column) -> dict[str, Any]:
    field: dict[str, Any] = {"name": column.name, "type": str(column.kind)}
    if column.kind in _FORMATS:
        field["format"] = _FORMATS[column.kind]
    if column.kind is Kind.YES_NO:
        field |= {"trueValues": ["1"], "falseValues": ["0"]}
    if column.required and column.kind is not Kind.STRING:
        field["constraints"] = {"required": True}
    return field
