"""A short dose of the simulation in the ordinary tests: the aims stay met.

The clinics are few and always the same ones; an aim allows for the luck of so few. The long dose
is `python -m tests.claims`.
"""

from __future__ import annotations

import pytest

from tests.claims.aims import AIMS
from tests.claims.claims import claims
from tests.claims.clinics import clinic
from tests.claims.figures import PLAYERS, figures, judged
from tests.claims.raters import BALLS, FAIR, GOOD, GUESSING, MADE, Pair, doubted
from tests.claims.sentences import last_evening
from tests.claims.truth import holds
from tests.claims.worlds import WORLDS

CLINICS = 2
TOGETHER_CLINICS = 12


@pytest.mark.parametrize("world", ["samples", "easy-ball", "leads"])
def test_cues_are_told_to_go_together_where_one_leads_and_hardly_elsewhere(world: str) -> None:
    found = [
        (claim.kind, holds(claim, player, WORLDS[world]))
        for number in range(TOGETHER_CLINICS)
        for player in clinic(WORLDS[world], number)
        for claim in claims(last_evening(player))
    ]
    players = PLAYERS * TOGETHER_CLINICS
    for aim in AIMS:
        if aim.kind == "they go together, last day" and world in aim.worlds:
            share = found.count(("together", aim.found)) / players
            assert aim.met(share, players), f"{share:.3f} of {players} players, meant {aim.share}"


@pytest.mark.parametrize("pair", [GOOD, FAIR, GUESSING], ids=lambda pair: pair.name)
@pytest.mark.parametrize("balls", BALLS)
def test_a_pair_that_sees_is_hardly_doubted_and_one_that_guesses_nearly_always(
    balls: int, pair: Pair
) -> None:
    told = [doubted(pair, balls, made, goes=100) for made in MADE]
    assert [each for each in told if not each.met] == []


@pytest.mark.parametrize("world", ["one-drill", "planned", "change-20"])
def test_each_aim_is_met_luck_allowed_for(world: str) -> None:
    lines = figures(list(judged(WORLDS[world], range(CLINICS))), CLINICS)
    missed = []
    for aim in AIMS:
        if world in aim.worlds:
            line = next(x for x in lines if (x.kind.name, x.true) == (aim.kind, aim.found))
            share = {"cue": line.cues, "player": line.players, "clinic": line.clinics}[aim.unit]
            assert share is not None
            if not aim.met(share.value, share.of):
                missed.append(f"{aim.kind}: {share} a {aim.unit}, meant {aim.share}")
    assert missed == []
