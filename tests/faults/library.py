"""The library that makes the system fail, compiled for one run (failing.c)."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

_SOURCE = Path(__file__).with_name("failing.c")

MISSING = "no C compiler here, or not Linux"
"""Why a fault is left out without it."""


def compiled(folder: Path) -> Path | None:
    """The library in this folder; None where it cannot be made."""
    compiler = shutil.which("cc") or shutil.which("gcc")
    if compiler is None or not sys.platform.startswith("linux"):
        return None
    library = folder / "failing.so"
    command = [compiler, "-shared", "-fPIC", "-O1", "-o", str(library), str(_SOURCE), "-ldl"]
    made = subprocess.run(command, capture_output=True, check=False)
    return library if made.returncode == 0 else None
