"""The videos in a folder, which of them is a known film, and a film's path from another folder."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path, PurePath

from courtlog.errors import CourtlogError, NotAFileError, NotAVideoError
from courtlog.film.video_times import read_video

ENDINGS = {".mp4", ".mov", ".m4v", ".qt", ".3gp"}
"""Endings of the files that are taken from a folder."""


def videos_in(folder: Path) -> list[Path]:
    """The files of a folder that end like a video, by name. Raises CourtlogError."""
    try:
        return sorted(file for file in folder.iterdir() if file.suffix.lower() in ENDINGS)
    except OSError as error:
        raise CourtlogError(
            f"The folder {folder} cannot be read ({error.strerror}).", "Check its name and place."
        ) from error


def films_in(folder: Path) -> dict[str, Path]:
    """The videos of a folder and of those right in it, by fingerprint. Raises CourtlogError.

    Of two copies the first by name is taken. What cannot be read as a video is passed over.
    """
    known: dict[str, Path] = {}
    for file in _with_inner(folder):
        try:
            known.setdefault(read_video(file).fingerprint, file)
        except (NotAVideoError, NotAFileError, OSError):
            continue
    return known


def path_from(folder: Path, film: Path) -> PurePath:
    """The film's path as it is from a folder: whole only on another drive."""
    whole = Path(os.path.realpath(film.parent)) / film.name
    try:
        return PurePath(os.path.relpath(whole, os.path.realpath(folder)))
    except ValueError:
        return whole


def _with_inner(folder: Path) -> Iterator[Path]:
    yield from videos_in(folder)
    try:
        inner = sorted(one for one in folder.iterdir() if one.is_dir() and not one.is_symlink())
    except OSError:
        return
    for one in inner:
        try:
            yield from videos_in(one)
        except CourtlogError:
            continue
