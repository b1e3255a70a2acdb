"""Without POSIX terminals the faults are left out."""

from __future__ import annotations

import sys

import pytest

collect_ignore_glob = ["*.py"] if sys.platform == "win32" else []


@pytest.fixture(autouse=True)
def _on_disk(disk_waited_for: None) -> None:
    """Faults are about what is on the disk."""
