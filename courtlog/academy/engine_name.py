"""The engines there are, by the names that are typed; nothing of them is loaded."""

from __future__ import annotations

from enum import StrEnum


class EngineName(StrEnum):
    """The engines there are."""

    DUCKDB = "duckdb"
    SPARK = "spark"
