"""Every first-depth sentence of the facts, and what is wrong with one.

The reading grade is that of Kincaid JP et al. 1975 (Research Branch Report 8-75, Naval Technical
Training), by textstat.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from functools import cache

import textstat

from courtlog.coaching.voice.sentence_length import MOST_WORDS
from courtlog.coaching.voice.statement import Statement

MOST_GRADE = 8

RETIRED = (
    *("could be either", "early hint", "too few balls to tell", "points", "no change"),
    *("learning (", "not yet", "since ball", "undecided", "in the player's word", "same mix"),
)
"""Words that nobody outside the trade understands, or understands otherwise."""

DRILL_KEY = re.compile(r"\b[a-z-]+/[a-z-]+\b")
BRACKETS = re.compile(r"[()\[\]{}%]")


def statements(facts: object, name: str = "") -> Iterator[tuple[str, Statement]]:
    """Every statement anywhere in the facts that says something, with the name of its field."""
    if isinstance(facts, Statement):
        if facts:
            yield name, facts
    elif is_dataclass(facts):
        for field in fields(facts):
            yield from statements(getattr(facts, field.name), field.name)
    elif isinstance(facts, tuple | list):
        for part in facts:
            yield from statements(part, name)
    elif isinstance(facts, dict):
        for part in facts.values():
            yield from statements(part, name)


def sentences_of(text: str) -> list[str]:
    """The sentences of a text that is printed without labels."""
    return [part for part in re.split(r"(?<=[.!?])\s+", text.strip()) if part]


def faults(sentence: str) -> list[str]:
    """What is wrong with one sentence."""
    words = len(sentence.split())
    grade = reading_grade(sentence)
    wrong = [f"{words} words"] if words > MOST_WORDS else []
    wrong += [f"reading grade {grade:.1f}"] if grade > MOST_GRADE else []
    return wrong + word_faults(sentence)


@cache
def reading_grade(sentence: str) -> float:
    """The school year that reads it with ease; pages say the same sentence of many players."""
    return float(textstat.flesch_kincaid_grade(sentence))


def word_faults(text: str) -> list[str]:
    """Words and signs that no reader should meet, whatever the length."""
    wrong = [f"says {phrase!r}" for phrase in RETIRED if phrase in text.lower()]
    wrong += [f"has {sign!r}" for sign in BRACKETS.findall(text)]
    return wrong + [f"names the key {key!r}" for key in DRILL_KEY.findall(text)]
