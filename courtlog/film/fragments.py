"""The length of a film in fragments, whose header does not have it.

Source: ISO/IEC 14496-12, 8.8.3 (`trex`), 8.8.7 (`tfhd`), 8.8.8 (`trun`) and 8.8.12 (`tfdt`).
"""

from __future__ import annotations

import struct
from collections.abc import Iterator

from courtlog.film.atoms import Atom, AtomFile

_WORD = struct.Struct(">I")
_TWO, _WIDE = struct.Struct(">II"), struct.Struct(">IQ")
_BEFORE_DURATION = {0x01: 8, 0x02: 4}
"""Bytes of what may stand before the usual duration: an offset, a description."""

_HAS_USUAL_DURATION = 0x08
_TRUN_BEFORE_SAMPLES = {0x01: 4, 0x04: 4}
_HAS_DURATION, _SAMPLE_FIELDS = 0x0100, (0x0100, 0x0200, 0x0400, 0x0800)
_MOST_BYTES = 1 << 22
"""Bytes of one list of pictures: a million of them at four bytes each."""


def length_of_fragments(source: AtomFile, film: Atom, track: Atom) -> float:
    """Milliseconds to the end of the track's last picture; 0 where no fragment tells.

    Read from the end of the file on: a fragment that says where it begins ends the search.
    """
    number = _number(source, track, (b"tkhd",))
    scale = _number(source, track, (b"mdia", b"mdhd"))
    usual = _usual_duration(source, film, number)
    units = 0
    for moof in reversed([atom for atom in source.atoms(source.whole) if atom.kind == b"moof"]):
        for part in source.atoms(moof):
            if part.kind == b"traf" and _track_of(source, part) == number:
                units += _length(source, part, usual)
                begins = source.first(part, b"tfdt")
                if begins is not None:
                    wide = source.content(begins, 1) == b"\1"
                    units += source.numbers(begins, _WIDE if wide else _TWO)[1]
                    return units * 1000 / scale if scale else 0
    return units * 1000 / scale if scale else 0


def _number(source: AtomFile, track: Atom, path: tuple[bytes, ...]) -> int:
    """The number behind the two moments of a header: a track's own, or its units a second."""
    header = source.first(track, *path)
    if header is None:
        raise source.wrong()
    wide = source.content(header, 1) == b"\1"
    return source.numbers(header, struct.Struct(">20xI" if wide else ">12xI"))[0]


def _track_of(source: AtomFile, part: Atom) -> int:
    header = source.first(part, b"tfhd")
    if header is None:
        raise source.wrong()
    return source.numbers(header, _TWO)[1]


def _usual_duration(source: AtomFile, film: Atom, track: int) -> int:
    extra = source.first(film, b"mvex")
    for atom in source.atoms(extra) if extra else ():
        if atom.kind == b"trex":
            _, number, _, duration = source.numbers(atom, struct.Struct(">IIII"))
            if number == track:
                return duration
    return 0


def _length(source: AtomFile, part: Atom, usual: int) -> int:
    """How long the pictures of a fragment are together."""
    header = source.first(part, b"tfhd")
    if header is None:
        raise source.wrong()
    (flags,) = source.numbers(header, _WORD)
    if flags & _HAS_USUAL_DURATION:
        place = 8 + sum(size for bit, size in _BEFORE_DURATION.items() if flags & bit)
        (usual,) = source.numbers(header, struct.Struct(f">{place}xI"))
    runs = (atom for atom in source.atoms(part) if atom.kind == b"trun")
    return sum(sum(_durations(source, run, usual)) for run in runs)


def _durations(source: AtomFile, run: Atom, usual: int) -> Iterator[int]:
    flags, count = source.numbers(run, _TWO)
    if not flags & _HAS_DURATION:
        yield count * usual
        return
    first = 8 + sum(size for bit, size in _TRUN_BEFORE_SAMPLES.items() if flags & bit)
    step = 4 * sum(bool(flags & bit) for bit in _SAMPLE_FIELDS)
    content = source.content(run, _MOST_BYTES)
    if len(content) < first + count * step:
        raise source.wrong()
    # The duration is the first of a picture's fields.
    for place in range(first, first + count * step, step):
        yield _WORD.unpack_from(content, place)[0]
