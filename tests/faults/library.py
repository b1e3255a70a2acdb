"""The library that makes the system fail, compiled once for all faults (failing.c)."""

from __future__ import annotations

import atexit
import shutil
import subprocess
import sys
import tempfile
from functools import cache
from pathlib import Path

_SOURCE = Path(__file__).with_name("failing.c")

MISSING = "no C compiler here, or not Linux"
"""Why a fault is left out without it."""


@cache
def compiled() -> Path | None:
    """The library; None where it cannot be made."""
    compiler = shutil.which("cc") or shutil.which("gcc")
    if compiler is None or not sys.platform.startswith("linux"):
        return None
    library = new_folder() / "failing.so"
    command = [compiler, "-shared", "-fPIC", "-O1", "-o", str(library), str(_SOURCE), "-ldl"]
    made = subprocess.run(command, capture_output=True, check=False)
    return library if made.returncode == 0 else None


def new_folder() -> Path:
    """A folder that is there until this process ends."""
    folder = Path(tempfile.mkdtemp(prefix="courtlog-faults-"))
    atexit.register(shutil.rmtree, folder)
    return folder
