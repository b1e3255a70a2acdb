"""What is said at the court between two rounds: who is next, when to speak, what a round lacks."""

from __future__ import annotations

from collections.abc import Sequence

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.speaking import Speak, Wording
from courtlog.coaching.voice.figures import (
    few_balls,
    next_wording_plan,
    speaking_words,
    spoke_uncoached_words,
)
from courtlog.coaching.voice.statement import SILENCE, Statement
from courtlog.plain_text import many

KEEP_QUIET = "Keep this to yourself until practice."
"""Beside the one thing after a round without help."""


HEAD_PICKS_CUES = Statement(
    "Next: the head coach picks two or three cues, before anything is taught.",
    "Lay this court's book on the stick (Esc Enter b, r), so that the balls are seen there.",
)

NOTHING_LIKE_FIRST = Statement(
    "No ball today to hold against the first yardstick.",
    "Only balls without help, of the kind hit in it, can be held against it.",
    "yardstick: no ball without help of its kind today, so nothing is compared",
)


def pick_cues(key: str) -> Statement:
    """What follows a choosing round, with the key that does it; no key in an assistant's book."""
    if not key:
        return HEAD_PICKS_CUES
    return Statement(
        f"Next: pick two or three cues with {key}, before anything is taught.",
        "A yardstick on these cues comes first, so that a later change can be told.",
    )


def next_up(
    player: str, purpose: Purpose, drill: str, reason: str, balls: int, when: str = "Next"
) -> Statement:
    """`Next: Tove, hold on Drop and hit.`"""
    return Statement(
        f"{when}: {player}, {purpose} on {drill}.",
        f"Fewest balls come first, then the longest wait. Why {purpose}: {reason}.",
        f"{many(balls, 'ball')} to rate.",
    )


def speak_next(speak: int, balls: int) -> Statement:
    """How often to speak in the next practice round."""
    return Statement(
        next_wording_plan(speak, balls), "What is said gets less over a day's rounds of a drill."
    )


def spoke(wordings: Sequence[Wording], balls: int, speak: Speak, advised: int | None) -> Statement:
    """How often the coach spoke in a practice round, against what the rule said."""
    return Statement(
        f"You spoke after {len(wordings)} of {many(balls, 'ball')}.",
        "" if advised is None else f"The rule said {advised}.",
        speaking_words(wordings, balls, speak, advised),
    )


def spoke_without_help(times_spoken: int, balls: int) -> Statement:
    """That the coach spoke in a round that was to be without help."""
    return Statement(
        f"You spoke after {times_spoken} of {many(balls, 'ball')}, so this round was not purely"
        " without help.",
        figures=spoke_uncoached_words(times_spoken, balls),
    )


def balls_lacking(seen: int, needed: int, cue: str) -> Statement:
    """That a round to be compared has too few balls seen; nothing with enough."""
    words = few_balls(seen, needed, cue)
    if not words:
        return SILENCE
    return Statement(
        f"{words[:1].upper()}{words[1:]}", "With fewer on either day, nothing is said of a change."
    )
