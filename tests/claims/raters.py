"""Two coaches who rate the same balls: how often a cue is doubted, by how often it is made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from courtlog.coaching.answers.rater_agreement import TwiceRatedCue, agreements, doubts_of
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.voice.figures import doubt_words
from tests.claims.aims import Aim
from tests.claims.clinics import DAYS, SEED

BALLS = (20, 30, 50)
"""Balls rated twice: what the table of minimums asks for a first look, some, and for an answer."""

NEAR_OF_REST = 0.5


@dataclass(frozen=True, slots=True)
class Pair:
    """How often each of two coaches sees what was there; else a grade drawn like any other."""

    name: str
    sees: float


GOOD, FAIR, GUESSING = Pair("good", 0.95), Pair("fair", 0.8), Pair("guessing", 0.3)
PAIRS = (GOOD, FAIR, Pair("poor", 0.6), GUESSING)
MADE = (0.5, 0.8, 0.95, 0.98)
NEARLY_ALL = 0.95
"""From here on two who guess are alike too, and kappa alone doubts a fair pair."""


@dataclass(frozen=True, slots=True)
class Doubted:
    """In how many goes of a pair the cue is doubted."""

    pair: Pair
    balls: int
    made: float
    share: float
    of: int

    @property
    def aim(self) -> Aim | None:
        """What is meant; None where the balls cannot tell."""
        nearly_all = self.made >= NEARLY_ALL
        if self.pair is GOOD or (self.pair is FAIR and nearly_all):
            return Aim(f"{self.pair.name} pair doubted", (), "cue", 0.05)
        if self.pair is GUESSING and not nearly_all:
            return Aim("guessing pair doubted", (), "cue", 0.90, found=True)
        return None

    @property
    def met(self) -> bool:
        """Whether it is as meant, luck allowed for."""
        return self.aim is None or self.aim.met(self.share, self.of)


def doubted(pair: Pair, balls: int, made: float, goes: int) -> Doubted:
    """The share of goes in which the remark of doubt is printed; the same in every run."""
    chance = np.random.default_rng([SEED, balls, round(100 * made), round(100 * pair.sees)])
    told = sum(_in_doubt(pair, balls, made, chance) for _ in range(goes))
    return Doubted(pair, balls, made, told / goes, goes)


def _in_doubt(pair: Pair, balls: int, made: float, chance: np.random.Generator) -> bool:
    rest = 1 - made
    shares = [rest * (1 - NEAR_OF_REST), rest * NEAR_OF_REST, made]

    def drawn() -> list[int]:
        grades: list[int] = chance.choice(3, balls, p=shares).tolist()
        return grades

    there = drawn()
    seen = [
        [g if sees else other for g, sees, other in zip(there, sight, drawn(), strict=True)]
        for sight in (chance.random((2, balls)) < pair.sees)
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
    """The tables: the share of goes in which a cue is doubted, and whether that is as meant."""
    yield f"raters: the share of {goes} goes in which the cue is doubted"
    for balls in BALLS:
        yield ""
        head = f"{balls} balls rated twice, each sees what was there"
        yield f"{head:48}" + "".join(f"{f'made {made:.0%}':>14}" for made in MADE)
        for pair in PAIRS:
            row = [doubted(pair, balls, made, goes) for made in MADE]
            cells = "".join(
                f"{s.share:.3f} ±{(s.share * (1 - s.share) / goes) ** 0.5:.3f}".rjust(14)
                for s in row
            )
            yield f"{f'{pair.name} pair, {pair.sees:.0%} of balls':48}{cells}{_aims(row)}"


def _aims(row: Sequence[Doubted]) -> str:
    """What is meant of a pair, and whether it is so."""
    meant = [each for each in row if each.aim is not None]
    if not meant:
        return ""
    assert meant[0].aim is not None
    most = "at least" if meant[0].aim.found else "at most"
    at = "" if len(meant) == len(row) else f" with {' and '.join(f'{m.made:.0%}' for m in meant)}"
    met = "met" if all(each.met for each in row) else "NOT met"
    return f"   {most} {meant[0].aim.share:g}{at}: {met}"
