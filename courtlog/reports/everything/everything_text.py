"""Everything held on one player as text, at most 78 columns: the one page, and the whole list."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from courtlog.plain_text import plain
from courtlog.reports.everything import words
from courtlog.reports.everything.everything_facts import Everything
from courtlog.reports.everything.one_page import Block, KindHeld, OnePage, lines_each, one_page
from courtlog.reports.layout.page import WIDTH, cell, lines_of
from courtlog.reports.layout.paper_pages import LINES, PAGE_BREAK

TITLE_LINES = 2
"""Lines of a heading, its blank line included."""

TITLE, AMOUNT = 34, 16
"""Cells of a kind's name and of how many there are."""


def everything_page(facts: Everything) -> str:
    """The one page."""
    return _page(one_page(facts, words.on_request(facts)))


def everything_text(facts: Everything) -> str:
    """The one page, and the whole list on the pages after it."""
    first = _page(one_page(facts, words.FOLLOWS))
    return first + PAGE_BREAK + "\n".join(_lines(facts)) + "\n"


def _page(page: OnePage) -> str:
    blocks = (*page.above, *page.below)
    head = [*lines_of(plain(page.headline)), "=" * WIDTH]
    kinds = list(_kinds(page.kinds))
    titles = sum(TITLE_LINES for block in blocks if block.title)
    room = LINES - len(head) - len(kinds) - titles
    most = lines_each(page, lambda block, text: len(_wrapped(block, text)), room)
    above = [line for block in page.above for line in _block(block, most)]
    below = [line for block in page.below for line in _block(block, most)]
    return "\n".join([*head, *above, *kinds, *below]) + "\n"


def _block(block: Block, most: Iterator[int]) -> Iterator[str]:
    """The block's lines; each paragraph takes its number of lines at most."""
    if block.title:
        yield ""
        yield block.title
    for text, lines in zip(block.lines, most, strict=False):
        wrapped = _wrapped(block, text)
        yield from wrapped[: lines - 1]
        if len(wrapped) > lines:
            yield cell(wrapped[lines - 1] + " " * WIDTH, WIDTH).rstrip()
        else:
            yield from wrapped[lines - 1 :]


def _wrapped(block: Block, text: str) -> list[str]:
    return list(lines_of(plain(text), "  " if block.title else ""))


def _kinds(kinds: Sequence[KindHeld]) -> Iterator[str]:
    """A line a kind: its name, how many, from when to when; a long number has a line of its own."""
    if not kinds:
        return
    yield ""
    yield words.KINDS
    for kind in kinds:
        if len(kind.amount) < AMOUNT:
            amount, after = cell(kind.amount, AMOUNT), kind.span
        else:
            amount, after = kind.amount, ""
        yield f"  {cell(plain(kind.title), TITLE)}{amount}{after}".rstrip()
        if not after and kind.span:
            yield f"  {' ' * TITLE}{kind.span}"


def _lines(facts: Everything) -> Iterator[str]:
    yield from lines_of(plain(words.headline(facts)))
    yield "=" * WIDTH
    for said in (words.FOR_WHOM, words.OTHERS):
        yield from lines_of(said)
    for part in facts.parts:
        yield from _part(part.title, (entry.in_full for entry in part.entries))
    for _, title, lines in words.closing_parts(facts):
        yield from _part(title, lines)


def _part(title: str, entries: Iterable[str]) -> Iterator[str]:
    lines = list(entries)
    if lines:
        yield ""
        yield title
        for line in lines:
            first, *more = lines_of(plain(line), "    ")
            yield f"  - {first[4:]}"
            yield from more
