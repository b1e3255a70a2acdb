"""Elements of sheets of paper as HTML: lines to write on, and numbered rows of boxes."""

from __future__ import annotations

from collections.abc import Sequence

from courtlog.reports.layout.html_elements import escaped
from courtlog.reports.paper import paper_words as words
from courtlog.reports.paper.court_sheets import ROWS


def one_line(text: str, key: str = "") -> str:
    """The text on one line, cut where the paper ends."""
    return f'<p class="{f"one {key}".strip()}">{escaped(text)}</p>'


def blanks(*labels: str) -> str:
    """Labels on one line, each with a line to write on; one that ends in `:` needs little room."""
    parts = (
        f"{escaped(label.rstrip(':'))} <i{' class=few' if label.endswith(':') else ''}></i>"
        for label in labels
    )
    return f'<p class="write">{" ".join(parts)}</p>'


def head(level: int, title: str, code: object) -> str:
    """A heading with the sheet's code at the right."""
    ruled = " rule" if level == 2 else ""
    return (
        f'<div class="head{ruled}"><h{level} class="one">{escaped(title)}</h{level}>'
        f'<span class="code">{escaped(str(code))}</span></div>'
    )


def rows_of_boxes(
    caption: str, heads: Sequence[str], start: int, planned: int, *, tough: bool
) -> str:
    """A block of numbered rows; a thick line stands below the last ball planned."""
    columns = [("", name) for name in heads] + [("tough", words.TOUGH)] * tough
    head_cells = "".join(
        f'<th scope="col"{f" class={key}" if key else ""}><span class="two">{escaped(name)}</span>'
        "</th>"
        for key, name in columns
    )
    boxes = "<td></td>" * len(columns)
    rows = "".join(
        f"<tr{' class=last' if ball == planned and ball % ROWS else ''}>"
        f'<th scope="row">{ball}</th>{boxes}</tr>'
        for ball in range(start + 1, start + ROWS + 1)
    )
    return (
        f'<table aria-label="{escaped(caption)}"><thead><tr>'
        f'<th scope="col" class="number">ball</th>{head_cells}</tr></thead>'
        f"<tbody>{rows}</tbody></table>"
    )
