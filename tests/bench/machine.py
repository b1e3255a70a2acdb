"""What a running program has cost so far, as the system counts it (Linux)."""

from __future__ import annotations

import os
import subprocess
from contextlib import suppress
from pathlib import Path

from tests.terminal.console import environment


def processor_ms(process: int) -> float:
    """Milliseconds of processor time of all its threads, those that have ended left out.

    Unlike the time that passes, it hardly depends on what else the machine is doing.
    """
    spent = 0
    for thread in Path(f"/proc/{process}/task").glob("*/schedstat"):
        with suppress(OSError):
            spent += int(thread.read_text().split()[0])
    return spent / 1e6


def installed(home: Path) -> dict[str, str]:
    """The environment of a program as it is installed, without the path to this code."""
    return {name: value for name, value in environment(home).items() if name != "PYTHONPATH"}


def memory_kb(process: int) -> int:
    """Kilobytes of memory that are its own: what ending it would give back (private pages)."""
    lines = Path(f"/proc/{process}/smaps_rollup").read_text().splitlines()
    return sum(int(line.split()[1]) for line in lines if line.startswith("Private_"))


def command_ms(argv: list[str], home: Path) -> float:
    """Processor time of a command that goes well, start and all, in milliseconds."""
    before = os.times()
    subprocess.run(argv, env=installed(home), cwd=home, stdout=subprocess.DEVNULL, check=True)
    after = os.times()
    spent = after.children_user + after.children_system
    return (spent - before.children_user - before.children_system) * 1000
