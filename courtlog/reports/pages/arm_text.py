"""The arm block of the printed day: load, what the player said, cautions with who decides."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog import times
from courtlog.coaching.care.arm_care import DEFER, LIMITS, STOP, USUAL
from courtlog.plain_text import plain
from courtlog.reports.facts.models import HeatFacts, PlayerDay, RedFacts
from courtlog.reports.layout.page import block

LOAD = "effort times minutes, as the player says: a record, no advice"
CAUTION = "The player's words. If anything hurts: stop, and ask a licensed clinician."


def arm_block(player: PlayerDay) -> Iterator[str]:
    """The arm block; empty for a player without full-speed balls, check-ins and cautions."""
    arm = player.arm
    entries = []
    if arm.full_speed or arm.serves:
        hits = [f"{plain(row.title)} {row.hits}" for row in arm.full_speed]
        serves = [f"serves {arm.serves}"] if arm.serves else []
        entries.append(f"balls at full speed: {', '.join(hits + serves)}")
    entries += map(plain, player.check_ins)
    if arm.load is not None:
        entries.append(f"load today: {arm.load:.0f} ({LOAD})")
    if arm.week:
        entries.append(arm.week)
    if arm.usual_week:
        today = sum(row.hits for row in arm.full_speed) + arm.serves
        entries.append(
            f"usual week before the clinic: {plain(arm.usual_week)} (as the player says);"
            f" today: {today} at full speed"
        )
    if player.check_ins and not (arm.ambers or arm.reds):
        entries.append(CAUTION)
    yield from block("arm", entries)
    yield from block("caution", list(_cautions(player)))


def _cautions(player: PlayerDay) -> Iterator[str]:
    arm = player.arm
    for red in arm.reds:
        yield f"Red of {times.date_words(red.date)} ({USUAL}): {plain(red.reason)}.{_words(red)}"
    yield from map(plain, arm.ambers)
    if arm.reds or arm.ambers:
        yield f"{STOP if arm.reds else f'A {USUAL}: if it hurts, stop.'} {DEFER}"
        yield LIMITS


def _words(red: RedFacts) -> str:
    quotes = "".join(f" {plain(word.who)} said: {plain(word.text)}." for word in red.words)
    return f"{quotes} The red stays." if quotes else ""


def heat_block(heat: HeatFacts | None) -> Iterator[str]:
    """The day's last heat reading; nothing where none was taken."""
    if heat is not None:
        yield from block("heat", [f"at {heat.time}:", *map(plain, heat.words)])
