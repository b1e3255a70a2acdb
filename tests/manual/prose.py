"""The sentences of a Markdown page, as a reader meets them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from markdown_it import MarkdownIt
from markdown_it.token import Token

_END = re.compile(r"(?<=[.!?])[*_\"”)]*\s+(?=[*_\"“(A-Z0-9`])")
_SOURCE = re.compile(r"\([^()]*\b(?:1[89]|20)\d\d\b[^()]*\)")
"""A bracket with a year."""
_WORD = re.compile(r"[A-Za-z0-9%][\w'’./:-]*")


def tokens(page: str) -> list[Token]:
    """The page's parts in their order, tables too."""
    return MarkdownIt("commonmark").enable("table").parse(page)


def texts(page: str) -> Iterator[str]:
    """The text of each heading, paragraph, list item and table cell; a piece of code is `X`."""
    for token in tokens(page):
        if token.type == "inline":
            yield "".join(map(_as_read, token.children or ()))


def sentences(page: str) -> Iterator[str]:
    """Every sentence of the page, without the sources in brackets."""
    for text in texts(page):
        yield from _END.split(" ".join(_SOURCE.sub("", text).split()))


def length(sentence: str) -> int:
    """How many words a sentence has."""
    return len(_WORD.findall(sentence))


def anchors(page: str) -> set[str]:
    """What a link can name after `#`: each heading in small letters, with hyphens."""
    parts = tokens(page)
    return {
        re.sub(r"[^\w-]", "", after.content.lower().replace(" ", "-"))
        for token, after in pairwise(parts)
        if token.type == "heading_open"
    }


def links(page: str) -> Iterator[tuple[str, str]]:
    """Every link: its words, and where it leads."""
    for token in tokens(page):
        children = token.children or []
        for child, after in pairwise(children):
            if child.type == "link_open":
                yield after.content, str(child.attrs["href"])


def _as_read(part: Token) -> str:
    match part.type:
        case "code_inline":
            return "X"
        case "softbreak" | "hardbreak":
            return " "
        case _:
            return part.content
