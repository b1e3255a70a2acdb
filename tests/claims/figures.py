"""The share of cues, players and clinics with a claim of each kind, and its Monte-Carlo error."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import sqrt

from tests.claims.claims import Claim, claims
from tests.claims.clinics import CUES, DAYS, SEED, clinic
from tests.claims.sentences import DAY_PAGE, REVIEW, sentences
from tests.claims.truth import holds
from tests.claims.worlds import World

PLAYERS = 6
CURVES_EVERY = 3
"""One clinic in this many has its curves drawn, on the first and the last evening."""


@dataclass(frozen=True, slots=True)
class Judged:
    """A claim, whose it was, and whether it holds."""

    clinic: int
    player: int
    claim: Claim
    true: bool

    @property
    def cue(self) -> str:
        """The cue, or nothing where it was said of the player."""
        return self.claim.said.cue


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of claim as one line of the table; `curve` where the curve is needed for it."""

    name: str
    among: Callable[[Claim], bool]
    of_cues: bool = True
    curve: bool = False


def _directed(
    kind: str, direction: int, strengths: Sequence[str] = (), day: int = 0
) -> Callable[[Claim], bool]:
    return lambda claim: (
        claim.kind == kind
        and claim.direction == direction
        and (not strengths or claim.strength in strengths)
        and day in (0, claim.said.day)
    )


def _said_at(kind: str, place: str) -> Callable[[Claim], bool]:
    return lambda claim: claim.kind == kind and claim.said.place == place


_UP = _directed("yardstick", 1, ("a real",))

KINDS = (
    Kind("yardstick a real gain", _UP),
    Kind(
        "main cue a real gain",
        lambda claim: _UP(claim) and claim.said.cue == CUES[0],
        of_cues=False,
    ),
    Kind("yardstick a real drop", _directed("yardstick", -1, ("a real",))),
    Kind("all cues at once up", _directed("all cues", 1), of_cues=False),
    Kind("all cues at once down", _directed("all cues", -1), of_cues=False),
    Kind("hold up", _directed("hold", 1)),
    Kind("hold down", _directed("hold", -1)),
    Kind("practice up", _directed("practice", 1)),
    Kind("practice down", _directed("practice", -1)),
    Kind("trend up", _directed("trend", 1)),
    Kind("trend down", _directed("trend", -1)),
    Kind("overnight up on some night", _directed("overnight", 1)),
    Kind("overnight down on some night", _directed("overnight", -1)),
    Kind("review: up at some round", _directed("review", 1)),
    Kind("review: down at some round", _directed("review", -1)),
    Kind("tough balls higher", _directed("tough", 1)),
    Kind("tough balls lower", _directed("tough", -1)),
    Kind("curve better since some ball", _directed("since a ball", 1), curve=True),
    Kind("slip told at some review", _said_at("slip", REVIEW)),
    Kind("slip told on some evening", _said_at("slip", DAY_PAGE)),
    Kind("rung ready at some review", _said_at("ready", REVIEW), of_cues=False),
    Kind("rung ready on some evening", _said_at("ready", DAY_PAGE), of_cues=False),
    Kind("they go together, last day", _directed("together", 1, day=len(DAYS)), of_cues=False),
    Kind("they go together on some evening", _directed("together", 1), of_cues=False),
)


@dataclass(frozen=True, slots=True)
class Share:
    """So many of so many, and the standard error of that share over whole clinics."""

    value: float
    error: float
    of: int

    def __str__(self) -> str:
        return f"{self.value:.3f} ±{self.error:.3f}"


@dataclass(frozen=True, slots=True)
class Figure:
    """One kind of claim in one world, of those that hold or of those that do not."""

    kind: Kind
    true: bool
    cues: Share | None
    players: Share
    clinics: Share


def judged(world: World, numbers: Iterable[int], seed: int = SEED) -> Iterator[Judged]:
    """Every claim made in these clinics."""
    for number in numbers:
        curves = (1, len(DAYS)) if number % CURVES_EVERY == 0 else ()
        for player in clinic(world, number, seed):
            for claim in claims(sentences(player, curves)):
                yield Judged(number, player.number, claim, holds(claim, player, world))


def figures(found: Sequence[Judged], clinics: int) -> list[Figure]:
    """The table of these claims, made in clinics numbered from 0."""
    return [
        _figure(kind, true, found, range(0, clinics, CURVES_EVERY if kind.curve else 1))
        for kind in KINDS
        for true in (False, True)
    ]


def _figure(kind: Kind, true: bool, found: Sequence[Judged], numbers: range) -> Figure:
    made = [one for one in found if one.true is true and kind.among(one.claim)]
    cues = {(one.clinic, one.player, one.cue) for one in made}
    players = {(one.clinic, one.player) for one in made}
    clinics = {(one.clinic,) for one in made}
    return Figure(
        kind,
        true,
        _share(cues, numbers, PLAYERS * len(CUES)) if kind.of_cues else None,
        _share(players, numbers, PLAYERS),
        _share(clinics, numbers, 1),
    )


def _share(units: Iterable[tuple[object, ...]], numbers: range, each: int) -> Share:
    """Of all units, `each` to a clinic; those of one clinic are not taken as independent."""
    counts = dict.fromkeys(numbers, 0)
    for number, *_ in units:
        assert isinstance(number, int)
        counts[number] += 1
    shares = [count / each for count in counts.values()]
    mean = sum(shares) / len(shares)
    spread = sum((share - mean) ** 2 for share in shares) / max(len(shares) - 1, 1)
    return Share(mean, sqrt(spread / len(shares)), each * len(shares))
