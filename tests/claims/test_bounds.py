"""A short dose of the simulation in the ordinary tests: the aims that hold stay held.

The clinics are few and always the same ones; an aim allows for the luck of so few. The long dose
is `python -m tests.claims`.
"""

from __future__ import annotations

import pytest

from tests.claims.aims import AIMS
from tests.claims.figures import figures, judged
from tests.claims.worlds import WORLDS

CLINICS = 3
HELD = (
    "yardstick clearly up",
    "yardstick clearly down",
    "hold up",
    "hold down",
    "review: up at some round",
    "review: down at some round",
    "curve better since some ball",
    "trend up",
    "trend down",
    "rung ready at some review",
    "slip told at some review",
)
"""Kinds of claim whose aims hold in every world that has one."""


@pytest.mark.parametrize("world", ["samples", "one-drill"])
def test_no_claim_errs_more_often_than_its_aim_allows(world: str) -> None:
    lines = figures(list(judged(WORLDS[world], range(CLINICS))), CLINICS)
    missed = []
    for aim in AIMS:
        if world in aim.worlds and aim.kind in HELD:
            line = next(x for x in lines if (x.kind.name, x.true) == (aim.kind, aim.found))
            share = {"cue": line.cues, "player": line.players, "clinic": line.clinics}[aim.unit]
            assert share is not None
            if not aim.met(share.value, share.of):
                missed.append(f"{aim.kind}: {share} a {aim.unit}, meant {aim.share}")
    assert missed == []
