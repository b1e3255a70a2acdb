"""With the branches of Windows forced, books are opened, locked and written, and the court runs."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
ROOMS = ["logbook/file", "test_drafts.py", "systems", "film", "courtside/app", "courtside/sound"]
"""What meets the system: files and locks, the terminal, sounds, names and films."""

COMMANDS = (
    *("backups", "commands", "courts", "evening", "film_hit", "film_pair_cases", "full_disk"),
    *("laptop_notes", "no_permission", "one_book", "private_files", "zones"),
)

POSIX_ALONE = "tests/courtside/app/test_ears.py"
"""Its players are programs of a POSIX shell."""


def test_the_book_and_the_court_go_the_ways_of_windows() -> None:
    command = [sys.executable, "-m", "pytest", "-p", "tests.as_windows", "-p", "no:xdist"]
    places = [*ROOMS, *(f"cli/test_{name}.py" for name in COMMANDS)]
    run = subprocess.run(
        [*command, "--quick", f"--ignore={POSIX_ALONE}", *(f"tests/{place}" for place in places)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stdout[-3000:] + run.stderr[-1000:]
