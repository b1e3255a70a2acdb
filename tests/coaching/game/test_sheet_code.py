"""A sheet's code comes back from paper whole, and one wrong sign is always told."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.sheet_code import (
    LAST,
    LENGTH,
    LOOK_ALIKES,
    MOST,
    SIGNS,
    SheetCode,
    SheetCodeError,
    SheetKind,
    round_task,
)
from courtlog.errors import CourtlogError

DAY = date(2026, 5, 12)
TASK = round_task("forehand/hand-feed", Purpose.PRACTICE, 20, ("turn", "spacing", "finish"))
MAREN = SheetCode.of(SheetKind.COURT, DAY, "Harbour Week", "Maren", 3, TASK)

names = st.text(max_size=30)


@st.composite
def codes(draw: st.DrawFn) -> SheetCode:
    kind = draw(st.sampled_from(SheetKind))
    return SheetCode.of(
        kind,
        draw(st.dates(date(2020, 1, 1), LAST)),
        draw(names),
        draw(names),
        draw(st.integers(1, MOST[kind])),
        draw(names),
    )


def signs(code: SheetCode) -> str:
    return str(code).replace("-", "")


def misread(written: str) -> Iterator[str]:
    """Every code with one sign wrong, and every code with two signs exchanged."""
    for place, right in enumerate(written):
        yield from (
            written[:place] + wrong + written[place + 1 :] for wrong in SIGNS if wrong != right
        )
        for other in range(place + 1, len(written)):
            swapped = list(written)
            swapped[place], swapped[other] = swapped[other], swapped[place]
            if swapped[place] != swapped[other]:
                yield "".join(swapped)


@given(codes())
def test_what_is_printed_is_what_is_read(code: SheetCode) -> None:
    assert SheetCode.from_text(str(code)) == code
    assert SheetCode.from_text(f"  {str(code).lower().replace('-', ' ')}\n") == code
    assert SheetCode.from_text(signs(code)) == code
    assert [len(group) for group in str(code).split("-")] == [3, 3, 3]


@given(codes())
def test_each_wrong_sign_and_each_exchange_is_told(code: SheetCode) -> None:
    for wrong in misread(signs(code)):
        with pytest.raises(SheetCodeError):
            SheetCode.from_text(wrong)


@given(codes(), st.integers(0, LENGTH - 1), st.sampled_from(SIGNS))
def test_a_sign_too_many_or_too_few_is_told(code: SheetCode, place: int, extra: str) -> None:
    written = signs(code)
    for wrong in (
        written[:place] + written[place + 1 :],
        written[:place] + extra + written[place:],
    ):
        with pytest.raises(SheetCodeError, match=f"has {LENGTH} signs, and {len(wrong)} were"):
            SheetCode.from_text(wrong)


@pytest.mark.parametrize(
    ("first", "check"), [("20000000", "C"), ("K7D3MX2P", "R"), ("YYYYYYYY", "K"), ("0A1C2D3E", "T")]
)
def test_the_check_is_that_of_another_program(first: str, check: str) -> None:
    """python-stdnum 2.2: `stdnum.iso7064.mod_37_2.calc_check_digit(first, SIGNS)`.

    Its modulus is the length of the alphabet that it is given.
    """
    accepted = []
    for sign in SIGNS:
        try:
            SheetCode.from_text(first + sign)
        except SheetCodeError as error:
            if "later courtlog" not in error.happened:
                continue
        accepted.append(sign)
    assert accepted == [check]


def test_no_sign_looks_like_another_and_a_look_alike_is_read_as_its_sign() -> None:
    assert len(SIGNS) == len(set(SIGNS)) == 29
    assert set(LOOK_ALIKES) & set(SIGNS) == set()
    assert set(LOOK_ALIKES.values()) <= set(SIGNS)
    for letter, sign in LOOK_ALIKES.items():
        code = next(
            SheetCode.of(SheetKind.COURT, DAY + timedelta(days), "Harbour", "Tove")
            for days in range(20_000)
            if sign in str(SheetCode.of(SheetKind.COURT, DAY + timedelta(days), "Harbour", "Tove"))
        )
        assert SheetCode.from_text(str(code).replace(sign, letter.lower())) == code


@given(st.text(max_size=40))
def test_whatever_is_typed_is_a_code_or_a_sentence(text: str) -> None:
    try:
        code = SheetCode.from_text(text)
    except SheetCodeError as error:
        said = f"{error.happened[-1]} {error.next_step[-1]}"
    else:
        said = ". ." if SheetCode.from_text(str(code)) == code else "another code"
    assert said == ". ."


def test_it_belongs_by_names_in_whatever_book() -> None:
    """No row id is in it; case, accents and blanks of a name do not count."""
    assert MAREN.belongs_to("harbour  week", "MAREN")
    assert not MAREN.belongs_to("Harbour Week", "Maren B")
    assert not MAREN.belongs_to("Harbour", "Week Maren")
    assert not MAREN.belongs_to("Harbour Week")
    assert SheetCode.of(SheetKind.CARD, DAY, "Harbour Week").belongs_to("Harbour Week")


def test_it_says_what_the_round_was_printed_for() -> None:
    assert MAREN.printed_for(TASK)
    assert not MAREN.printed_for(TASK.replace("practice", "hold"))
    assert not MAREN.blank
    spare = replace(MAREN, task=0)
    assert spare.blank
    assert not spare.printed_for(TASK)
    assert not spare.printed_for("")


def test_the_sheets_of_a_roster_on_a_day_have_codes_of_their_own() -> None:
    roster = [f"Player {number}" for number in range(12)]
    every = {
        str(SheetCode.of(kind, DAY, "Harbour Week", player, number))
        for player in roster
        for kind, most in MOST.items()
        for number in range(1, most + 1)
    }
    assert len(every) == len(roster) * sum(MOST.values())


def test_all_kinds_together_are_one_sign() -> None:
    assert list(MOST) == list(SheetKind)
    assert sum(MOST.values()) <= len(SIGNS)


@pytest.mark.parametrize(
    ("on", "number"), [(date(2019, 12, 31), 1), (LAST + timedelta(1), 1), (DAY, 0), (DAY, 23)]
)
def test_what_no_code_can_hold_is_refused(on: date, number: int) -> None:
    with pytest.raises(CourtlogError):
        SheetCode.of(SheetKind.COURT, on, "Harbour", "Maren", number)
