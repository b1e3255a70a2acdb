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


def home_again(watcher: str, early: str, late: str) -> Statement:
    """Which two sheets from home are held against each other."""
    eye = f"seen by {watcher} both times" if watcher else "seen by the same person both times"
    sentence = f"At home {early} and {late}, {eye}."
    return Statement(sentence, "The rules are those of the yardstick at the court.")


def not_again(late: str) -> Statement:
    """That earlier sheets from home are of another eye or drill."""
    sentence = f"No earlier sheet from home fits the one {late}."
    reason = "Sheets are compared where drill, cues and who watched are the same."
    return Statement(sentence, reason)


def home_since(comparison: Comparison, name: str, days: DayNames) -> Statement:
    """The cue at home against an earlier sheet; nothing where neither saw a ball."""
    return uncoached_change(comparison, f"{name} at home", days, name)


def home_change(
    comparison: Comparison | None, counts: Counts, name: str, days: DayNames
) -> Statement:
    """The cue at home against the court, in the words of the court; its count where none fits."""
    if comparison is not None and comparison.result is not None:
        return uncoached_change(comparison, f"{name} at home", days)
    counted = balls_of(counts.made, counts.seen) if counts.seen else "no ball seen"
    return Statement(f"{capital(name)} at home: {counted}. It cannot be held against the court.")
