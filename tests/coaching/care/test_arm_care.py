"""Cautions on arms, one line a day. The limits: see coaching.care.arm_care for their sources."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.care.arm_care import (
    LIMITS,
    PLACES,
    CautionLevel,
    DatedCheckIn,
    cautions,
    loudest,
)
from courtlog.coaching.game.clinic_record import CheckIn, CheckInMoment, Sign

FIRST = date(2026, 5, 12)


def days(sheet: str) -> list[DatedCheckIn]:
    """`arrival elbow 1, break elbow 2 / morning elbow 2`: a day between strokes."""
    found = []
    for number, day in enumerate(sheet.split("/")):
        for said in filter(None, map(str.split, day.split(","))):
            when, *place, pain = said
            moment = None if when == "-" else CheckInMoment(when)
            check_in = CheckIn(player="Ruben", moment=moment, pain=int(pain), place=" ".join(place))
            found.append(DatedCheckIn(FIRST + timedelta(days=number), check_in))
    return found


def levels(sheet: str, minor: bool = False) -> str:
    """The loudest level of each check-in: `-` none, `a` amber, `r` red."""
    said = days(sheet)
    found = cautions(said, minor)
    ranks = [loudest([c for c in found if c.place == place]) for place in range(len(said))]
    return "".join("-" if level is None else level[0] for level in ranks)


@pytest.mark.parametrize(
    ("sheet", "expected"),
    [
        ("arrival elbow 0", "-"),
        ("arrival elbow 2", "-"),
        ("arrival elbow 3", "a"),
        ("arrival elbow 5", "a"),
        ("arrival elbow 6", "r"),
        ("- knee 10", "r"),
        ("arrival elbow 1, break elbow 2, end elbow 4", "--a"),
        ("arrival elbow 1, break elbow 2", "--"),
        ("arrival 0, break elbow 2", "-a"),
        ("arrival elbow 0, arrival shoulder 2, break shoulder 2", "---"),
        ("arrival elbow 0, arrival shoulder 2, break wrist 2", "--a"),
        ("break elbow 2, arrival elbow 0", "a-"),
        ("arrival elbow 2, break elbow 1", "--"),
        ("break elbow 0, end elbow 2", "--"),
        ("arrival elbow 0 / break elbow 2", "--"),
        ("morning elbow 1 / morning elbow 2", "-a"),
        ("morning elbow 2 / morning elbow 2", "--"),
        ("morning elbow 2 / morning elbow 1", "--"),
        ("morning elbow 1 / / morning elbow 2", "-a"),
        ("morning elbow 0 / morning elbow 1 / morning elbow 1", "-a-"),
        ("arrival elbow 1, end elbow 1 / morning elbow 2", "--a"),
        ("morning elbow 2", "-"),
        ("morning elbow 0, arrival elbow 2", "--"),
        ("morning elbow 0, break elbow 2", "-a"),
        ("morning elbow 0, arrival elbow 1, break elbow 2", "---"),
        ("morning elbow 1 / arrival elbow 0 / morning elbow 1", "--a"),
    ],
)
def test_an_adult(sheet: str, expected: str) -> None:
    assert levels(sheet) == expected


@pytest.mark.parametrize(
    ("sheet", "expected"),
    [
        ("arrival elbow 0", "-"),
        ("arrival 0", "-"),
        ("arrival elbow 1", "r"),
        ("arrival 1", "r"),
        ("arrival inside of it 1", "r"),
        ("arrival forearm 1", "-"),
        ("arrival Upper Arm 2", "-"),
        ("arrival forearm 3", "a"),
        ("arrival calf 6", "r"),
    ],
)
def test_a_growing_player(sheet: str, expected: str) -> None:
    assert levels(sheet, minor=True) == expected


@pytest.mark.parametrize("sign", Sign)
def test_every_sign_is_red_without_any_pain(sign: Sign) -> None:
    for pain in (None, 0, 1):
        said = DatedCheckIn(FIRST, CheckIn(player="Ruben", pain=pain, signs=(sign,)))
        assert [c.level for c in cautions([said], minor=False)] == [CautionLevel.RED]


def test_a_lower_value_later_takes_nothing_back() -> None:
    assert levels("arrival elbow 6, break elbow 1, end 0") == "r--"


said_of_pain = st.builds(
    CheckIn,
    player=st.just("Ruben"),
    moment=st.none() | st.sampled_from(CheckInMoment),
    pain=st.none() | st.integers(0, 10),
    place=st.sampled_from(("", *PLACES)),
    signs=st.lists(st.sampled_from(Sign), max_size=2).map(tuple),
)
many_days = st.lists(st.tuples(st.integers(0, 5), said_of_pain), max_size=12).map(
    lambda said: [
        DatedCheckIn(FIRST + timedelta(days=d), c) for d, c in sorted(said, key=lambda s: s[0])
    ]
)


@given(many_days, said_of_pain)
def test_what_is_said_later_never_quiets_a_caution(
    said: list[DatedCheckIn], later: CheckIn
) -> None:
    after = [*said, DatedCheckIn(FIRST + timedelta(days=9), later)]
    before = [(c.place, c.level) for c in cautions(said, minor=False)]
    assert [(c.place, c.level) for c in cautions(after, False) if c.place < len(said)] == before


@given(many_days)
def test_a_minor_is_never_warned_about_less(said: list[DatedCheckIn]) -> None:
    adult, minor = cautions(said, minor=False), cautions(said, minor=True)
    assert set(adult) <= set(minor)


@given(many_days, st.booleans())
def test_every_sentence_has_its_source_and_defers(said: list[DatedCheckIn], minor: bool) -> None:
    for caution in cautions(said, minor):
        words = caution.sentence
        assert "ask a licensed clinician" in words
        assert "follow your club's and national body's rule" in words
        assert "usual caution" in words or "Phys Ther 77:1690-1703" in words
        assert ("see a clinician before more" in words) is (caution.level is CautionLevel.RED)


def test_the_limits_of_the_model_are_told() -> None:
    assert "not in elbows and not in children" in LIMITS
    assert "may need lower limits" in LIMITS


def test_levels_differ_without_colour() -> None:
    assert len({(level.shape, level.letter, str(level)) for level in CautionLevel}) == 2
    assert CautionLevel.AMBER.shape != CautionLevel.RED.shape
    assert CautionLevel.AMBER.letter != CautionLevel.RED.letter
