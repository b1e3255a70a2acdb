"""The words of a bash line up to the cursor, and a suggestion quoted as the line began it.

bash hands its line over as it was typed. Other shells take quotes away, and add them, themselves.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_SAFE = re.compile(r"[\w@%+,./-]", re.UNICODE)
"""What bash and its line editor take as it is; a backslash goes before all else."""

_WORD_ENDS = re.compile(r"(?<!\\)[:=]")
"""Where bash's line editor begins a new word within one of ours."""


@dataclass(slots=True)
class _Word:
    text: str = ""
    typed: str = ""
    quote: str = ""
    """The quotation mark that is still open."""
    begun_by: str = ""
    """The same, where the word began with it; else it cannot be gone on with."""


@dataclass(frozen=True, slots=True)
class TypedWords:
    """A line's words without quotes, the last one being unfinished, and how that one is quoted."""

    words: tuple[str, ...]
    quote: str
    """The quotation mark that is open at the end, or nothing."""
    can_go_on: bool
    """Whether the unfinished word is one that bash would replace as a whole."""


def typed_words(line: str) -> TypedWords:
    """The words of a line as bash splits them, without carrying anything out."""
    done, word = list[_Word](), _Word()
    letters = iter(line)
    for letter in letters:
        if letter.isspace() and not word.quote:
            if word.typed:
                done.append(word)
            word = _Word()
            continue
        word.typed += letter
        if letter == "\\" and word.quote != "'":
            following = next(letters, "")
            word.typed += following
            kept = letter if word.quote == '"' and following not in '"\\$`' else ""
            word.text += kept + following
        elif letter == word.quote:
            word.quote = ""
        elif letter in "'\"" and not word.quote:
            word.quote = letter
            if word.typed == letter:
                word.begun_by = letter
        else:
            word.text += letter
    value = word.typed.partition("=")[2] if word.typed.startswith("-") else word.typed
    whole = word.quote == word.begun_by and (word.quote or not _WORD_ENDS.search(value))
    return TypedWords(tuple(one.text for one in [*done, word]), word.quote, bool(whole))


def quoted(text: str, quote: str) -> str | None:
    """The text as it may stand behind an open quotation mark, or behind none; None: it cannot."""
    if quote == "'":
        return text.replace("'", r"'\''")
    if quote == '"':
        # An exclamation mark would be history here, with a backslash or without.
        return None if "!" in text else re.sub(r'([\\"$`])', r"\\\1", text)
    return "".join(letter if _SAFE.fullmatch(letter) else f"\\{letter}" for letter in text)
