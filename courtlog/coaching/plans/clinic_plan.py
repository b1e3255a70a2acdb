"""How a clinic is run: stations and rotations, rests, and the coach's own lines for the heat."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from courtlog.coaching.care.heat_care import HeatLines, degrees_of
from courtlog.coaching.game.cards import one_line
from courtlog.coaching.plans.rotation import TurnOrder
from courtlog.errors import CourtlogError
from courtlog.names import folded_name

STATIONS = ("shadow", "fence", "self-feed")
"""Places to work alone, beside the feed (common practice, no source)."""

MOST_STATIONS, MOST_NAME, MOST_RULE = 8, 40, 200
MOST_DAYS = 60
SHORTEST_TURN, LONGEST_TURN, LONGEST_REST = 0.5, 120.0, 240
"""Minutes."""

LINES = {"wbgt_modify", "wbgt_stop", "wbgt_rule"}
"""Fields that are judged together: the coach's own lines and whose rule they are."""


@dataclass(frozen=True, slots=True)
class ClinicPlan:
    """What the coach set for a clinic; None and '' where nothing was set.

    `wbgt_modify` and `wbgt_stop` are degrees Celsius of the rule that `wbgt_rule` names: courtlog
    brings no line of its own.
    """

    stations: tuple[str, ...] = STATIONS
    order: TurnOrder = TurnOrder.CYCLIC
    turn_minutes: float | None = None
    rest_minutes: int | None = None
    wbgt_modify: float | None = None
    wbgt_stop: float | None = None
    wbgt_rule: str = ""

    @property
    def turn_seconds(self) -> int | None:
        """Seconds of a rotation; None while the clock is off."""
        return None if self.turn_minutes is None else round(60 * self.turn_minutes)

    @property
    def heat_lines(self) -> HeatLines:
        """The coach's own lines, to hold a measured WBGT against."""
        return HeatLines(self.wbgt_modify, self.wbgt_stop, self.wbgt_rule)


def plan_with(plan: ClinicPlan, typed: Mapping[str, str]) -> ClinicPlan:
    """The plan with these typed values; an empty one takes a value away.

    Raises CourtlogError with every mistake.
    """
    values: dict[str, Any] = {field: getattr(plan, field) for field in plan.__slots__}
    wrong = []
    for key, text in typed.items():
        try:
            values[key] = _READ[key](one_line(text))
        except ValueError as error:
            wrong.append(f"{_TITLES[key]} {error}")
    after = ClinicPlan(**values)
    if not wrong and typed.keys() & LINES:
        wrong += _wrong_together(after.heat_lines)
    if wrong:
        raise CourtlogError("Nothing changed.", sentence(wrong))
    return after


def sentence(mistakes: Iterable[object]) -> str:
    """Each mistake in a short sentence."""
    return " ".join(f"{words[0].upper()}{words[1:]}." for words in map(str, mistakes))


def _wrong_together(lines: HeatLines) -> list[str]:
    set_lines = [line for line in (lines.modify, lines.stop) if line is not None]
    if len(set_lines) == 2 and set_lines[0] >= set_lines[1]:
        return ["the stop line lies above the modify line"]
    if set_lines and not lines.rule:
        return ["a WBGT line needs the name of the rule it is taken from"]
    return []


def whole(text: str, most: int) -> int | None:
    """A whole number from 1 to `most`; None for nothing. Raises ValueError."""
    if not text:
        return None
    if not (text.isascii() and text.isdigit() and len(text) < 10 and 1 <= int(text) <= most):
        raise ValueError(f"is a whole number from 1 to {most}, not {text!r}")
    return int(text)


def days_of(text: str) -> int | None:
    """The days a clinic is planned for, as typed; None for nothing. Raises ValueError."""
    try:
        return whole(text.strip(), MOST_DAYS)
    except ValueError as error:
        raise ValueError(f"the number of days {error}") from None


def _stations(text: str) -> tuple[str, ...]:
    if not text:
        return ()
    names = tuple(filter(None, (" ".join(name.split()) for name in text.split(","))))
    if not 1 <= len(names) <= MOST_STATIONS:
        raise ValueError(f"are 1 to {MOST_STATIONS} names with commas between them")
    if max(map(len, names)) > MOST_NAME:
        raise ValueError(f"have names of {MOST_NAME} characters at most")
    if len(set(map(folded_name, names))) < len(names):
        raise ValueError("are each named once")
    return names


def _order(text: str) -> TurnOrder:
    orders = [str(order) for order in TurnOrder]
    if text not in orders:
        raise ValueError(f"is {', '.join(orders[:-1])} or {orders[-1]}, not {text!r}")
    return TurnOrder(text)


def _turn(text: str) -> float | None:
    """Minutes of a rotation; nothing and 0 both mean that no clock runs."""
    try:
        value = float(text.replace(",", ".") or 0)
    except ValueError:
        value = math.nan
    if value and not SHORTEST_TURN <= value <= LONGEST_TURN:
        limits = f"{SHORTEST_TURN:g} to {LONGEST_TURN:g}"
        raise ValueError(f"is a number from {limits}, not {text!r}")
    return value or None


def _wbgt(text: str) -> float | None:
    """Degrees Celsius, to the hundredth that is shown."""
    try:
        value = degrees_of(text, "WBGT")
    except ValueError as error:
        raise ValueError(f"cannot be read: {error}") from None
    if value is not None and value < 0:
        raise ValueError(f"lies above 0 C, not at {text}")
    return None if value is None else round(value, 2)


def _rule(text: str) -> str:
    if len(text) > MOST_RULE:
        raise ValueError(f"has {MOST_RULE} characters at most")
    return text


_READ = {
    "stations": _stations,
    "order": _order,
    "turn_minutes": _turn,
    "rest_minutes": lambda text: whole(text, LONGEST_REST),
    "wbgt_modify": _wbgt,
    "wbgt_stop": _wbgt,
    "wbgt_rule": _rule,
}

_TITLES = {
    "stations": "the stations",
    "order": "the order",
    "turn_minutes": "a rotation in minutes",
    "rest_minutes": "the rest in minutes",
    "wbgt_modify": "the WBGT to change play at",
    "wbgt_stop": "the WBGT to stop play at",
    "wbgt_rule": "the rule's name",
}
