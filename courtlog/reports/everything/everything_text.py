"""Everything held on one player as text; at most 78 columns."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from courtlog.plain_text import plain
from courtlog.reports.everything import words
from courtlog.reports.everything.everything_facts import Everything
from courtlog.reports.everything.parts import Entry
from courtlog.reports.layout.page import WIDTH, lines_of


def everything_text(facts: Everything) -> str:
    """The page."""
    return "\n".join(_lines(facts)) + "\n"


def _lines(facts: Everything) -> Iterator[str]:
    yield from lines_of(plain(words.headline(facts)))
    yield "=" * WIDTH
    for said in (words.FOR_WHOM, words.OTHERS):
        yield from lines_of(said)
    for part in facts.parts:
        yield from _part(part.title, map(entry_words, part.entries))
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


def entry_words(entry: Entry) -> str:
    """`11 May 2026 · arrival: 08:31, pain 0 of 10`."""
    when = words.day_words(entry.on) if entry.on else ""
    head = " · ".join(filter(None, (when, entry.label)))
    return f"{head}: {entry.words}" if head else entry.words
