"""Open a folder with an engine and ask it; once more where an export was replaced meanwhile."""

from __future__ import annotations

import importlib.util
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from courtlog import drafts
from courtlog.academy import engines
from courtlog.academy.engine_name import EngineName
from courtlog.academy.engines.engine import Engine, MissingFileError
from courtlog.academy.folder import Books, open_folder
from courtlog.academy.index import read_index
from courtlog.errors import CourtlogError

T = TypeVar("T")

HERE = "local[*]"
"""All cores of this machine, to Spark."""

_TRIES = 3


def ask_folder(
    folder: Path,
    engine: EngineName,
    question: Callable[[Engine, Books], T],
    master: str = HERE,
) -> T:
    """The answer of a question to an open folder. Raises CourtlogError."""
    if not folder.is_dir():
        raise CourtlogError(
            f"There is no folder {folder}.", "`courtlog academy add BOOK... --in FOLDER`"
        )
    with (
        drafts.folder_in(drafts.scratch_place()) as scratch,
        session_of(engine, scratch, master) as session,
    ):
        return ask_session(session, folder, question)


def session_of(engine: EngineName, scratch: Path, master: str = HERE) -> Engine:
    """A new session, with a folder for what does not fit memory.

    Raises CourtlogError, with the line to type, where something is not installed.
    """
    if engine is EngineName.DUCKDB:
        _check_installed("duckdb", "DuckDB", "`pip install 'courtlog[academy]'`")
        return engines.of_duckdb.DuckDb(scratch)
    other = "or leave out --engine spark"
    _check_installed("pyspark", "PySpark", f"`pip install 'courtlog[spark]'`, {other}.")
    home = os.environ.get("JAVA_HOME")
    if not (shutil.which("java") or (home and Path(home, "bin", "java").exists())):
        raise CourtlogError(
            "Spark needs Java 17, which is not installed here.",
            f"`apt-get install openjdk-17-jre-headless`, {other}.",
        )
    return engines.of_spark.Spark(scratch, master)


def _check_installed(module: str, name: str, line: str) -> None:
    if importlib.util.find_spec(module) is None:
        raise CourtlogError(f"The question needs {name}, which is not installed here.", line)


def ask_session(
    session: Engine, folder: Path, question: Callable[[Engine, Books], T], tries: int = _TRIES
) -> T:
    """The same of a session that is open."""
    books = Books.of(read_index(folder), folder)
    try:
        open_folder(session, folder, books)
        return question(session, books)
    except MissingFileError as error:
        if tries > 1 and read_index(folder).books != books.read | books.left_out:
            return ask_session(session, folder, question, tries - 1)
        raise CourtlogError(
            "A file that the folder's index names cannot be read.",
            "Add the books again, which writes it anew.",
        ) from error
