"""With the branches of Windows forced, books are opened, locked and written, and the court runs."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
ROOMS = ["tests/logbook/file/test_writer_lock.py", "tests/logbook/file/test_open_book.py"]
COURT = ["tests/courtside/app/test_court.py"]


def test_the_book_and_the_court_go_the_ways_of_windows() -> None:
    command = [sys.executable, "-m", "pytest", "-p", "tests.as_windows", "-p", "no:xdist"]
    run = subprocess.run(
        [*command, *ROOMS, *COURT], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stdout[-3000:] + run.stderr[-1000:]
