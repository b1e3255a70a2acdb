"""A clinic as it is set up, on a page of at most 78 columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from courtlog import times
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.plans.clinic_plan import ClinicPlan
from courtlog.plain_text import many, plain
from courtlog.reports.layout.page import WIDTH, block, lines_of

NO_LINES = (
    "no WBGT line is set: fill in those of your club or national body with --wbgt-modify,"
    " --wbgt-stop and --wbgt-rule"
)


def clinic_text(clinic: Clinic, plan: ClinicPlan, dates: Sequence[date], players: int) -> str:
    """Name, zone, days, stations, rotations, rests, heat lines."""
    return "\n".join(_page(clinic, plan, dates, players)) + "\n"


def _page(clinic: Clinic, plan: ClinicPlan, dates: Sequence[date], players: int) -> Iterator[str]:
    yield from lines_of(f"{plain(clinic.name)} · {clinic.zone} · {many(players, 'player')}")
    yield "=" * WIDTH
    planned = "" if clinic.planned_days is None else f" of {clinic.planned_days} planned"
    begun = f"{len(dates)}{planned}" if dates else f"no day yet{planned}"
    last = f", the last {times.date_words(dates[-1])} {dates[-1].year}" if dates else ""
    yield from _entry("days", f"{begun}{last}")
    yield from _entry("stations", ", ".join(["feed", *map(plain, plan.stations)]))
    yield from _entry("order", f"{plan.order}: {plan.order.meaning}")
    yield from _entry("rotation", _minutes(plan.turn_minutes, "no clock"))
    yield from _entry("rest", _minutes(plan.rest_minutes, "no reminder", "every "))
    yield from _entry("heat", _heat(plan))


def _entry(label: str, words: str) -> Iterator[str]:
    yield from list(block(label, [words]))[1:]


def _minutes(minutes: float | None, none: str, before: str = "") -> str:
    return none if minutes is None else f"{before}{minutes:g} minutes"


def _heat(plan: ClinicPlan) -> str:
    lines = [
        f"{what} at {line:g} °C"
        for what, line in (("change play", plan.wbgt_modify), ("stop", plan.wbgt_stop))
        if line is not None
    ]
    return f"WBGT: {', '.join(lines)} ({plain(plan.wbgt_rule)})" if lines else NO_LINES
