"""Every fault there is, in the order of the report.

A fault is a function: a folder of its own and whether to take the long version, to its figure.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from tests.faults import clocks, disks, files, kills, terminals, windows
from tests.faults.figures import Figure

FAULTS: tuple[Callable[[Path, bool], Figure], ...] = (
    kills.kills,
    disks.failing_disk,
    disks.slow_disk,
    disks.full_file,
    disks.notes,
    files.damages,
    files.damages_on_court,
    files.refused,
    files.logs,
    windows.two_windows,
    windows.commands,
    clocks.steps,
    clocks.sleeps,
    clocks.zones,
    clocks.midnight,
    terminals.ends,
    terminals.stops,
    terminals.sizes,
)
"""In the order of the report."""
