"""Statements on a page: the sentence, and below it what was asked for of reason and figures."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog.coaching.voice.statement import Depth, Statement
from courtlog.plain_text import plain
from courtlog.reports.layout.page import lines_of

DEEPER = "  "


def said_lines(statement: Statement, depth: Depth, indent: str = "") -> Iterator[str]:
    """The lines of a statement; none of an empty one."""
    if statement:
        yield from lines_of(plain(statement.sentence), indent)
        for text in depth.below(statement):
            yield from lines_of(plain(text), indent + DEEPER)
