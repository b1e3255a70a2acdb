"""Sizes of the built kits, and what a start of each costs beside the same in an environment.

Counted is processor time, in turns: how long a start takes to the eye hangs on what else runs.
"""

from __future__ import annotations

import sys
import sysconfig
import tempfile
import zipfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from statistics import median

from courtlog import __version__
from tests.bench.keys import prepare
from tests.bench.machine import command_ms, installed, processor_ms
from tests.kit.systems import SYSTEMS
from tests.kit.wheelhouse import unpack
from tests.terminal.console import Console

REPEATS = 5

Costs = dict[str, dict[str, float]]
"""Milliseconds of processor time by program and by what was started."""


def table(out: Path) -> str:
    """What was built into `out`, in lines. A kit of this system must be among it."""
    lines = [
        f"{zip_file.name:<52}{zip_file.stat().st_size / 1e6:>6.0f} MB{_inner(zip_file):>6.0f} MB"
        for zip_file in sorted(out.glob("*.zip"))
    ]
    with tempfile.TemporaryDirectory(prefix="courtlog-kit-") as scratch:
        folder = Path(scratch)
        (system,) = (s for s in SYSTEMS if s.sys_platform == sys.platform)
        zip_file = out / f"courtlog-{__version__}-{system.name}.zip"
        starter = unpack(zip_file, folder / "wheels") / system.starter
        first = command_ms(["sh", str(starter), "--help"], folder)
        zip_file = out / f"courtlog-{__version__}-program-{sysconfig.get_platform()}.zip"
        program = unpack(zip_file, folder / "program") / "courtlog"
        environment, script = starter.parent / "program", starter.with_name("start.py")
        lines += [
            f"{'installed from the wheels':<58}{_size(environment):>9.0f} MB",
            f"first start from the wheels, processor time {first / 1000:.1f} s",
        ]
        costs = starts(
            {
                "environment": [str(environment / "bin" / "python"), "-I", "-m", "courtlog"],
                "start.py": [str(Path(sys.base_prefix) / "bin" / "python3"), str(script)],
                "program": [str(program)],
            },
            folder,
        )
    lines += [f"{'':<14}{'environment':>12}{'start.py':>16}{'program':>16}"]
    for what, plain in costs["environment"].items():
        words = f"{what:<14}{plain:>9.0f} ms"
        for name in ("start.py", "program"):
            cost = costs[name][what]
            words += f"{cost:>7.0f} ms {cost / plain:.2f} x"
        lines.append(words)
    return "\n".join(lines)


def starts(programs: Mapping[str, Sequence[str]], folder: Path, repeats: int = REPEATS) -> Costs:
    """The median of each start, all taken in turn; a first turn only warms up."""
    home = folder / "home"
    prepare(home / "book.db")
    found: dict[str, dict[str, list[float]]] = {name: {} for name in programs}
    for _ in range(repeats + 1):
        for name, argv in programs.items():
            for what, words in (
                ("--help", ["--help"]),
                ("day", ["day", "--date", "2026-05-15"]),
            ):
                found[name].setdefault(what, []).append(command_ms([*argv, *words], home))
            found[name].setdefault("court", []).append(_court(argv, home))
    return {
        name: {what: median(costs[1:]) for what, costs in by_what.items()}
        for name, by_what in found.items()
    }


def _court(argv: Sequence[str], home: Path) -> float:
    """To the first screen."""
    with Console(argv, installed(home), 120, 40) as console:
        console.wait_for("next up")
        return processor_ms(console.process)


def _inner(zip_file: Path) -> float:
    """Megabytes of its files."""
    with zipfile.ZipFile(zip_file) as opened:
        return sum(entry.file_size for entry in opened.infolist()) / 1e6


def _size(folder: Path) -> float:
    return sum(path.lstat().st_size for path in folder.rglob("*")) / 1e6
