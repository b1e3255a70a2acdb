"""When a video began and how long it is, read from the header of an MP4 or MOV file.

Sources: ISO/IEC 14496-12, 8.2.2 (`mvhd`: seconds since midnight of 1 January 1904 UTC) and 8.8.2
(`mehd`, the length of a film in fragments); QuickTime File Format, "Metadata" (`keys` and `ilst`).
Nothing of the pictures is read: at most some kilobytes of a file of any size.
"""

from __future__ import annotations

import hashlib
import os
import struct
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import islice
from pathlib import Path
from typing import BinaryIO

from courtlog.errors import NotAVideoError
from courtlog.film.atoms import Atom, AtomFile
from courtlog.film.fragments import length_of_fragments
from courtlog.given_files import open_ordinary
from courtlog.times import as_moment

LONGEST_MS = 24 * 3600 * 1000
"""No phone films for longer; a longer film is a header that says nonsense."""

_BEFORE_1970 = as_moment(datetime(1904, 1, 1, tzinfo=UTC))
_LATEST = as_moment(datetime(9999, 1, 1, tzinfo=UTC))

_OPENERS = {b"ftyp", b"moov", b"mdat", b"wide", b"free", b"skip", b"pnot"}
"""What a file of this kind begins with (14496-12, 4.3; files before it had no `ftyp`)."""

_SHORT, _LONG = struct.Struct(">B3xIIII"), struct.Struct(">B3xQQIQ")
_UNKNOWN = {2**32 - 1, 2**64 - 1}
_EXTRA = struct.Struct(">B3xQ"), struct.Struct(">B3xI")

_CREATION_KEY = b"com.apple.quicktime.creationdate"
_MOST_KEYS = 500
_MOST_TEXT = 64
_KNOWN_BY = 1 << 16
"""Bytes of the film's index that tell it from another: sizes of the first thousands of pictures."""


@dataclass(frozen=True, slots=True)
class VideoTimes:
    """What a file says of its own film; moments are milliseconds UTC since 1970."""

    length_ms: int
    size: int
    """Bytes of the file."""
    fingerprint: str
    """The same for a copy under any name, and different for another film."""
    written_ms: int | None
    """The header's own time: the start of the recording, with some phones its end."""
    recorded_ms: int | None
    """The start as a date with its zone, where the file has one."""


def read_video(path: Path) -> VideoTimes:
    """The times of a video file. Raises NotAVideoError, NotAFileError and OSError."""
    with open_ordinary(path, "video") as file:
        return video_times(file, os.fstat(file.fileno()).st_size, path.name)


def video_times(file: BinaryIO, size: int, name: str) -> VideoTimes:
    """The times in an open file of that size. Raises NotAVideoError."""
    source = AtomFile(file, size, name)
    film = _film(source)
    tracks = (atom for atom in source.atoms(film) if atom.kind == b"trak")
    pictures = next((track for track in tracks if _is_picture(source, track)), None)
    if pictures is None:
        raise NotAVideoError(f"{name} holds no picture, only sound or nothing.", "Name a video.")
    length, written = _header(source, film, pictures)
    known_by = hashlib.sha256(b"%d " % size + source.content(film, _KNOWN_BY)).hexdigest()[:32]
    return VideoTimes(length, size, known_by, written, _recorded(source, film))


def _film(source: AtomFile) -> Atom:
    """The one atom that describes the film."""
    if not source.whole.size:
        raise NotAVideoError(f"{source.name} is empty.", "Copy it from the phone again.")
    if source.content(source.whole, 8)[4:] not in _OPENERS:
        raise NotAVideoError(
            f"{source.name} is no MP4 or MOV video.",
            "Name one of that kind; `ffmpeg -i VIDEO -c copy NEW.mp4` makes one of most others.",
        )
    film = source.first(source.whole, b"moov")
    if film is None:
        raise NotAVideoError(
            f"{source.name} has no times: its recording was cut off before it was whole.",
            "Copy it from the phone again.",
        )
    return film


def _is_picture(source: AtomFile, track: Atom) -> bool:
    handler = source.first(track, b"mdia", b"hdlr")
    return handler is not None and source.content(handler, 12)[8:] == b"vide"


def _header(source: AtomFile, film: Atom, pictures: Atom) -> tuple[int, int | None]:
    """Length in milliseconds, and the moment in the header if it has one."""
    header = source.first(film, b"mvhd")
    if header is None:
        raise source.wrong()
    is_long = source.content(header, 1) == b"\1"
    _, created, _, scale, units = source.numbers(header, _LONG if is_long else _SHORT)
    if units in _UNKNOWN or units == 0:
        units = _length_beside_header(source, film)
    milliseconds = units * 1000 / scale if scale else 0
    if not milliseconds:
        milliseconds = length_of_fragments(source, film, pictures)
    if not milliseconds:
        raise NotAVideoError(
            f"{source.name} does not say how long it is.", "Copy it from the phone again."
        )
    length = max(1, round(milliseconds))
    if length > LONGEST_MS:
        raise NotAVideoError(
            f"{source.name} says that it is longer than a day.", "Copy it from the phone again."
        )
    written = created * 1000 + _BEFORE_1970
    return length, written if 0 < written < _LATEST else None


def _length_beside_header(source: AtomFile, film: Atom) -> int:
    extra = source.first(film, b"mvex", b"mehd")
    if extra is None:
        return 0
    is_long = source.content(extra, 1) == b"\1"
    return source.numbers(extra, _EXTRA[0] if is_long else _EXTRA[1])[1]


def _recorded(source: AtomFile, film: Atom) -> int | None:
    """The start by the file's list of keys and values, if it is there and has a zone."""
    for path in ((b"meta",), (b"udta", b"meta")):
        meta = source.first(film, *path)
        if meta is None:
            continue
        # Of QuickTime the atom begins with its first child, of ISO with four bytes more.
        skip = 0 if source.content(meta, 8)[4:] == b"hdlr" else 4
        keys, values = (source.first(meta, kind, skip=skip) for kind in (b"keys", b"ilst"))
        if keys is None or values is None:
            continue
        number = _number_of_key(source, keys)
        for item in source.atoms(values):
            if number and item.kind == number.to_bytes(4, "big"):
                return _moment_of(source, item)
    return None


def _number_of_key(source: AtomFile, keys: Atom) -> int:
    """The place of the creation date among the keys, from 1; 0 where there is none."""
    for number, key in enumerate(islice(source.atoms(keys, skip=8), _MOST_KEYS), 1):
        if key.size == len(_CREATION_KEY) and source.content(key, _MOST_TEXT) == _CREATION_KEY:
            return number
    return 0


def _moment_of(source: AtomFile, item: Atom) -> int | None:
    """The moment in a value such as `2026-05-12T09:31:07+0200`."""
    data = source.first(item, b"data")
    if data is None:
        return None
    text = source.content(data, 8 + _MOST_TEXT)[8:].decode("ascii", "replace").strip("\0 ")
    try:
        when = datetime.fromisoformat(text)
        at = as_moment(when) if when.tzinfo else 0
    except (ValueError, OverflowError):
        return None
    return at if 0 < at < _LATEST else None
