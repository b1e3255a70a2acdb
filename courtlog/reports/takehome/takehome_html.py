"""The take-home sheet as one HTML file: no script, nothing from outside, a front and a back.

Every text goes through `html_elements.escaped`.
"""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from courtlog.reports.layout.html_elements import escaped, html_file, section
from courtlog.reports.takehome import takehome_words as said
from courtlog.reports.takehome.takehome_back_html import back_parts
from courtlog.reports.takehome.takehome_facts import TakeHome
from courtlog.reports.takehome.takehome_front import DotRow, FrontLine, front
from courtlog.reports.takehome.takehome_style import STYLE

ROOMY, TIGHT = 1_750, 2_000
"""Characters of a front up to which it takes larger type on paper; and above which it is packed."""


def takehome_html(facts: TakeHome) -> str:
    """The whole file."""
    title = f"{facts.player}, to take home: {facts.clinic}"
    much = _front_characters(facts)
    size = "roomy" if much <= ROOMY else "usual" if much <= TIGHT else "tight"
    body = "\n".join(_body(facts))
    return html_file(title, STYLE, body, body_class=size)


def _front_characters(facts: TakeHome) -> int:
    lines = [line for part in front(facts) for line in part.lines]
    rows = sum(len(row.dots) for line in lines for row in line.rows)
    return rows + sum(len(line.name) + len(line.said.sentence) for line in lines)


def _body(facts: TakeHome) -> Iterator[str]:
    yield f"<header><h1>{escaped(facts.player)}, to take home</h1>"
    yield f"<p>{escape(said.headline(facts))}</p></header>\n<main>"
    sections = front(facts)
    for half in ("read", "act"):
        yield f'<div class="{half}">'
        for part in sections:
            if part.to_do is (half == "act"):
                yield section(part.key, part.title, map(_line, part.lines))
        yield "</div>"
    yield '<div class="back">'
    yield from back_parts(facts)
    yield "</div>\n</main>"


def _line(line: FrontLine) -> str:
    name = f"<strong>{escaped(line.name)}.</strong> " if line.name else ""
    rows = "".join(map(_dots, line.rows))
    return f"<p>{name}{escaped(line.said.sentence)}</p>" + (
        f'<p class="dots">{rows}</p>' if rows else ""
    )


def _dots(row: DotRow) -> str:
    """A day with its row of shapes; who listens hears the counts."""
    return (
        f'<span class="row"><span class="day">{escaped(row.day)}</span> '
        f'<span class="shapes" role="img" aria-label="{escaped(row.words)}">{row.dots}</span>'
        "</span>"
    )
