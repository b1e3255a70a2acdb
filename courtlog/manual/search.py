"""Where a word stands in the manual, and where a link between its pages leads."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from courtlog.manual import TOPICS, page
from courtlog.names import folded_name

_FENCE = "```"

_CODE = " " * 4
"""What a line of code begins with, within a fence too once it is read."""

_BEGINS = re.compile(r"\s*(#{1,6} |[-*+] |\d+[.)] |\||<!--)|    ")
"""What begins a heading, an item of a list, a row of a table, a comment or a line of code."""

_RULE = re.compile(r"\|[\s:|-]+\|")
"""The line under the head of a table."""

_LINK = re.compile(r"\[([^\]]*)\]\([^)]*\)")
_MARKS = re.compile(r"^(#+|[-+*]|\d+[.)]) |\*\*|`|(?<!\w)\*(?=\w)|(?<=\w)\*(?!\w)")


@dataclass(frozen=True, slots=True)
class Place:
    """A paragraph, an item, a row or a heading of a page."""

    topic: str
    line: int = 0
    """The line of the page on which it begins, from 0."""
    heading: str = ""
    """The heading that it stands under, or is."""
    words: str = ""
    """Its text without the marks of Markdown."""

    @property
    def is_heading(self) -> bool:
        """Whether it is a heading itself."""
        return self.words == self.heading


@cache
def places(topic: str) -> tuple[Place, ...]:
    """Every place of a page, from its first line on."""
    heading = ""
    found = []
    for line, text in _blocks(page(topic)):
        words = _without_marks(text)
        if text.startswith("#"):
            heading = words
        if not text.startswith("<!--") and not _RULE.fullmatch(text):
            found.append(Place(topic, line, heading, words))
    return tuple(found)


def find_places(typed: str) -> list[Place]:
    """Places that hold every typed word or part of one, whatever the case.

    Where a word begins as typed comes before where it only goes on so. Then titles come first, next
    what begins with the whole phrase and so explains it, then headings and what holds the phrase.
    """
    phrase = folded_name(typed)
    wanted = phrase.split()
    found = [
        (folded, place)
        for folded, place in _all_folded()
        if wanted and all(word in folded for word in wanted)
    ]
    explains = re.compile(rf"{re.escape(phrase)}(?!\w)")
    begins = [re.compile(rf"(?<!\w){re.escape(word)}") for word in wanted]

    def rank(folded: str, place: Place) -> tuple[bool, ...]:
        begun = all(begin.search(folded) for begin in begins)
        explained = explains.match(folded)
        order = (place.line > 0, not explained, not place.is_heading, phrase not in folded)
        return not begun, *order

    return [place for _, place in sorted(found, key=lambda one: rank(*one))]


def link_target(topic: str, href: str) -> Place | None:
    """Where a link on that page leads; None for what is no page of the manual."""
    path, _, anchor = href.partition("#")
    name = path.removesuffix(".md") if path else topic
    if name not in TOPICS or path == name:
        return None
    headings = (place for place in places(name) if place.is_heading and anchor)
    return next((place for place in headings if _anchor(place.words) == anchor), places(name)[0])


@cache
def _all_folded() -> tuple[tuple[str, Place], ...]:
    return tuple((folded_name(place.words), place) for topic in TOPICS for place in places(topic))


def _anchor(heading: str) -> str:
    """The name of a heading in a link, as GitHub makes it."""
    return re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")


def _blocks(text: str) -> Iterator[tuple[int, str]]:
    """The line on which each place begins, and its Markdown in one line; code is indented."""
    begun, lines, fenced = 0, list[str](), False
    for number, line in enumerate(text.splitlines()):
        is_fence = line.lstrip().startswith(_FENCE)
        after_heading = bool(lines) and lines[0].startswith("#")
        if fenced or is_fence or after_heading or not line.strip() or _BEGINS.match(line):
            if lines:
                yield begun, " ".join(lines)
            begun, lines = number, []
        fenced ^= is_fence
        if line.strip() and not is_fence:
            is_code = fenced or (not lines and line.startswith(_CODE))
            lines.append(_CODE * is_code + line.strip())
    if lines:
        yield begun, " ".join(lines)


def _without_marks(text: str) -> str:
    if text.startswith(_CODE):
        return text.strip()
    text = _LINK.sub(r"\1", text)
    if text.startswith("|"):
        text = ": ".join(filter(None, (cell.strip() for cell in text.strip("|").split("|"))))
    return _MARKS.sub("", text)
