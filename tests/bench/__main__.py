"""All figures in one table: `python -m tests.bench [--plain PYTHON] [NAME ...]`, some ten minutes.

PYTHON is the interpreter of an environment that has courtlog and its run-time packages alone; NAMEs
pick some of the measures. Writes figures.json beside this file. Asserts nothing.
"""

from __future__ import annotations

import json
import os
import platform
import sqlite3
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, dataclass
from importlib.metadata import version
from pathlib import Path

from tests.bench import films, growth, keys, memory, pace, starts, transaction


@dataclass(frozen=True, slots=True)
class Line:
    """A figure beside the most that it may be."""

    what: str
    found: float
    most: float
    unit: str = "x"

    @property
    def met(self) -> bool:
        """Whether it is within its limit."""
        return self.found <= self.most

    def __str__(self) -> str:
        verdict = "met" if self.met else "NOT met"
        return f"{self.what:<58}{self.found:>9.2f} {self.unit:<5} at most {self.most:<7g}{verdict}"


def of_keys(_: str) -> Iterator[Line]:
    """From a key to its last changed byte."""
    lanes = keys.run(keys.KEYS)
    print(keys.table(lanes))
    for size, found in keys.verdicts(lanes).items():
        yield Line(f"key to changed screen, {size}, median against bare", found["times_bare"], 2)
        yield Line(f"key to changed screen, {size}, p99 against bare", found["p99_times_bare"], 4)
        yield Line(f"key to changed screen, {size}, p99", found["p99_ms"], 16, "ms")
        yield Line(f"bytes of a key, {size}, most", found["most_bytes"], 1500, "bytes")


def of_starts(python: str) -> Iterator[Line]:
    """From nothing to a screen or a page."""
    cost = starts.run(python)
    print(cost)
    many, few = cost["court, 100,000 balls"], cost["court, few balls"]
    yield Line("first screen, 100,000 balls, against bare", many / cost["bare"], 1.6)
    yield Line("first screen, 100,000 balls, against few balls", many / few, 1.15)
    yield Line("--help against import typer", cost["--help"] / cost["import typer"], 2)
    yield Line("day against its libraries", cost["day"] / cost["libraries"], 2.5)


def of_memory(python: str) -> Iterator[Line]:
    """The court screen's own pages."""
    found = memory.figures(memory.run(python))
    print(found)
    yield Line("memory after 5,000 keys against bare", found["times_bare"], 1.6)
    yield Line("memory after 5,000 keys against 1,000", found["times_after_1000"], 1.01)


def of_transactions(_: str) -> Iterator[Line]:
    """One rating, made safe."""
    found = transaction.run()
    print(found)
    yield Line(
        "a rating's transaction against a bare insert", found["rates"] / found["bare insert"], 3
    )


def of_growth(_: str) -> Iterator[Line]:
    """Ten million balls against ten thousand, and bytes a ball."""
    found = growth.run()
    print(found)
    for what in ("day summary", "trend screen", "quick review"):
        times = found[what]["many"] / found[what]["one clinic"]
        yield Line(f"{what}, ten million balls against 10,000", times, 1.3)
    ball = found["a ball"]
    yield Line(
        "bytes a ball of ten million against a line of CSV",
        ball["book_bytes"] / ball["line_bytes"],
        1.5,
    )


def of_pace(_: str) -> Iterator[Line]:
    """Sixty keys a second for a minute."""
    found = pace.figures(pace.run())
    print(found)
    yield Line("keys lost at 60 a second for a minute", found["lost"], 0, "keys")
    yield Line("longest wait of a key for its commit", found["longest_wait_ms"], 250, "ms")


def of_films(python: str) -> Iterator[Line]:
    """Forty films of a day with ten thousand balls."""
    cost = films.run(python)
    print(cost)
    chapters = cost["film chapters, 40 films"]
    yield Line("chapters of 40 films, 10,000 balls, start and all", chapters / 1000, 1, "s")
    yield Line("the same without the start", (chapters - cost["start"]) / 1000, 1, "s")


MEASURES: dict[str, Callable[[str], Iterator[Line]]] = {
    "keys": of_keys,
    "starts": of_starts,
    "memory": of_memory,
    "transactions": of_transactions,
    "growth": of_growth,
    "pace": of_pace,
    "films": of_films,
}


def main(words: Sequence[str]) -> None:
    """Measure, print, write."""
    chosen = list(words)
    python = sys.executable
    if "--plain" in chosen:
        at = chosen.index("--plain")
        _, python = chosen[at : at + 2]
        del chosen[at : at + 2]
    lines: list[Line] = []
    for name in chosen or MEASURES:
        print(f"== {name}", flush=True)
        lines += MEASURES[name](python)
    print("== all", *lines, sep="\n")
    kept = {
        "python": platform.python_version(),
        "textual": version("textual"),
        "sqlite": sqlite3.sqlite_version,
        "cores": os.cpu_count(),
        "figures": [asdict(line) | {"met": line.met} for line in lines],
    }
    Path(__file__).with_name("figures.json").write_text(json.dumps(kept, indent=2) + "\n")


if __name__ == "__main__":
    main(sys.argv[1:])
