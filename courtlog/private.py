"""Files and folders that only their owner can read, from the moment they are there."""

from __future__ import annotations

import os
from pathlib import Path

FILE, FOLDER = 0o600, 0o700


def make_folder(path: Path) -> None:
    """The folder and those above it that are missing; what was there stays as it is."""
    missing = [folder for folder in (path, *path.parents) if not folder.exists()]
    for folder in reversed(missing):
        folder.mkdir(mode=FOLDER, exist_ok=True)


def make_file(path: Path) -> int:
    """A new empty file, open for reading and writing; its number. Raises FileExistsError."""
    return os.open(path, os.O_CREAT | os.O_EXCL | os.O_RDWR, FILE)
