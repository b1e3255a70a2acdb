"""No sentence of a docstring or a comment is longer than a reader can hold: 25 words."""

from __future__ import annotations

import ast
import io
import re
import tokenize
from collections.abc import Iterator
from pathlib import Path

import courtlog

MOST_WORDS = 25

_CODE = re.compile(r"`[^`]*`")
_WORD = re.compile(r"[A-Za-z0-9%][\w'’./-]*")
_SOURCE = re.compile(r"(Sources?|Model|Interval):")
_END = re.compile(r"(?<=[.!?])[\"”)]?\s+(?=[A-Z`\"0-9(])")


def docstrings(source: str) -> Iterator[tuple[int, str]]:
    """Every text that stands by itself, with its line: of modules, classes, functions, fields.

    Lines that are indented further than the text, and trees, are examples and left out.
    """
    for node in ast.walk(ast.parse(source)):
        match node:
            case ast.Expr(value=ast.Constant(value=str(text))):
                example = re.compile(rf"\s{{{node.col_offset + 1},}}|[├│└]")
                lines = text.splitlines()
                yield node.lineno, "\n".join("" if example.match(x) else x for x in lines)


def comments(source: str) -> Iterator[tuple[int, str]]:
    """Every comment, lines that follow one another joined."""
    first, last, words = 0, -1, list[str]()
    for token in tokenize.generate_tokens(io.StringIO(source).readline):
        if token.type == tokenize.COMMENT:
            if token.start[0] != last + 1:
                yield first, " ".join(words)
                first, words = token.start[0], []
            last = token.start[0]
            words.append(token.string.lstrip("# "))
    yield first, " ".join(words)


def sentences(text: str) -> Iterator[str]:
    """The sentences of a text, those that name published sources left out."""
    for paragraph in re.split(r"\n\s*\n", text):
        for sentence in _END.split(" ".join(paragraph.split())):
            if not _SOURCE.match(sentence):
                yield sentence


def too_long(source: str) -> list[str]:
    """`12: 31 words: The ...` for every sentence that is."""
    return [
        f"{line}: {count} words: {sentence}"
        for line, text in [*docstrings(source), *comments(source)]
        for sentence in sentences(text)
        if (count := len(_WORD.findall(_CODE.sub("X", sentence)))) > MOST_WORDS
    ]


def test_a_long_sentence_is_seen() -> None:
    long = " ".join(["word"] * 26)
    source = f'"""Short.\n\n{long}.\n\n    {long}\n"""\n# {long[:60]}\n# {long[60:]}\nx = 1\n'
    assert [line.partition(" words")[0] for line in too_long(source)] == ["1: 26", "7: 26"]


def test_no_sentence_is_too_long() -> None:
    root = Path(courtlog.__file__).parent
    found = [
        f"{file.relative_to(root)}:{words}"
        for file in sorted(root.rglob("*.py"))
        for words in too_long(file.read_text(encoding="utf-8"))
    ]
    assert not found, "\n".join(found)
