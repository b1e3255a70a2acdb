"""The strip of a cue: heights, hollow columns, marks, gaps, and the latest rounds that fit."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as some
from rich.cells import cell_len

from courtlog.coaching.answers.cue_rounds import CueRound
from courtlog.coaching.game.rounds import Purpose
from courtlog.reports.layout.cue_strip import FEW, HOLLOW, TODAY, column, cue_strip, strip_width
from courtlog.reports.layout.signs import BARS, bar, in_letters
from tests.court import DAY

PRACTICE, YARDSTICK = Purpose.PRACTICE, Purpose.YARDSTICK


def played(
    day: int, made: int, seen: int, purpose: Purpose = PRACTICE, clinic: int = 1
) -> CueRound:
    """A round on that day of a clinic, where day 0 is today."""
    return CueRound(DAY + timedelta(day), purpose, made, seen, clinic)


@some.composite
def many_rounds(draw: some.DrawFn) -> list[CueRound]:
    """Rounds of one clinic in the order of their days."""
    rounds = []
    for day in sorted(draw(some.lists(some.integers(-5, 0), max_size=12))):
        seen = draw(some.integers(0, 12))
        purpose = draw(some.sampled_from(Purpose))
        rounds.append(played(day, draw(some.integers(0, seen)), seen, purpose))
    return rounds


def test_a_strip_of_three_days_at_three_rows() -> None:
    rounds = [
        played(-2, 5, 10, YARDSTICK),
        played(-2, 10, 10),
        played(-1, 0, 10),
        played(-1, 2, 4),
        played(0, 0, 0),
        played(0, 8, 8, YARDSTICK),
    ]
    assert cue_strip(rounds, DAY, 3, 40) == (
        " █  ▁  █",
        "██ ▂░ ·█",
        "▀     ▬▀▬",
    )


@pytest.mark.parametrize("rows", [2, 4, 8])
@pytest.mark.parametrize("made", range(21))
def test_a_column_is_as_high_as_its_share(made: int, rows: int) -> None:
    drawn = column(made, 20, rows)
    assert len(drawn) == rows
    eighths = sum(BARS.index(cell) + 1 for cell in drawn.strip())
    assert abs(eighths - max(made / 20 * rows * 8, 2)) <= 0.5
    assert drawn.strip()[1:] == BARS[-1] * (len(drawn.strip()) - 1), "it stands on the ground"


@pytest.mark.parametrize("seen", range(13))
@pytest.mark.parametrize("rows", [1, 2, 4])
def test_a_column_of_few_balls_is_never_solid_and_a_column_of_enough_always(
    seen: int, rows: int
) -> None:
    solid = set(BARS[1:])
    for made in range(seen + 1):
        drawn = set(column(made, seen, rows))
        if rows > 1:
            assert bool(drawn & solid) is (seen >= FEW)
        assert (HOLLOW in drawn) <= (0 < seen < FEW)


def test_one_row_is_the_bar_of_the_share_and_few_balls_have_no_height() -> None:
    rounds = [played(0, made, 10) for made in range(11)]
    assert cue_strip(rounds, None, 1, 40) == ("".join(bar(made / 10) for made in range(11)),)
    assert cue_strip([played(0, 0, 3), played(0, 3, 3)], DAY, 1, 40) == (HOLLOW * 2,)


def test_two_clinics_stand_further_apart_than_two_days() -> None:
    rounds = [played(-9, 9, 9), played(-1, 9, 9, clinic=2), played(0, 9, 9, clinic=2)]
    assert cue_strip(rounds, DAY, 2, 40) == ("█  █ █", "     ▬▬")


def test_where_not_all_rounds_fit_the_latest_stand_there() -> None:
    rounds = [played(day, made, 8) for day in (-2, -1, 0) for made in (0, 4, 8)]
    assert cue_strip(rounds, DAY, 1, 8) == ("▁▅█ ▁▅█",)
    assert cue_strip(rounds, DAY, 1, 5) == ("▁▅█",), "it does not begin with a gap"
    assert cue_strip(rounds, DAY, 2, 3) == ("▅█", "▬▬▬")


def test_columns_are_broader_where_all_rounds_fit_so() -> None:
    rounds = [played(0, 8, 8), played(0, 6, 8)]
    assert cue_strip(rounds, DAY, 2, 8, 3) == ("██▇▇", "▬▬▬▬▬▬")
    assert cue_strip(rounds, DAY, 2, 99, 3) == ("███▇▇▇", "▬▬▬▬▬▬▬▬▬")


def test_the_same_strip_in_letters() -> None:
    rounds = [played(-1, 3, 4, YARDSTICK), played(0, 8, 8), played(0, 4, 8)]
    assert [in_letters(row) for row in cue_strip(rounds, DAY, 3, 40)] == [
        ": 8",
        ": 88",
        '" ===',
    ]


@given(many_rounds(), some.integers(1, 9), some.integers(-1, 40), some.integers(1, 3))
def test_no_strip_is_wider_or_higher_than_asked(
    rounds: Sequence[CueRound], height: int, width: int, broadest: int
) -> None:
    drawn = cue_strip(rounds, DAY, height, width, broadest)
    assert len(drawn) == height
    assert max(map(cell_len, drawn)) <= max(width, 0)
    if strip_width(rounds, DAY) <= width and height > 1:
        on_today = [each for each in rounds if each.on == DAY]
        assert (TODAY in drawn[-1]) is bool(on_today)
