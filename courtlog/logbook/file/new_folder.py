"""A new folder of files that is there when all of it is written, and not before."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from pathlib import Path

from courtlog import drafts, private
from courtlog.errors import CourtlogError


@contextlib.contextmanager
def new_folder(folder: Path, home: Path) -> Iterator[Path]:
    """A scratch folder beside it that takes its name when all is written, else vanishes.

    It is noted at `home` meanwhile. Raises CourtlogError.
    """
    try:
        if folder.is_dir() and any(folder.iterdir()):
            raise CourtlogError(
                f"The folder {folder} is not empty.", "Name a new folder; nothing was written."
            )
        if folder.exists() and not folder.is_dir():
            raise CourtlogError(f"{folder} is a file.", "Name a new folder; nothing was written.")
        folder = folder.resolve()
        with drafts.folder_noted(folder.parent, home) as draft:
            scratch = draft / "folder"
            private.make_folder(scratch)
            yield scratch
            drafts.put_folder(scratch, folder)
    except OSError as error:
        raise unwritten(folder, error) from error


def unwritten(folder: Path, error: OSError) -> CourtlogError:
    """The refusal of a folder that cannot be written."""
    return CourtlogError(
        f"The folder {folder} cannot be written ({error.strerror}).", "Name another folder."
    )
