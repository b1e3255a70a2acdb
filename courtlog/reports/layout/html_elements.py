"""Elements of every HTML page. Every text is made visible and escaped here."""

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


def html_file(title: str, style: str, body: str, *, body_class: str = "", policy: str = "") -> str:
    """A whole file; `style` and `body` are CSS and HTML, `policy` what the page may load."""
    allowed = f'<meta http-equiv="Content-Security-Policy" content="{escape(policy)}">\n' * bool(
        policy
    )
    kind = f' class="{body_class}"' * bool(body_class)
    return (
        f'<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n{allowed}'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escaped(title)}</title>\n<style>\n{style}</style>\n</head>\n"
        f"<body{kind}>\n{body}\n</body>\n</html>\n"
    )
