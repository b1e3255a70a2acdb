"""Everything held on one player as one HTML file: black on white, for a phone and for paper.

It has no script and nothing from outside. Every text goes through `html_elements.escaped`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from courtlog.reports.everything import words
from courtlog.reports.everything.everything_facts import Everything
from courtlog.reports.everything.everything_text import entry_words
from courtlog.reports.layout.html_elements import escaped, html_file, paragraph, section

STYLE = """\
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 45rem; background: #fff; color: #000;
  font: 1rem/1.4 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.35em; margin: 0; }
h2 { font-size: 1.1em; margin: 1em 0 .2em; border-bottom: 1px solid #000; break-after: avoid; }
p, ul { margin: .2em 0; }
ul { padding-left: 1.2em; }
li { break-inside: avoid; }
@page { margin: 12mm; }
@media print { body { padding: 0; max-width: none; font-size: 11pt; line-height: 1.25; } }
"""


def everything_html(facts: Everything) -> str:
    """The whole file."""
    return html_file(words.headline(facts), STYLE, "\n".join(_body(facts)))


def _body(facts: Everything) -> Iterator[str]:
    yield f"<header><h1>{escaped(words.headline(facts))}</h1>"
    yield f"{paragraph(words.FOR_WHOM)}{paragraph(words.OTHERS)}</header>\n<main>"
    for part in facts.parts:
        if part.entries:
            yield _list(part.key, part.title, map(entry_words, part.entries))
    for key, title, lines in words.closing_parts(facts):
        if lines:
            yield _list(key, title, lines)
    yield "</main>"


def _list(key: str, title: str, lines: Iterable[str]) -> str:
    items = "\n".join(f"<li>{escaped(line)}</li>" for line in lines)
    return section(key, title, [f"<ul>\n{items}\n</ul>\n"])
