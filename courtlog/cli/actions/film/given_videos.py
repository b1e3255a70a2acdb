"""The videos that somebody names, one by one or by their folder."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NoReturn

from courtlog.errors import CourtlogError, LibraryError, Problem
from courtlog.film.film_search import videos_in
from courtlog.plain_text import many


def given_videos(files: Iterable[Path]) -> list[Path]:
    """The files, and of folders the videos in them by their names. Raises CourtlogError."""
    videos: dict[Path, None] = {}
    for file in files:
        if not file.is_dir():
            videos[file] = None
            continue
        in_folder = [one for one in videos_in(file) if not one.is_dir()]
        if not in_folder:
            raise CourtlogError(f"There is no video in {file}.", "Name an MP4 or MOV file.")
        videos |= dict.fromkeys(in_folder)
    return list(videos)


def refuse(refused: Sequence[tuple[Path, CourtlogError]], of: int, happened: str) -> NoReturn:
    """Say of each file that was refused why: `2 of 3 files` and what happened to them.

    Raises the error itself where only one file was named, else LibraryError.
    """
    if len(refused) == of == 1:
        raise refused[0][1]
    raise LibraryError(
        f"{len(refused)} of {many(of, 'file')} {happened}.",
        [Problem(str(file), "", str(error)) for file, error in refused],
    )
