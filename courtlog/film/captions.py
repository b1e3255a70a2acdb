"""Captions as WebVTT and as SRT: who hits, at which drill, and each cue's grade in a word.

Source: W3C, WebVTT: The Web Video Text Tracks Format (w3.org/TR/webvtt1).
Source: for SRT, common practice; no body has published a specification.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from xml.sax.saxutils import escape

from courtlog.film.film_balls import FilmPart

_READ_AS_TAGS = re.compile(r"[&<>{}\\]")
_WIDE = 0xFEE0
"""From an ASCII sign to its wide form."""


def webvtt(parts: Iterable[FilmPart]) -> str:
    """The parts of a film as WebVTT."""
    return "WEBVTT\n" + "".join(
        f"\n{number}\n{_times(part)}\n{escape(_text(part))}\n"
        for number, part in enumerate(parts, 1)
    )


def srt(parts: Iterable[FilmPart]) -> str:
    """The parts of a film as SRT."""
    return "\n".join(
        f"{number}\n{_times(part).replace('.', ',')}\n{widened(_text(part))}\n"
        for number, part in enumerate(parts, 1)
    )


def widened(text: str) -> str:
    """The text with wide forms for signs of tags: SRT has no escapes, and players obey tags."""
    return _READ_AS_TAGS.sub(lambda sign: chr(ord(sign[0]) + _WIDE), text)


def _text(part: FilmPart) -> str:
    return "\n".join(line for ball in part.balls for line in ball.lines)


def _times(part: FilmPart) -> str:
    return f"{_clock(part.start_ms)} --> {_clock(part.end_ms)}"


@lru_cache(1 << 12)  # two kinds of captions say the same times
def _clock(at: int) -> str:
    """`01:02:03.004`."""
    seconds, thousandths = divmod(at, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02}.{thousandths:03}"
