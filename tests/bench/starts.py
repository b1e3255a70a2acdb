"""What a start costs: the court screen, `--help` and `day`, beside the libraries they stand on.

Run with `python -m tests.bench.starts [PYTHON]`; PYTHON has courtlog and its run-time packages
alone (a test package may bring pandas along, which sqlite-utils would load). Counted is processor
time: how long a start takes to the eye hangs on what else the machine does.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from statistics import median

from tests.bench import bare, big
from tests.bench.keys import begin, prepare
from tests.bench.machine import command_ms, installed, processor_ms
from tests.terminal.console import Console

REPEATS = 9
BIG = 10
"""Clinics of the big book: 100,000 balls."""

LIBRARIES = "import sqlite_utils, plotext, rich.console"

Costs = dict[str, float]
"""Milliseconds of processor time by name."""


def run(python: str = sys.executable, repeats: int = REPEATS) -> Costs:
    """The median of each, all taken in turn so that the machine's moods fall on all alike."""
    with tempfile.TemporaryDirectory(prefix="courtlog-bench-") as folder:
        homes = {name: Path(folder) / name for name in ("few balls", "100,000 balls")}
        prepare(homes["few balls"] / "book.db")
        homes["100,000 balls"].mkdir()
        begin(big.book_of(homes["100,000 balls"] / "book.db", BIG))
        found: dict[str, list[float]] = {}
        for _ in range(repeats):
            for name, home in homes.items():
                argv = [python, "-m", "courtlog"]
                found.setdefault(f"court, {name}", []).append(_screen(argv, home, "next up"))
            argv = [python, bare.__file__]
            found.setdefault("bare", []).append(_screen(argv, home, "keys: 0"))
            for name, words in (
                ("--help", ["-m", "courtlog", "--help"]),
                ("import typer", ["-c", "import typer"]),
                ("day", ["-m", "courtlog", "day", "--date", "2026-05-15"]),
                ("libraries", ["-c", LIBRARIES]),
            ):
                found.setdefault(name, []).append(command_ms([python, *words], homes["few balls"]))
        return {name: round(median(costs)) for name, costs in found.items()}


def _screen(argv: list[str], home: Path, sight: str) -> float:
    with Console(argv, installed(home), 120, 40) as console:
        console.wait_for(sight)
        return processor_ms(console.process)


if __name__ == "__main__":
    print(run(sys.argv[1] if sys.argv[1:] else sys.executable))
