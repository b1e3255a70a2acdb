"""`courtlog academy ask` and `questions`: SQL of one's own over the books of a folder."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from courtlog.academy.asking import HERE, ask_folder
from courtlog.academy.engine_name import EngineName
from courtlog.academy.engines.engine import Rows
from courtlog.academy.question_files import shipped_questions, statement_of
from courtlog.cli import output
from courtlog.logbook.schema.cells import text_cell
from courtlog.plain_text import plain
from courtlog.reports.layout.page import lines_of


def ask(
    folder: Path,
    question: str,
    beside: Sequence[Path],
    engine: EngineName,
    master: str | None,
    as_json: bool,
) -> None:
    """Print the rows: a line each as in a CSV file, or JSON."""
    statement = statement_of(question, beside)
    rows = ask_folder(folder, engine, lambda session, _: session.rows(statement), master or HERE)
    if as_json:
        told = [dict(zip(rows.names, map(_jsonable, row), strict=True)) for row in rows.rows]
        sys.stdout.write(json.dumps(told, ensure_ascii=True, indent=2) + "\n")
    else:
        output.write_page(_table(rows))


def list_questions() -> None:
    """Print each shipped question with what it asks."""
    for question in shipped_questions():
        print(question.name)
        for line in lines_of(question.about, "  "):
            print(line)


def _table(rows: Rows) -> str:
    """As in an exported file: no cell is a formula, or breaks its line."""
    lines = [
        rows.names,
        *(["" if cell is None else str(cell) for cell in row] for row in rows.rows),
    ]
    return "".join(",".join(text_cell(plain(cell)) for cell in line) + "\n" for line in lines)


def _jsonable(value: Any) -> Any:
    return value if isinstance(value, int | float | str | bool | None) else str(value)
