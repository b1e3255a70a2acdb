"""Two coaches who rate the same balls: how often a cue is doubted, by how often it is made."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from courtlog.coaching.answers.rater_agreement import TwiceRatedCue, agreements, doubts_of
from courtlog.coaching.answers.statements import doubt_words
from courtlog.coaching.game.grades import Grade
from tests.claims.clinics import DAYS, SEED

BALLS = 50
"""Balls rated twice: as many as the table of minimums asks for a plain answer."""

NEAR_OF_REST = 0.5


@dataclass(frozen=True, slots=True)
class Pair:
    """How often each of two coaches sees what was there; else a grade drawn like any other."""

    name: str
    sees: float


PAIRS = (Pair("good", 0.95), Pair("fair", 0.8), Pair("guessing", 0.3))
MADE = (0.5, 0.8, 0.95)


def doubted(pair: Pair, made: float, chance: np.random.Generator) -> bool:
    """Whether the remark of doubt is printed after one go of the pair."""
    rest = 1 - made
    shares = [rest * (1 - NEAR_OF_REST), rest * NEAR_OF_REST, made]

    def drawn() -> list[int]:
        grades: list[int] = chance.choice(3, BALLS, p=shares).tolist()
        return grades

    there = drawn()
    seen = [
        [g if sees else other for g, sees, other in zip(there, sight, drawn(), strict=True)]
        for sight in (chance.random((2, BALLS)) < pair.sees)
    ]
    twice = [
        TwiceRatedCue(
            ball_id=ball,
            stroke="forehand",
            cue="turn",
            first="Ines",
            second="Jan",
            sitting=1,
            on=DAYS[0],
            grade=Grade(one),
            again=Grade(two),
        )
        for ball, (one, two) in enumerate(zip(*seen, strict=True))
    ]
    return "was not seen alike" in doubt_words(doubts_of(agreements(twice)).get("turn"))


def rater_lines(goes: int) -> Iterator[str]:
    """The table: the share of goes in which a cue is doubted."""
    yield f"raters: {BALLS} balls rated twice, the share of {goes} goes in which the cue is doubted"
    yield f"{'each sees what was there':38}" + "".join(f"{f'made {m:.0%}':>14}" for m in MADE)
    chance = np.random.default_rng(SEED)
    for pair in PAIRS:
        shares = [sum(doubted(pair, made, chance) for _ in range(goes)) / goes for made in MADE]
        cells = "".join(f"{s:.3f} ±{(s * (1 - s) / goes) ** 0.5:.3f}".rjust(14) for s in shares)
        yield f"{f'{pair.name} pair, {pair.sees:.0%} of balls':38}{cells}"
