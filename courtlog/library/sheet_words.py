"""The words of one line of a sheet: keywords, the values after them, quoted text, comments.

A line is a run of `keyword value value ...`; values between keywords belong together. Text that
could be misread (a keyword, `#`, a quote, control characters) is written as a JSON string.
"""

from __future__ import annotations

import json
import re
from collections.abc import Collection
from dataclasses import dataclass

_PIECE = re.compile(
    r"""\s+ | (?P<comment>\#.*) | (?P<quoted>"(?:[^"\\]|\\.)*") | (?P<bare>[^\s"\#][^\s"]*)""",
    re.VERBOSE,
)
_QUOTE_IF = re.compile(r'["#\\]|^\s|\s$|\s\s|[^\S ]')


@dataclass(frozen=True, slots=True)
class Word:
    """One word of a line; quoted words are never keywords and never balls."""

    text: str
    quoted: bool = False


def words(line: str) -> list[Word]:
    """The words of a line without its comment. Raises ValueError with one sentence."""
    if '"' not in line and "#" not in line:
        return [Word(text) for text in line.split()]
    read: list[Word] = []
    index = 0
    while index < len(line):
        match = _PIECE.match(line, index)
        if match is None:
            raise ValueError(
                f"cannot read from {line[index : index + 20]!r} on: is a quote left open?"
            )
        index = match.end()
        if match["quoted"] is not None:
            read.append(Word(_unquoted(match["quoted"]), quoted=True))
        elif match["bare"] is not None:
            read.append(Word(match["bare"]))
    return read


def _unquoted(written: str) -> str:
    try:
        text: str = json.loads(written)
        text.encode()
    except json.JSONDecodeError:
        raise ValueError(f"{written} is not a JSON string: write \\\\ for a backslash") from None
    except UnicodeEncodeError:
        raise ValueError(f"{written} holds half a character (a lone surrogate)") from None
    return text


def by_keyword(line: list[Word], keywords: Collection[str]) -> dict[str, list[Word]]:
    """The words after each keyword. Raises ValueError for a word with no keyword or one twice."""
    by_key: dict[str, list[Word]] = {}
    current: list[Word] | None = None
    for word in line:
        if not word.quoted and word.text in keywords:
            if word.text in by_key:
                raise ValueError(f"{word.text!r} stands twice on this line")
            current = by_key.setdefault(word.text, [])
        elif current is None:
            raise ValueError(f"{word.text!r} is not known here")
        else:
            current.append(word)
    return by_key


def text_of(value: list[Word]) -> str:
    """Words that belong together, as one text."""
    return " ".join(word.text for word in value)


def as_written(text: str, keywords: Collection[str]) -> str:
    """The text as it stands on a sheet: bare where it reads back the same, else quoted."""
    bare = text and text.isprintable() and not _QUOTE_IF.search(text)
    if bare and not any(word in keywords for word in text.split(" ")):
        return text
    return quoted(text)


def quoted(text: str) -> str:
    """The text as a JSON string, with everything that hides written as an escape."""
    raw = json.dumps(text, ensure_ascii=False)
    return "".join(c if c.isprintable() else json.dumps(c)[1:-1] for c in raw)
