"""Engines that read Parquet and answer SQL. Each loads when it is first asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.academy.engines import of_duckdb, of_spark
else:
    __getattr__ = loader(__name__)
