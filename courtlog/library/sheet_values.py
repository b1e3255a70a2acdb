"""Single values of a sheet's line. Each raises ValueError with one sentence."""

from __future__ import annotations

from datetime import date, datetime, time

from courtlog import times
from courtlog.coaching.game.drills import MOST_CUES, Ladder
from courtlog.coaching.game.rounds import Purpose
from courtlog.library.sheet_words import Word, text_of


def needed(by_key: dict[str, list[Word]], keyword: str) -> str:
    """The text after a keyword that must be there."""
    text = text_of(by_key.get(keyword, []))
    if not text:
        raise ValueError(f"{keyword!r} needs a value on this line")
    return text


def day(text: str) -> date:
    """A date of a year that a clinic can have had."""
    try:
        parsed = date.fromisoformat(text)
    except ValueError:
        raise ValueError(f"{text!r} is no date: write it like 2026-05-12") from None
    if not times.FIRST_YEAR <= parsed.year <= times.LAST_YEAR:
        raise ValueError(f"{text} is no year for a clinic")
    return parsed


def purpose(text: str) -> Purpose:
    """A purpose; practice where none is written."""
    if not text:
        return Purpose.PRACTICE
    if text not in set(Purpose):
        raise ValueError(f"purpose is one of {', '.join(Purpose)}, not {text!r}")
    return Purpose(text)


def cues(written: list[Word], ladder: Ladder) -> tuple[str, ...]:
    """Cue keys of the stroke; its first cues where none are written."""
    keys = tuple(word.text for word in written) or ladder.first_cues
    for key in keys:
        if ladder.cue(key) is None:
            known = ", ".join(cue.key for cue in ladder.cues)
            raise ValueError(f"{ladder.stroke} has no cue {key!r}; it has {known}")
    if len(set(keys)) != len(keys):
        raise ValueError("a cue stands twice")
    if len(keys) > MOST_CUES:
        raise ValueError(f"a round has at most {MOST_CUES} cues")
    return keys


def order(text: str, spots: int) -> tuple[int, ...]:
    """A feed order: spot numbers from 1, one digit a ball."""
    if any(not "1" <= digit <= str(spots) for digit in text):
        raise ValueError(f"order is written in spot numbers 1 to {spots}, not {text!r}")
    return tuple(int(digit) - 1 for digit in text)


def clock(text: str) -> time:
    """A time of day, `09:41:07` or `09:41`."""
    for pattern in ("%H:%M:%S", "%H:%M"):
        try:
            return datetime.strptime(text, pattern).time()  # noqa: DTZ007 - a wall clock
        except ValueError:
            continue
    raise ValueError(f"{text!r} is no time of day: write it like 09:41:07")


def number(text: str, low: int, high: int, name: str) -> int:
    """A whole number in this range."""
    if not (text.isascii() and text.isdigit() and low <= int(text) <= high):
        raise ValueError(f"{name} is a whole number from {low} to {high}, not {text!r}")
    return int(text)
