"""Video files built atom by atom, as ISO/IEC 14496-12 and the QuickTime File Format say."""

from __future__ import annotations

import struct
from datetime import UTC, datetime

SINCE_1904 = datetime(1904, 1, 1, tzinfo=UTC)


def atom(kind: str, *parts: bytes, large: bool = False) -> bytes:
    """An atom with this content; its size in 4 bytes, or `large` in 8."""
    content = b"".join(parts)
    if large:
        return struct.pack(">I4sQ", 1, kind.encode("latin-1"), len(content) + 16) + content
    return struct.pack(">I4s", len(content) + 8, kind.encode("latin-1")) + content


def mvhd(created: int, scale: int, units: int, *, long: bool = False) -> bytes:
    """The movie header; `long` is its version 1."""
    times = (
        struct.pack(">B3xQQIQ", 1, created, created, scale, units)
        if long
        else struct.pack(">B3xIIII", 0, created, created, scale, units)
    )
    return atom("mvhd", times, bytes(80))


def track(handler: bytes = b"vide") -> bytes:
    """A track of that kind."""
    hdlr = atom("hdlr", bytes(8), handler, bytes(13))
    return atom("trak", atom("tkhd", bytes(84)), atom("mdia", atom("mdhd", bytes(24)), hdlr))


def creation_date(text: str, *, iso: bool = False, others: int = 0) -> bytes:
    """The list of keys and values with the creation date behind so many other keys."""
    names = [b"com.example.other"] * others + [b"com.apple.quicktime.creationdate"]
    keys = atom(
        "keys", bytes(4), struct.pack(">I", len(names)), *(atom("mdta", name) for name in names)
    )
    values = [b"x"] * others + [text.encode()]
    items = (
        atom(number.to_bytes(4).decode("latin-1"), atom("data", struct.pack(">II", 1, 0), value))
        for number, value in enumerate(values, 1)
    )
    hdlr = atom("hdlr", bytes(8), b"mdta", bytes(13))
    return atom("meta", bytes(4) if iso else b"", hdlr, keys, atom("ilst", *items))


def video(*in_moov: bytes, pictures: int = 1000, moov_first: bool = False) -> bytes:
    """A whole file around what stands in its `moov`."""
    ftyp, mdat = atom("ftyp", b"isom", bytes(4), b"isom"), atom("mdat", bytes(pictures))
    moov = atom("moov", *in_moov)
    return ftyp + (moov + mdat if moov_first else mdat + moov)


def since_1904(when: datetime) -> int:
    """Seconds as a movie header counts them."""
    return int((when - SINCE_1904).total_seconds())
