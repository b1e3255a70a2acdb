"""What a sentence claims, read as a coach reads it: from its words alone."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from courtlog.coaching.voice import answer_figures
from courtlog.coaching.voice.change_voice import LOOK, REAL
from tests.claims.sentences import CUE_NAMES, Said

Direction = Literal[-1, 1]

_KINDS = (
    ("yardstick", answer_figures.LEARNING),
    ("hold", answer_figures.HOLD),
    ("practice", answer_figures.PRACTICE),
    ("overnight", answer_figures.OVERNIGHT),
    ("tough", answer_figures.TOUGH),
    ("trend", "rounds without help on "),
    ("review", "yardstick, "),
    ("review tough", "tough, "),
)
"""How a sentence that may name a direction begins."""

_DIRECTION = re.compile(r": (a real|may be)(?: a)? (gain|drop|higher|lower)\b")
_FLAT = {
    "ready": re.compile(r"^(Rung: )?ready to move up"),
    "slip": re.compile(r"^(Rung: )?look again before moving up: (?P<cues>.*?) was ready"),
    "together": re.compile(r" go with (?P<cues>.*?) more than they go with each other"),
    "since a ball": re.compile(r"\bsince ball \d"),
}
"""Sentences that claim one thing or nothing, with the direction of what they claim."""

_AT_ONCE = re.compile(r"^All (three|cues|four) at once: |^Both at once: ")
_DOWN = ("slip",)


@dataclass(frozen=True, slots=True)
class Claim:
    """Something that was said to be so; `strength` in the sentence's own words, or plain."""

    kind: str
    strength: str
    direction: Direction
    said: Said


def claims(said: Iterable[Said]) -> Iterator[Claim]:
    """The claims of these sentences, in their order."""
    for sentence in said:
        yield from _claims_of(sentence)


def _claims_of(said: Said) -> Iterator[Claim]:
    for kind, begins in _KINDS:
        match = _DIRECTION.search(said.text) if said.text.startswith(begins) else None
        if match is not None:
            up = match[2] in ("gain", "higher")
            yield Claim(kind, match[1], 1 if up else -1, said)
    if _AT_ONCE.match(said.text):
        yield from _of_all_cues(said)
    for kind, words in _FLAT.items():
        match = words.search(said.text)
        if match is not None:
            for cue in _cues_named(match) or (said.cue,):
                yield Claim(kind, "plain", -1 if kind in _DOWN else 1, replace(said, cue=cue))


def _of_all_cues(said: Said) -> Iterator[Claim]:
    """What is claimed of all cues on the same ball: at most that it may be a change."""
    directions: tuple[Direction, ...] = (1, -1)
    for direction in directions:
        for strength, words in (("a real", REAL[direction]), ("may be", LOOK[direction])):
            if words.lower() in said.text.lower():
                yield Claim("all cues", strength, direction, said)


def _cues_named(match: re.Match[str]) -> list[str]:
    """The cues in a sentence that names several, as `turn, finish was ready`."""
    named = match.groupdict().get("cues", "")
    return [cue for cue, name in CUE_NAMES.items() if name in named.split(", ")]
