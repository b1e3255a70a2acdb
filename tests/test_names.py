"""Names that read the same are one; typed without accents a name is still that name."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.names import folded_name
from tests.measures.steady import steady


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Ana  Bo", "ana bo"),
        ("Zoë", "zoE"),
        ("José Ångström", "jose angstrom"),
        ("STRAẞE", "strasse"),
        ("ｃａｆé", "cafe"),  # full-width letters
    ],
)
def test_one_name(one: str, other: str) -> None:
    assert folded_name(one) == folded_name(other)


@pytest.mark.parametrize(("one", "other"), [("Ana", "Anna"), ("か", "が"), ("Андрей", "Андреи")])
def test_two_names(one: str, other: str) -> None:
    assert folded_name(one) != folded_name(other)


# The forms of Unicode Standard Annex 15, by the standard library.
@steady
@given(st.text())
def test_however_it_is_stored_a_name_is_the_same(name: str) -> None:
    folded = folded_name(name)
    assert folded_name(unicodedata.normalize("NFD", name)) == folded
    assert folded_name(unicodedata.normalize("NFC", name)) == folded
    assert folded_name(folded) == folded
