"""How long a key takes from the terminal to its last changed byte, beside a bare counting app.

Run with `python -m tests.bench.keys`; prints a table and writes keys.json beside this file.
"""

from __future__ import annotations

import json
import os
import platform
import random
import re
import select
import sqlite3
import statistics
import sys
import tempfile
import time
from collections.abc import Sequence
from contextlib import ExitStack
from dataclasses import dataclass, field
from datetime import date
from importlib.metadata import version
from pathlib import Path

from courtlog import locations
from courtlog.cli.actions.sheets import parse, put_in
from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court import feeding
from courtlog.coaching.on_court.feeding import Meaning
from courtlog.courtside.desk.keymap import PADS, meaning_of
from courtlog.library.drill_files import load
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.logbook.writes.round_writer import RoundWriter
from tests.court import LIBRARY
from tests.terminal.console import Console, court, environment

KEYS = 600
SIZES = ((120, 40), (80, 24))
GAP = (0.06, 0.12)
"""Seconds between two keys: nobody rates faster, and no two keys overlap."""

SILENCE = 0.02
"""Seconds without a byte after which a key's screen is complete; a frame takes 0.017."""

CLOCK = re.compile(rb"((\x1b\[\d+;\d+H)+(\x1b\[[\d;]*m)?[\d:]+(\x1b\[0?m)?)+\x1b\[1;1H")
"""A frame of digits alone: the clock's second."""

CALM = 1.0
"""Seconds before the first key, so that the program has finished starting."""

TARGETS = "median at most 2 x bare, p99 at most 4 x and 16 ms, 1500 bytes a key"

SEED = 20260512
LAST_DAY = date(2099, 5, 15)
"""A day no clock has passed yet: the program never asks whether a new day begins."""


@dataclass
class Lane:
    """What one program was seen to do: for each key its kind, its milliseconds, its bytes."""

    name: str
    kinds: list[str] = field(default_factory=list)
    times: list[float] = field(default_factory=list)
    bytes: list[int] = field(default_factory=list)

    def add(self, kind: str, milliseconds: float, size: int) -> None:
        """One more key."""
        self.kinds.append(kind)
        self.times.append(milliseconds)
        self.bytes.append(size)

    def figures(self, kind: str | None = None) -> dict[str, float]:
        """Median, p90 and p99 of the milliseconds; median, mean and most of the bytes."""
        picked = [at for at, name in enumerate(self.kinds) if kind in (None, name)]
        times = sorted(self.times[at] for at in picked)
        sizes = [self.bytes[at] for at in picked]
        return {
            "keys": len(picked),
            "median_ms": round(statistics.median(times), 2),
            "p90_ms": round(_quantile(times, 0.90), 2),
            "p99_ms": round(_quantile(times, 0.99), 2),
            "median_bytes": statistics.median(sizes),
            "mean_bytes": round(statistics.mean(sizes)),
            "most_bytes": max(sizes),
        }


def script(keys: int, seed: int) -> list[tuple[str, bytes, Meaning | None]]:
    """Keys as a coach presses them: kind, bytes, and meaning (None takes the last key back)."""
    dice = random.Random(seed)
    state = feeding.Feeding.fresh(3)
    out: list[tuple[str, bytes, Meaning | None]] = []
    while len(out) < keys:
        key, name = _next_key(dice, state)
        if name == "backspace":
            state, step = feeding.take_back(state)
            out.append(("take back", key, None))
            continue
        meaning = meaning_of(PADS["right"], 3, name)
        assert meaning is not None
        state, step = feeding.press(state, meaning)
        if step is None:
            continue
        out.append(("takes the ball" if step.took else "rates", key, meaning))
    return out


def _next_key(dice: random.Random, state: feeding.Feeding) -> tuple[bytes, str]:
    drawn = dice.random()
    if drawn < 0.03 and state.steps:
        return b"\x7f", "backspace"
    if drawn < 0.05:
        return b"\r", "enter"
    if drawn < 0.09:
        return b"t", "t"
    if drawn < 0.30:
        return b" ", "space"
    open_rows = [row for row, grade in enumerate(state.open.grades) if grade is None]
    name = dice.choice(PADS["right"].rows[open_rows[0]])
    return name.encode(), name


def prepare(path: Path) -> int:
    """The five-day clinic, one more day, and a round just begun; its id."""
    drills = load([locations.shipped_drills()])
    sheet = parse(locations.shipped_samples() / "harbour-week.txt", drills, "UTC")
    at = time.time_ns() // 1_000_000
    book = create_or_open(path, at)
    put_in(book, sheet, drills, at)
    book.close()
    return begin(path)


def begin(path: Path) -> int:
    """One more day of the book's last clinic, and a round just begun; its id."""
    at = time.time_ns() // 1_000_000
    book = create_or_open(path, at)
    try:
        door = RoundWriter(book)
        clinic = lookups.clinics(book)[-1]
        door.open_day(clinic.id, LAST_DAY, "2", "Ines", at)
        player = lookups.players(book, clinic.id)[0]
        used = UsedDrill.of(*LIBRARY.drill("forehand/racquet-feed"))
        cues = ("turn", "spacing", "finish")
        return door.start_round(player.id, used, Purpose.PRACTICE, cues, at)
    finally:
        book.close()


