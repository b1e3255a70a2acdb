"""The manual's page on numbers: what can be computed at once is what it says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import courtlog
from courtlog.measures.common.enough import CONFIDENCE, LOOK_CONFIDENCE, MINIMUMS, Question
from courtlog.measures.learning.mastery import MasteryTest
from courtlog.measures.shares.power import clear_chance
from tests.claims.clinics import SEED
from tests.claims.worlds import WORLDS

PAGE = (Path(courtlog.__file__).parent / "manual" / "numbers.md").read_text(encoding="utf-8")


def rows(after: str) -> list[list[str]]:
    """The cells of the first table after these words, without its head."""
    table = PAGE.split(after, 1)[1].lstrip().split("\n\n")[1 if after.endswith(".") else 0]
    lines = [line for line in table.splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines[2:]]


def test_moving_up() -> None:
    for share, *chances, once in rows("so its plain error of 1 in 10 would not hold.\n\n"):
        ready = MasteryTest().ready_by(float(share), 120)
        found = [ready[balls - 1] for balls in (20, 30, 60, 120)]
        assert [float(cell) for cell in chances] == pytest.approx(found, abs=5.1e-4)
        by_sixty = MasteryTest().ready_by(float(share), 60, in_a_row=1)[-1]
        assert float(once) == pytest.approx(by_sixty, abs=5.1e-4)


def test_a_rise_of_the_main_cue() -> None:
    for rise, *chances in rows("called a real gain, by balls seen each time:\n\n"):
        early, late = map(float, rise.split(" to "))
        found = [
            clear_chance(early, late, first, last).up
            for first, last in ((20, 20), (20, 40), (40, 40), (40, 60))
        ]
        assert [float(cell) for cell in chances] == pytest.approx(found, abs=5.1e-3)


def test_its_worlds_seed_and_lines_are_the_programs() -> None:
    named = set(re.findall(r"`([a-z-]+)`[,:]", PAGE))
    assert named - set(WORLDS) == set()
    heads = [line for line in PAGE.splitlines() if line.startswith("| claim |")]
    told = {cell.strip() for head in heads for cell in head.strip("|").split("|")[1:]}
    assert told <= set(WORLDS)
    assert f"seed {SEED}" in PAGE
    assert f"its {LOOK_CONFIDENCE:.0%} interval" in PAGE
    assert f"the {CONFIDENCE:.0%} interval" in PAGE
    assert f"At least {MINIMUMS[Question.YARDSTICK][0].refuse:.0f} balls" in PAGE
