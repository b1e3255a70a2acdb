"""How long one frame of a video is shown, by the tables in its header.

Source: ISO/IEC 14496-12, 8.4.2 (`mdhd`: units a second, length), 8.7.3 (`stsz`: frames).
"""

from __future__ import annotations

import os
import struct
from pathlib import Path

from courtlog.film.atoms import Atom, AtomFile
from courtlog.given_files import open_ordinary

USUAL_MS = 1000 / 30
"""What is taken where a file does not say, as one in fragments."""

_SHORT, _LONG = struct.Struct(">B3xIIII"), struct.Struct(">B3xQQIQ")
_COUNT = struct.Struct(">4xII")
_SHORTEST_MS, _LONGEST_MS = 1.0, 1000.0


def frame_ms(path: Path) -> float:
    """The mean time a frame is shown. Raises NotAVideoError, NotAFileError and OSError."""
    with open_ordinary(path, "video") as file:
        source = AtomFile(file, os.fstat(file.fileno()).st_size, path.name)
        film = source.first(source.whole, b"moov")
        tracks = [] if film is None else [a for a in source.atoms(film) if a.kind == b"trak"]
        means = (_mean(source, track) for track in tracks)
        return next((mean for mean in means if mean is not None), USUAL_MS)


def _mean(source: AtomFile, track: Atom) -> float | None:
    """The mean of a track of pictures; None for sound, or where its tables are empty."""
    handler = source.first(track, b"mdia", b"hdlr")
    if handler is None or source.content(handler, 12)[8:] != b"vide":
        return None
    header = source.first(track, b"mdia", b"mdhd")
    sizes = source.first(track, b"mdia", b"minf", b"stbl", b"stsz")
    if header is None or sizes is None:
        return None
    is_long = source.content(header, 1) == b"\1"
    _, _, _, units_a_second, units = source.numbers(header, _LONG if is_long else _SHORT)
    _, frames = source.numbers(sizes, _COUNT)
    if not units_a_second or not frames:
        return None
    mean = units * 1000 / units_a_second / frames
    return mean if _SHORTEST_MS <= mean <= _LONGEST_MS else None
