"""Two versions of one round under each other, ball for ball, with the differing ones marked."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest

from courtlog.coaching.game.clinic_record import RoundRecord
from courtlog.coaching.game.round_versions import TwoVersions, differing
from courtlog.plain_text import many, plain
from courtlog.times import date_words

_BALLS_A_LINE = 10


def versions_text(number: int, versions: TwoVersions) -> str:
    """The whole round, its balls within 80 columns; `number` is the one that an option names."""
    return "\n".join(plain(line) for line in _lines(number, versions)) + "\n"


def _lines(number: int, versions: TwoVersions) -> Iterator[str]:
    book, sheet = versions.book, versions.sheet
    court = f", court {versions.court}" if versions.court else ""
    yield (
        f"{number}. {book.player}, {book.drill}:"
        f" round {versions.place} of {date_words(versions.date)}{court}"
    )
    if _kind(book) != _kind(sheet):
        yield f"   book   {_kind(book)}"
        yield f"   sheet  {_kind(sheet)}"
    marks = list(differing(book, sheet))
    tokens = [
        tuple("" if record is None else record.ball.token() for record in pair)
        for pair in zip_longest(book.balls, sheet.balls)
    ]
    for start in range(0, len(tokens), _BALLS_A_LINE):
        yield from _row(start, tokens, marks)
    yield f"   {_sum(book, sheet, sum(marks))}"


def _row(start: int, tokens: list[tuple[str, ...]], marks: list[bool]) -> Iterator[str]:
    part = slice(start, start + _BALLS_A_LINE)
    widths = [max(map(len, pair)) for pair in tokens[part]]
    signs = ["^" * width * differs for width, differs in zip(widths, marks[part], strict=True)]
    of_book, of_sheet = zip(*tokens[part], strict=True)
    yield f"   {f'ball {start + 1}':<10}book   {_cells(of_book, widths)}".rstrip()
    yield f"{'':13}sheet  {_cells(of_sheet, widths)}".rstrip()
    if any(signs):
        yield f"{'':20}{_cells(signs, widths)}".rstrip()


def _cells(words: tuple[str, ...] | list[str], widths: list[int]) -> str:
    return " ".join(word.ljust(width) for word, width in zip(words, widths, strict=True))


def _kind(round_: RoundRecord) -> str:
    return f"{round_.drill}, {round_.purpose}, cues {' '.join(round_.cues)}"


def _sum(book: RoundRecord, sheet: RoundRecord, differ: int) -> str:
    """`Book 20 balls, sheet 18 balls; 3 differ.`"""
    counts = f"Book {many(len(book.balls), 'ball')}, sheet {many(len(sheet.balls), 'ball')}"
    return f"{counts}; {differ} {'differs' if differ == 1 else 'differ'}."
