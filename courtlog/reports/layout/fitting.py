"""What of a page fits in its lines: the most needed parts, in the order of the page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Part:
    """Lines that stand or go together; of two parts the one with the lower `rank` stays."""

    rank: int
    lines: tuple[str, ...]
    heads: bool = False
    """Whether it is the heading of the parts after it, and nothing without them."""


def fitted(parts: Sequence[Part], most: int | None) -> tuple[list[str], bool]:
    """The lines of the parts that fit in `most` lines (None: all), and whether those are all."""
    room = sum(len(part.lines) for part in parts) if most is None else most
    kept = set()
    for part in sorted(parts, key=lambda part: part.rank):
        if len(part.lines) <= room:
            kept.add(id(part))
            room -= len(part.lines)
    told = [part for part in parts if id(part) in kept and part.lines]
    followed = [*told[1:], Part(0, (), heads=True)]
    lines = [
        line
        for part, after in zip(told, followed, strict=True)
        if not (part.heads and after.heads)
        for line in part.lines
    ]
    return lines, len(kept) == len(parts)
