"""Files and folders that only their owner can read, from the moment they exist.

On Windows a file has the rights of its folder instead, which usually is one of your user's own. A
stick with FAT keeps no rights on any system. `cli/laptop_notes.py` tells of both.
"""

from __future__ import annotations

import os
from pathlib import Path

FILE, FOLDER = 0o600, 0o700


def make_folder(path: Path) -> None:
    """Make the folder and those above it that are missing."""
    missing = [folder for folder in (path, *path.parents) if not folder.exists()]
    for folder in reversed(missing):
        folder.mkdir(mode=FOLDER, exist_ok=True)


def make_file(path: Path) -> int:
    """Make a new empty file and open it; returns its number. Raises FileExistsError."""
    return os.open(path, os.O_CREAT | os.O_EXCL | os.O_RDWR, FILE)
