"""Everything held on one player as one HTML file: black on white, for a phone and for paper.

The first page is one sheet of A4 or Letter, whatever the texts are; the whole list follows it where
it is asked for. It has no script and nothing from outside. Every text goes through
`html_elements.escaped`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from courtlog.reports.everything import words
from courtlog.reports.everything.everything_facts import Everything
from courtlog.reports.everything.one_page import Block, KindHeld, OnePage, lines_each, one_page
from courtlog.reports.layout.html_elements import escaped, html_file, paragraph, section
from courtlog.reports.layout.line_budget import lines_key, lines_needed, lines_style

STYLE = f"""\
:root {{ color-scheme: light; }}
* {{ box-sizing: border-box; }}
body {{ margin: 0 auto; padding: 1rem; max-width: 45rem; background: #fff; color: #000;
  font: 1rem/1.4 system-ui, sans-serif; overflow-wrap: anywhere; }}
h1 {{ font-size: 1.35em; margin: 0; }}
h2 {{ font-size: 1.1em; margin: 1em 0 .2em; border-bottom: 1px solid #000; break-after: avoid; }}
p, ul {{ margin: .2em 0; }}
ul {{ padding-left: 1.2em; }}
li {{ break-inside: avoid; }}
table {{ border-collapse: collapse; width: 100%; margin: .8em 0 .4em; }}
caption {{ text-align: left; font-weight: bold; border-bottom: 1px solid #000; }}
th, td {{ text-align: left; font-weight: normal; vertical-align: top; padding: 0 1em 0 0; }}
.whole {{ margin-top: 3rem; }}
@page {{ margin: 10mm; }}
@media print {{
  body {{ padding: 0; max-width: none; font-size: 11pt; line-height: 1.25; }}
  .page {{ line-height: 1.2; }}
  .page h1 {{ font-size: 14pt; }}
  .page h2 {{ font-size: 11pt; margin: 1.5mm 0 0; }}
  .page p {{ margin: 0; }}
  .page table {{ margin: 1.5mm 0 1mm; }}
  .page th, .page td {{ white-space: nowrap; line-height: 1.15; }}
  .whole {{ margin: 0; break-before: page; }}
{lines_style()}}}
"""

EMS = 48.0
"""Width of a line in ems of its letters: A4 less its margins, at eleven points."""

ROOM = 53.0
"""Lines of the page: Letter less its margins, at eleven points and a fifth between, and a rest."""

HEAD, TITLE, ROW = 2.7, 1.5, 1.0
"""Lines that the headline, a heading and a row of the table take, each at most."""


def everything_page_html(facts: Everything) -> str:
    """The one page as a whole file."""
    page = one_page(facts, words.on_request(facts))
    return _file(facts, f"<main>{_page(page)}</main>")


def everything_html(facts: Everything) -> str:
    """The one page and the whole list, as a whole file."""
    page = _page(one_page(facts, words.FOLLOWS))
    return _file(facts, "\n".join((f"<main>{page}", *_whole(facts), "</main>")))


def _file(facts: Everything, body: str) -> str:
    return html_file(words.headline(facts), STYLE, body)


def _page(page: OnePage) -> str:
    blocks = (*page.above, *page.below)
    titles = sum(bool(block.title) for block in blocks) + bool(page.kinds)
    room = ROOM - HEAD - titles * TITLE - len(page.kinds) * ROW
    lines = lines_each(page, lambda _, text: lines_needed(text, EMS), int(room))
    above = "".join(_block(block, lines) for block in page.above)
    below = "".join(_block(block, lines) for block in page.below)
    head = f'<h1 class="cut l2">{escaped(page.headline)}</h1>'
    return f'<section class="page">{head}{above}{_table(page.kinds)}{below}</section>'


def _block(block: Block, lines: Iterator[int]) -> str:
    """The block; each paragraph takes its number of lines at most."""
    title = f"<h2>{escaped(block.title)}</h2>" if block.title else ""
    return title + "".join(
        f'<p class="cut {lines_key(most)}">{escaped(text)}</p>'
        for text, most in zip(block.lines, lines, strict=False)
    )


def _table(kinds: Sequence[KindHeld]) -> str:
    rows = "".join(
        f'<tr><th scope="row">{escaped(kind.title)}</th><td>{escaped(kind.amount)}</td>'
        f"<td>{escaped(kind.span)}</td></tr>"
        for kind in kinds
    )
    return f"<table><caption>{escaped(words.KINDS)}</caption><tbody>{rows}</tbody></table>" * bool(
        kinds
    )


def _whole(facts: Everything) -> Iterator[str]:
    title = f"<h2>{escaped(words.WHOLE)}</h2>"
    yield f'<section class="whole">{title}{paragraph(words.OTHERS)}</section>'
    for part in facts.parts:
        if part.entries:
            yield _list(part.key, part.title, (entry.in_full for entry in part.entries))
    for key, title, lines in words.closing_parts(facts):
        if lines:
            yield _list(key, title, lines)


def _list(key: str, title: str, lines: Iterable[str]) -> str:
    items = "\n".join(f"<li>{escaped(line)}</li>" for line in lines)
    return section(key, title, [f"<ul>\n{items}\n</ul>\n"])