def strike(console: Console, key: bytes, gap: float) -> tuple[float, int]:
    """Write a key, read for `gap` seconds; milliseconds to the last byte it brought, and bytes.

    What comes after a silence, or is nothing but the rotation's clock going on, is not the key's.
    """
    fd, size = console.fileno(), 0
    start = last = time.perf_counter()
    os.write(fd, key)
    while (left := start + gap - time.perf_counter()) > 0:
        if select.select([fd], [], [], left)[0]:
            read, now = os.read(fd, 65536), time.perf_counter()
            if not CLOCK.fullmatch(read) and (not size or now - last < SILENCE):
                size, last = size + len(read), now
    return (last - start) * 1000, size


def run(keys: int) -> list[Lane]:
    """Every lane gets each key in turn, so that the machine's moods fall on all alike."""
    gaps = random.Random(SEED)
    with tempfile.TemporaryDirectory(prefix="courtlog-bench-") as folder, ExitStack() as open_:
        consoles: list[tuple[Lane, Console]] = []
        for columns, lines in SIZES:
            home = Path(folder) / f"{columns}x{lines}"
            prepare(home / "book.db")
            env = environment(home)
            bare = [sys.executable, "-m", "tests.bench.bare"]
            for name, argv, sight in (
                ("court", court(home / "book.db"), "next up"),
                ("bare", bare, "keys: 0"),
            ):
                console = open_.enter_context(Console(argv, env, columns, lines))
                console.wait_for(sight)
                consoles.append((Lane(f"{name} {columns}x{lines}"), console))
        door_lane = Lane("Door.key alone")
        round_id = prepare(Path(folder) / "door.db")
        book = create_or_open(Path(folder) / "door.db", 0)
        open_.callback(book.close)
        door, state = RoundWriter(book), feeding.Feeding.fresh(3)
        for _, console in consoles:
            strike(console, b"", CALM)
        for kind, key, meaning in script(keys, SEED):
            for lane, console in consoles:
                lane.add(kind, *strike(console, key, gaps.uniform(*GAP)))
            at = time.time_ns() // 1_000_000
            if meaning is None:
                state, step = feeding.take_back(state)
            else:
                state, step = feeding.press(state, meaning)
            assert step is not None
            start = time.perf_counter()
            if meaning is None:
                door.take_back_key(round_id, step, at)
            else:
                door.store_key(round_id, step, at)
            door_lane.add(kind, (time.perf_counter() - start) * 1000, 0)
        return [lane for lane, _ in consoles] + [door_lane]


def table(lanes: Sequence[Lane]) -> str:
    """The figures, one line for each lane and kind of key."""
    head = f"{'':34}{'keys':>5}{'median':>9}{'p90':>8}{'p99':>8}{'bytes':>8}{'mean':>7}{'most':>7}"
    rows = [head]
    for lane in lanes:
        for kind in (None, *sorted(set(lane.kinds))):
            name = lane.name if kind is None else f"  {lane.name}: {kind}"
            f = lane.figures(kind)
            rows.append(
                f"{name:34}{f['keys']:5.0f}{f['median_ms']:7.2f}ms{f['p90_ms']:6.2f}ms"
                f"{f['p99_ms']:6.2f}ms{f['median_bytes']:8.0f}{f['mean_bytes']:7.0f}"
                f"{f['most_bytes']:7.0f}"
            )
    return "\n".join(rows)


def verdicts(lanes: Sequence[Lane]) -> dict[str, dict[str, float]]:
    """Each size against the targets."""
    by_name = {lane.name: lane.figures() for lane in lanes}
    found: dict[str, dict[str, float]] = {}
    for columns, lines in SIZES:
        size = f"{columns}x{lines}"
        court_, bare = by_name[f"court {size}"], by_name[f"bare {size}"]
        times = court_["median_ms"] / bare["median_ms"]
        found[size] = {
            "times_bare": round(times, 2),
            "p99_times_bare": round(court_["p99_ms"] / bare["p99_ms"], 2),
            "p99_ms": court_["p99_ms"],
            "most_bytes": court_["most_bytes"],
            "share_in_door": round(by_name["Door.key alone"]["median_ms"] / court_["median_ms"], 2),
        }
    return found


def main() -> None:
    """Measure, print, write."""
    lanes = run(KEYS)
    print(table(lanes))
    print(f"\ntargets: {TARGETS}")
    against = verdicts(lanes)
    for size, found in against.items():
        print(size, json.dumps(found))
    kept = {
        "python": platform.python_version(),
        "textual": version("textual"),
        "sqlite": sqlite3.sqlite_version,
        "cores": os.cpu_count(),
        "lanes": {
            lane.name: {kind or "all": lane.figures(kind) for kind in (None, *set(lane.kinds))}
            for lane in lanes
        },
        "targets": against,
    }
    Path(__file__).with_suffix(".json").write_text(
        json.dumps(kept, indent=2, sort_keys=True) + "\n"
    )


def _quantile(ordered: Sequence[float], share: float) -> float:
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


if __name__ == "__main__":
    main()
