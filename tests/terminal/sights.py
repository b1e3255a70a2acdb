"""What the court screen says, read as a person reads it: by shapes and words, not by columns."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from textual.renderables.digits import DIGITS, DIGITS3X3, DIGITS3X3_BOLD

from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.coaching.on_court.live_round import Bookmark, LiveRound
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups, rotation_lookups
from courtlog.plain_text import plain

SHAPES = "".join(look.mark for look in LOOKS.values())
_KEY_CELLS = "".join(LOOKS[grade].mark for grade in Grade)
_WORDS = "|".join(LOOKS[grade].word for grade in Grade)
_CUE_ROW = re.compile(
    ".*?".join(_KEY_CELLS) + rf"\]?\s*(?P<word>{_WORDS})?\s*(?P<marks>[{SHAPES}]*)"
)
"""Three keys with their shapes, the open ball's grade if it has one, the marks of the round."""

WAITS = "WRITING"
"""At the end of the top line while a slow disk stores a key."""

_FEW_MARKS = 10
"""Marks a cue row must have room for; older ones may have left on the left."""


@dataclass(frozen=True, slots=True)
class CueSight:
    """One cue row: the shape set apart by brackets, the grade's word, the marks of the round."""

    shape: str
    word: str
    marks: str


def cue(lines: Sequence[str], name: str) -> CueSight | None:
    """The row of the cue of that name; None where there is none."""
    for line in lines:
        found = _CUE_ROW.search(line)
        if found and line.strip().startswith(f"{name} "):
            chosen = re.search(rf"\[\s*\S+\s*([{SHAPES}])\]", line)
            return CueSight(chosen[1] if chosen else "", found["word"] or "", found["marks"])
    return None


def cue_expected(live: LiveRound, row: int) -> CueSight:
    """The same row as the round has it."""
    grade = live.feeding.open.grades[row]
    marks = "".join(LOOKS[ball.grades[row]].mark for ball in live.feeding.taken)
    if grade is None:
        return CueSight("", "", marks)
    return CueSight(LOOKS[grade].mark, LOOKS[grade].word, marks)


def shows(lines: Sequence[str], live: LiveRound) -> bool:
    """Whether the ball's number and every cue row are those of the round as it stands there."""
    return numbers(lines)[:1] == [str(live.feeding.number)] and all(
        _same(cue(lines, card.name), cue_expected(live, row)) for row, card in enumerate(live.cues)
    )


def numbers(lines: Sequence[str]) -> list[str]:
    """The numbers written three lines high, from left to right."""
    found: list[str] = []
    for top in zip(lines, lines[1:], lines[2:], strict=False):
        width = max(map(len, top))
        padded = [line.ljust(width) for line in top]
        column, run = 0, ""
        while column < width:
            digit = _glyphs().get(tuple(line[column : column + 3].ljust(3) for line in padded), "")
            if not digit and run:
                found.append(run)
                run = ""
            run += digit
            column += 3 if digit else 1
        if run:
            found.append(run)
    return found


def differences(lines: Sequence[str], book: Book) -> list[str]:
    """Where the screen and the book differ on the round on court; none when they agree."""
    mark = lookups.bookmark(book)
    assert mark is not None
    assert mark.round_id is not None
    live = lookups.live_round(book, mark.round_id)
    text = "\n".join(lines)
    wanted = [
        plain(live.player.name),
        live.drill.drill.name,
        str(live.purpose),
    ]
    if live.ended_at is None:  # a round that is over asks for what comes next instead
        wanted.append(f"► {live.next_feed()}")
    if live.ended_at is not None:
        wanted.append("ROUND OVER")
    if mark.paused_at is not None:
        wanted.append("PAUSED")
    wanted.append(f"next up: {_next_up(book, mark)}")
    found = [f"not on the screen: {words}" for words in wanted if words not in text]
    if live.ended_at is None and "ROUND OVER" in text:
        found.append("the round is not over")
    if mark.paused_at is None and "PAUSED" in text:
        found.append("the round is not paused")
    if live.feeding.open.tough is not ("TOUGH" in text):
        found.append(f"open ball tough: {live.feeding.open.tough}")
    big = [str(live.feeding.number), str(mark.basket.left)]
    if numbers(lines) != big:
        found.append(f"ball and basket {numbers(lines)}, not {big}")
    seen: CueSight | None = None
    for row, card in enumerate(live.cues):
        seen, expected = cue(lines, card.name), cue_expected(live, row)
        if not _same(seen, expected):
            found.append(f"{card.name}: {seen}, not {expected}")
    if seen is not None and seen.marks and not _has_tough_marks(lines, live, len(seen.marks)):
        found.append("the tough balls are not marked over the cues")
    return found


def _next_up(book: Book, mark: Bookmark) -> str:
    roster = lookups.players(book, mark.clinic_id)
    court = rotation_lookups.court(book, mark.clinic_id, mark.day_id, roster, {})
    return plain(court.waiting[0].list_name)


def _has_tough_marks(lines: Sequence[str], live: LiveRound, marks: int) -> bool:
    """Whether a `!` stands over the marks of each tough ball, and over no other."""
    rows = ((at, _CUE_ROW.search(line)) for at, line in enumerate(lines))
    at, first = next((at, found.start("marks")) for at, found in rows if found)
    over = lines[at - 1].ljust(first + marks)[first : first + marks]
    tough = "".join("!" if ball.tough else " " for ball in live.feeding.taken[-marks:])
    return over == tough if tough.strip() else "!" not in over


def _same(seen: CueSight | None, expected: CueSight) -> bool:
    if seen is None or (seen.shape, seen.word) != (expected.shape, expected.word):
        return False
    if len(seen.marks) < min(len(expected.marks), _FEW_MARKS):
        return False
    return expected.marks.endswith(seen.marks)


@cache
def _glyphs() -> dict[tuple[str, ...], str]:
    found = {}
    for table in (DIGITS3X3, DIGITS3X3_BOLD):
        for place, digit in enumerate(DIGITS):
            if digit.isdigit():
                rows = table[place * 3 : place * 3 + 3]
                found[tuple(row.ljust(3) for row in rows)] = digit
    return found
