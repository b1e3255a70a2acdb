"""Chapters as FFmpeg's ffmetadata, version 1, which mpv reads with `--chapters-file`.

Source: FFmpeg formats documentation, chapter "Metadata" (ffmpeg.org/ffmpeg-formats.html).
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from courtlog.film.film_balls import FilmPart

HEADER = ";FFMETADATA1\n"
BEFORE_FIRST = "before the first ball"
"""The title of the chapter that leads to the first ball."""

_SIGNS = re.compile(r"[=;#\\\n]")


def chapters(parts: Iterable[FilmPart]) -> str:
    """The parts of a film as chapters.

    In an MP4 the first chapter always begins at zero. A leading one takes that place, so that
    the first ball's chapter stays where it is.
    """
    told = [(part.start_ms, part.end_ms, part.title) for part in parts]
    if told and told[0][0] > 0:
        told.insert(0, (0, told[0][0], BEFORE_FIRST))
    return HEADER + "".join(
        f"[CHAPTER]\nTIMEBASE=1/1000\nSTART={start}\nEND={end}\ntitle={escaped(title)}\n"
        for start, end, title in told
    )


def escaped(value: str) -> str:
    """A value with a backslash before each character that means something in the format."""
    return _SIGNS.sub(r"\\\g<0>", value)
