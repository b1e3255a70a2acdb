"""Every fault there is, in the order of the report.

A fault is a function: a folder of its own and whether to take the long version, to its figure.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from tests.faults import (
    at_once,
    bytes_in,
    bytes_typed,
    calls,
    clocks,
    court_calls,
    crafted,
    disks,
    files,
    interrupts,
    keys,
    kills,
    one_file,
    terminals,
    unfinished,
    windows,
    words,
)
from tests.faults.figures import Figure

FAULTS: tuple[Callable[[Path, bool], Figure], ...] = (
    kills.kills,
    keys.keys_together,
    bytes_typed.noise,
    disks.failing_disk,
    disks.slow_disk,
    disks.full_file,
    disks.notes,
    files.damages,
    files.damages_on_court,
    files.refused,
    files.logs,
    crafted.schemas,
    crafted.values,
    crafted.imports,
    windows.two_windows,
    windows.commands,
    at_once.at_once,
    clocks.steps,
    clocks.sleeps,
    clocks.zones,
    clocks.midnight,
    calls.failing_calls,
    calls.killed_commands,
    court_calls.court_calls,
    one_file.one_new_file,
    unfinished.unfinished_erase,
    terminals.ends,
    terminals.stops,
    terminals.sizes,
    words.words,
    words.surroundings,
    bytes_in.bytes_in,
    bytes_in.no_files,
    interrupts.interrupts,
    interrupts.court_interrupts,
)
"""In the order of the report."""
