"""How a clinic is run: stations and turns, rests, and the coach's own lines for the heat."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from courtlog.coaching.cards import one_line, same_name
from courtlog.coaching.rotating import TurnOrder

STATIONS = ("shadow", "fence", "self-feed")
"""Places to work alone, beside the feed (common practice, no source)."""

MOST_STATIONS, MOST_NAME = 8, 40

HOTTEST = 60.0
"""No WBGT in degrees Celsius is higher than this; a line above it is a slip of the keys."""


@dataclass(frozen=True, slots=True)
class ClinicPlan:
    """What the coach set for a clinic; None and '' where nothing was set.

    `wbgt_modify` and `wbgt_stop` are degrees Celsius of the rule that `wbgt_rule` names: courtlog
    brings no line of its own.
    """

    stations: tuple[str, ...] = STATIONS
    order: str = "cyclic"
    turn_minutes: float | None = None
    rest_minutes: int | None = None
    wbgt_modify: float | None = None
    wbgt_stop: float | None = None
    wbgt_rule: str = ""


def plan_with(plan: ClinicPlan, typed: Mapping[str, str]) -> ClinicPlan:
    """The plan with these typed values; an empty one takes a value away.

    Raises ValueError with a sentence for each mistake.
    """
    values: dict[str, Any] = {field: getattr(plan, field) for field in plan.__slots__}
    wrong = []
    for key, text in typed.items():
        try:
            values[key] = _READ[key](one_line(text))
        except ValueError as error:
            wrong.append(f"{_TITLES[key]} {error}")
    low, high = values["wbgt_modify"], values["wbgt_stop"]
    if not wrong and low is not None and high is not None and low >= high:
        wrong.append(f"the WBGT line to modify at ({low:g}) lies under the one to stop at")
    if not wrong and not values["wbgt_rule"] and (low is not None or high is not None):
        wrong.append("a WBGT line needs the name of the rule it is taken from")
    if wrong:
        raise ValueError(*wrong)
    return ClinicPlan(**values)


def whole(text: str, most: int) -> int | None:
    """A whole number from 1 to `most`; None for nothing. Raises ValueError."""
    if not text:
        return None
    if not (text.isascii() and text.isdigit() and len(text) < 10 and 1 <= int(text) <= most):
        raise ValueError(f"is a whole number from 1 to {most}, not {text!r}")
    return int(text)


def _stations(text: str) -> tuple[str, ...]:
    names = tuple(filter(None, map(str.strip, text.split(","))))
    if not 1 <= len(names) <= MOST_STATIONS:
        raise ValueError(f"are 1 to {MOST_STATIONS} names with commas between them")
    if max(map(len, names)) > MOST_NAME:
        raise ValueError(f"have names of {MOST_NAME} characters at most")
    if len(set(map(same_name, names))) < len(names):
        raise ValueError("are each named once")
    return names


def _order(text: str) -> str:
    orders = [str(order) for order in TurnOrder]
    if text not in orders:
        raise ValueError(f"is {', '.join(orders[:-1])} or {orders[-1]}, not {text!r}")
    return text


def _number(text: str, least: float, most: float) -> float | None:
    if not text:
        return None
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not least <= value <= most:
        raise ValueError(f"is a number from {least:g} to {most:g}, not {text!r}")
    return value


def _rule(text: str) -> str:
    if len(text) > 200:
        raise ValueError("has 200 characters at most")
    return text


_READ = {
    "stations": _stations,
    "order": _order,
    "turn_minutes": lambda text: _number(text, 0.5, 120),
    "rest_minutes": lambda text: whole(text, 240),
    "wbgt_modify": lambda text: _number(text, 0, HOTTEST),
    "wbgt_stop": lambda text: _number(text, 0, HOTTEST),
    "wbgt_rule": _rule,
}

_TITLES = {
    "stations": "the stations",
    "order": "the order",
    "turn_minutes": "a turn's length in minutes",
    "rest_minutes": "the rest in minutes",
    "wbgt_modify": "the WBGT line to modify at",
    "wbgt_stop": "the WBGT line to stop at",
    "wbgt_rule": "the rule's name",
}
