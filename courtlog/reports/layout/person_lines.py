"""What pages say of a person: what the coach saw first, and the caution about minors."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Protocol

from courtlog.logbook.reads.people_lookups import FocusInWords
from courtlog.plain_text import plain


class FirstLook(Protocol):
    """What is good already, the chosen cues by name, why these, and the main one's name."""

    @property
    def strengths(self) -> str: ...
    @property
    def cues(self) -> Sequence[str]: ...
    @property
    def why(self) -> str: ...
    @property
    def main(self) -> str: ...


def look_words(seen: FirstLook) -> str:
    """`good already: calm head / cues: turn, spacing because the arm crowds / main: turn`.

    What was not said is left out.
    """
    parts = [f"good already: {plain(seen.strengths)}"] if seen.strengths else []
    if seen.cues:
        why = f" because {plain(seen.why)}" if seen.why else ""
        parts.append(f"cues: {', '.join(map(plain, seen.cues))}{why}")
    if seen.main:
        parts.append(f"main: {plain(seen.main)}")
    return " / ".join(parts)


def strengths_words(
    looks: Sequence[FocusInWords], stroke: str, dates: Sequence[date]
) -> tuple[str, ...]:
    """`Your coach wrote on day one: “calm head”.` for one stroke, where anything was written.

    It is quoted, since the coach may have written of the player and not to the player.
    """
    for look in looks:
        if look.stroke == stroke and look.strengths:
            day = dates.index(look.on) + 1 if look.on in dates else 0
            when = "" if not day else " on day one" if day == 1 else f" on day {day}"
            return (f"Your coach wrote{when}: “{look.strengths.strip().rstrip('.')}”.",)
    return ()


MARK = "minor"

ON_A_DAY = (
    "Minors are on this page: show and keep it only as your local rules on minors' data allow."
)
ON_A_SHEET = (
    "This sheet is about a minor. It is for the player and a parent or guardian only. Keep it as"
    " your local rules on minors' data ask."
)
