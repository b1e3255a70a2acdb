"""The atoms (boxes) that an MP4 or MOV file is made of, walked by their headers alone.

Source: ISO/IEC 14496-12, section 4.2 (size, largesize, and 0 for "to the end of the file"); the
QuickTime File Format uses the same headers. What a header says is believed only within the atom
around it, so that each step goes forward and a file can hold no loop.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from typing import BinaryIO

from courtlog.errors import NotAVideoError

MOST_ATOMS = 50_000
"""Headers that are looked at in one file: a day in fragments of four seconds has two each."""

_SHORT_HEADER, _LONG_HEADER = 8, 16
_TO_THE_END, _IS_LARGE = 0, 1


@dataclass(frozen=True, slots=True)
class Atom:
    """One atom: its four letters, and from where to where its content goes in the file."""

    kind: bytes
    start: int
    end: int

    @property
    def size(self) -> int:
        """Bytes of its content."""
        return self.end - self.start


class AtomFile:
    """An open file read atom by atom. Everything here raises NotAVideoError, with `name` in it."""

    def __init__(self, file: BinaryIO, size: int, name: str) -> None:
        self.whole = Atom(b"file", 0, size)
        self.name = name
        self._file = file
        self._left = MOST_ATOMS

    def atoms(self, around: Atom, skip: int = 0) -> Iterator[Atom]:
        """The atoms within an atom, from `skip` bytes on; their contents are not read."""
        place = around.start + skip
        while place + _SHORT_HEADER <= around.end:
            atom = self._atom_at(place, around)
            if atom is None:
                return
            yield atom
            place = atom.end

    def first(self, around: Atom, *path: bytes, skip: int = 0) -> Atom | None:
        """The first atom of that kind within; of several kinds, one within the other."""
        kind, *rest = path
        for atom in self.atoms(around, skip):
            if atom.kind == kind:
                return self.first(atom, *rest) if rest else atom
        return None

    def content(self, atom: Atom, most: int) -> bytes:
        """What the atom holds, at most so many bytes."""
        wanted = min(atom.size, most)
        self._file.seek(atom.start)
        read = self._file.read(wanted)
        if len(read) < wanted:
            raise self.cut_off()
        return read

    def numbers(self, atom: Atom, layout: struct.Struct) -> tuple[int, ...]:
        """The numbers at the beginning of its content."""
        content = self.content(atom, layout.size)
        if len(content) < layout.size:
            raise self.wrong()
        return layout.unpack(content)

    def wrong(self) -> NotAVideoError:
        """The error for an atom that cannot be as it says."""
        return NotAVideoError(
            f"{self.name} is no sound video: a length in it cannot be right.",
            "Copy it from the phone again.",
        )

    def cut_off(self) -> NotAVideoError:
        """The error for a file that ends before it should."""
        return NotAVideoError(
            f"{self.name} ends before its video does.", "Copy it from the phone again."
        )

    def _atom_at(self, place: int, around: Atom) -> Atom | None:
        """The atom that begins there; None for the zeros with which QuickTime ends a list."""
        self._left -= 1
        if self._left < 0:
            raise NotAVideoError(
                f"{self.name} has more parts than a video has.", "Copy it from the phone again."
            )
        header = self.content(Atom(b"", place, around.end), _LONG_HEADER)
        size, kind, start = int.from_bytes(header[:4]), header[4:8], place + _SHORT_HEADER
        if size == _IS_LARGE and len(header) == _LONG_HEADER:
            size, start = int.from_bytes(header[8:]), place + _LONG_HEADER
        if size == _TO_THE_END:
            return Atom(kind, start, around.end) if around is self.whole else None
        end = place + size
        if end < start:
            raise self.wrong()
        if end > around.end:
            raise self.cut_off() if around is self.whole else self.wrong()
        return Atom(kind, start, end)
