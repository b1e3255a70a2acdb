"""Text for a printer: pages of so many lines, each of which begins a new sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

LINES = 60
"""Lines of a page of text: a Letter sheet at six lines an inch, less half an inch at both ends."""

PAGE_BREAK = "\f"
"""What begins a new sheet. It stands at the beginning of a line, and nowhere else."""


def filled_pages(head: Sequence[str], blocks: Sequence[Sequence[str]]) -> Iterator[list[str]]:
    """The blocks on as few pages as they take, each page under this head.

    A block stays whole where a page can hold it. One that no page can hold goes on overleaf.
    """
    room = LINES - len(head)
    page: list[str] = []
    for block in blocks:
        lines = list(block)
        if page and len(page) + len(lines) > room:
            yield [*head, *page]
            page = []
        while len(lines) > room:
            yield [*head, *lines[:room]]
            lines = lines[room:]
        page += lines
    if page or not blocks:
        yield [*head, *page]


def joined_pages(pages: Sequence[Sequence[str]]) -> str:
    """One text of all pages, none of which ends in blank lines."""
    return PAGE_BREAK.join("\n".join(_trimmed(page)) + "\n" for page in pages)


def _trimmed(page: Sequence[str]) -> Sequence[str]:
    end = len(page)
    while end and not page[end - 1].strip():
        end -= 1
    return page[:end]
