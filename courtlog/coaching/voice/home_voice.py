"""A yardstick watched at home, in words: whose eye it was, and what the counts can bear."""

from __future__ import annotations

from courtlog.coaching.answers.comparison import Comparison
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.voice.change_voice import uncoached_change
from courtlog.coaching.voice.day_names import DayNames
from courtlog.coaching.voice.plain_numbers import balls_of
from courtlog.coaching.voice.statement import Statement
from courtlog.plain_text import capital

WHY_APART = (
    "Two people do not see every ball alike. So these balls are in no count of the coach's own."
)


def home_reading(watcher: str, when: str) -> Statement:
    """Whose eye it was, before any count."""
    by = f"watched by {watcher}" if watcher else "watched by somebody else"
    return Statement(f"At home {when}, {by}: another eye than the coach's.", WHY_APART)


def home_change(
    comparison: Comparison | None, counts: Counts, name: str, days: DayNames
) -> Statement:
    """The cue at home against the court, in the words of the court; its count where none fits."""
    if comparison is not None and comparison.result is not None:
        return uncoached_change(comparison, f"{name} at home", days)
    counted = balls_of(counts.made, counts.seen) if counts.seen else "no ball seen"
    return Statement(f"{capital(name)} at home: {counted}. It cannot be held against the court.")
