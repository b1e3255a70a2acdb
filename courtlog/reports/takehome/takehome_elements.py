"""Elements of the take-home sheet's HTML. Every text is made visible and escaped here."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from courtlog.plain_text import plain


def escaped(text: str) -> str:
    """The text with hidden characters made visible and markup escaped."""
    return escape(plain(text))


def paragraph(text: str) -> str:
    """The text as a paragraph."""
    return f"<p>{escaped(text)}</p>"


def section(key: str, title: str, parts: Iterable[str]) -> str:
    """A section under a heading; `parts` are HTML."""
    inside = "\n".join(parts)
    return (
        f'<section class="{key}" aria-labelledby="{key}-head">'
        f'<h2 id="{key}-head">{escaped(title)}</h2>\n{inside}</section>'
    )


def short_head(title: str) -> str:
    """The head of a narrow column."""
    return f'<th scope="col" class="short">{title}</th>'
