"""What this laptop lacks, and who else of it can read the book, in sentences for its coach."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

from courtlog.cli.streams import lacking_signs
from courtlog.plain_text import plain
from courtlog.reports.layout.charts import can_be_drawn

_OTHERS = 0o077
"""The permission bits of everybody but a file's owner."""


def laptop_notes(book: Path) -> Iterator[str]:
    """What a coach should know of this laptop; nothing where all is as it should be."""
    if not can_be_drawn():
        yield (
            "No charts are drawn here: plotext's compiled part does not load on this system."
            " Counts and sentences are complete without them."
        )
    if lacking_signs():
        yield (
            "This terminal is a plain console, whose font lacks some signs: near is ~, and others"
            " are plainer too. `courtlog settings marks shapes` shows all, where they can be seen."
        )
    if sys.platform == "win32":
        if not book.resolve().is_relative_to(Path.home().resolve()):
            yield (
                f"Windows lets everybody read the book who may open {plain(str(book.parent))}."
                " A folder of your own user keeps it from other users."
            )
    elif book.stat().st_mode & _OTHERS:
        yield (
            "Other users of this computer can read the book: its disk keeps no rights of files."
            " Keep that disk with you."
        )
