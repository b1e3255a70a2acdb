"""Which tests an ordinary run leaves to `--slow`: few functions that take most of the time.

`python -m tests.slow` runs every test, adds up the processor time of each function and writes
`slow_tests.txt` again.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections import defaultdict
from collections.abc import Generator, Mapping, Sequence
from pathlib import Path

import pytest

NAMES = Path(__file__).parent / "slow_tests.txt"
BUDGET = 350
"""Seconds of one processor that an ordinary run may take, without loading."""

_COSTS = "COURTLOG_TEST_COSTS"
"""The folder that each process of a measuring run writes its costs to."""


def function_of(nodeid: str) -> str:
    """The test function of a case."""
    return nodeid.partition("[")[0]


def left_for_slow(items: Sequence[pytest.Item]) -> set[pytest.Item]:
    """The cases of the functions named in the file."""
    names = set(NAMES.read_text(encoding="utf-8").split())
    return {item for item in items if function_of(item.nodeid) in names}


def slow_functions(costs: Mapping[str, float], budget: float = BUDGET) -> list[str]:
    """The costliest functions, so many that the others fit the budget; by name."""
    left, slow = sum(costs.values()), []
    for cost, name in sorted(((cost, name) for name, cost in costs.items()), reverse=True):
        if left <= budget:
            break
        slow.append(name)
        left -= cost
    return sorted(slow)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Generator[None, object, object]:
    """Write down what a case took of the processor, its programs included."""
    before = sum(os.times()[:4])
    answer = yield
    with (Path(os.environ[_COSTS]) / str(os.getpid())).open("a", encoding="utf-8") as costs:
        costs.write(f"{sum(os.times()[:4]) - before} {function_of(item.nodeid)}\n")
    return answer


def main() -> int:
    """Measure, and write the names again."""
    with tempfile.TemporaryDirectory(prefix="courtlog-costs-") as folder:
        command = [sys.executable, "-m", "pytest", "-n", "auto", "-p", "tests.slow", "--spark"]
        done = subprocess.run(command, env=os.environ | {_COSTS: folder}, check=False)
        costs = defaultdict[str, float](float)
        for path in Path(folder).iterdir():
            for line in path.read_text(encoding="utf-8").splitlines():
                cost, name = line.split(" ", 1)
                costs[name] += float(cost)
    NAMES.write_text("\n".join(slow_functions(costs)) + "\n", encoding="utf-8")
    return done.returncode


if __name__ == "__main__":
    sys.exit(main())
