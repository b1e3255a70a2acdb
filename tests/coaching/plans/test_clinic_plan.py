"""How a clinic is run, as a coach types it: each value with its bounds, or a sentence each."""

from __future__ import annotations

import pytest

from courtlog.coaching.plans.clinic_plan import STATIONS, ClinicPlan, plan_with
from courtlog.coaching.plans.rotation import TurnOrder
from courtlog.errors import CourtlogError

SET = ClinicPlan(("fence",), TurnOrder.PAIRS, 6.0, 20, 29.5, 31.0, "our club")


@pytest.mark.parametrize(
    ("key", "text", "value"),
    [
        ("stations", " shadow ,  the   wall ,", ("shadow", "the wall")),
        ("stations", ",".join("abcdefgh"), tuple("abcdefgh")),
        ("stations", "x" * 40, ("x" * 40,)),
        ("stations", "", ()),
        ("order", "williams", TurnOrder.WILLIAMS),
        ("turn_minutes", "0,5", 0.5),
        ("turn_minutes", "120", 120.0),
        ("turn_minutes", "0", None),
        ("turn_minutes", "", None),
        ("rest_minutes", "1", 1),
        ("rest_minutes", "240", 240),
        ("rest_minutes", "", None),
        ("wbgt_modify", "86F", 30.0),
        ("wbgt_modify", "86.5F", 30.28),
        ("wbgt_modify", "0", 0.0),
        ("wbgt_stop", "32.2", 32.2),
        ("wbgt_rule", "r" * 200, "r" * 200),
    ],
)
def test_values_as_typed(key: str, text: str, value: object) -> None:
    assert getattr(plan_with(SET, {key: text}), key) == value


@pytest.mark.parametrize(
    ("key", "text", "words"),
    [
        ("stations", ",", "The stations are 1 to 8 names with commas between them."),
        ("stations", ",".join("abcdefghi"), "The stations are 1 to 8 names"),
        ("stations", "x" * 41, "The stations have names of 40 characters at most."),
        ("stations", "Wall, wall", "The stations are each named once."),
        ("order", "any", "The order is cyclic, williams or pairs, not 'any'."),
        ("turn_minutes", "0.4", "A rotation in minutes is a number from 0.5 to 120, not '0.4'."),
        ("turn_minutes", "121", "A rotation in minutes is a number from 0.5 to 120, not '121'."),
        ("turn_minutes", "soon", "A rotation in minutes is a number from 0.5 to 120, not 'soon'."),
        ("turn_minutes", "nan", "A rotation in minutes is a number from 0.5 to 120, not 'nan'."),
        ("rest_minutes", "0", "The rest in minutes is a whole number from 1 to 240, not '0'."),
        ("rest_minutes", "241", "The rest in minutes is a whole number from 1 to 240, not '241'."),
        ("rest_minutes", "२", "The rest in minutes is a whole number from 1 to 240"),
        ("wbgt_stop", "-1", "The WBGT to stop play at lies above 0 C, not at -1."),
        ("wbgt_stop", "hot", "The WBGT to stop play at cannot be read: 'hot' is no WBGT"),
        ("wbgt_stop", "30.126", "The WBGT to stop play at cannot be read: '30.126' is no WBGT"),
        ("wbgt_rule", "r" * 201, "The rule's name has 200 characters at most."),
        ("wbgt_stop", "29.5", "The stop line lies above the modify line."),
        ("wbgt_modify", "31", "The stop line lies above the modify line."),
        ("wbgt_rule", "", "A WBGT line needs the name of the rule it is taken from."),
    ],
)
def test_a_wrong_value_changes_nothing_and_says_what_is_right(
    key: str, text: str, words: str
) -> None:
    with pytest.raises(CourtlogError) as refusal:
        plan_with(SET, {key: text})
    assert str(refusal.value).startswith(f"Nothing changed. {words}")


def test_every_mistake_is_told_at_once() -> None:
    with pytest.raises(CourtlogError) as refusal:
        plan_with(SET, {"order": "any", "rest_minutes": "0", "wbgt_stop": "1"})
    assert str(refusal.value).count(" is ") == 2, "lines are held together once each can be read"


def test_lines_go_together_only_when_one_of_them_is_typed() -> None:
    without_rule = ClinicPlan(wbgt_stop=31.0)
    assert plan_with(without_rule, {"rest_minutes": "15"}).rest_minutes == 15
    assert plan_with(without_rule, {"wbgt_stop": ""}).wbgt_stop is None
    with pytest.raises(CourtlogError, match="name of the rule"):
        plan_with(without_rule, {"wbgt_stop": "31.5"})


def test_the_clock_of_a_turn_in_seconds() -> None:
    assert ClinicPlan().stations == STATIONS
    assert ClinicPlan().turn_seconds is None
    assert ClinicPlan(turn_minutes=0.75).turn_seconds == 45
    assert SET.heat_lines.crossed(31.0) == "stop"
