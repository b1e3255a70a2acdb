"""Captions as WebVTT and as SRT: who hits, at which drill, and each cue's grade in a word.

Source: W3C, WebVTT: The Web Video Text Tracks Format (w3.org/TR/webvtt1).
Source: for SRT, common practice; no body has published a specification.
"""

from __future__ import annotations

from collections.abc import Iterable

from courtlog.film.film_balls import FilmBall, FilmPart, film_parts

_WEBVTT = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;"})

_SRT = str.maketrans({code: chr(ord(code) + 0xFEE0) for code in "&<>{}\\"})
"""SRT has no escapes, and players read some of its text as tags; the wide forms are only text."""


def webvtt(balls: Iterable[FilmBall]) -> str:
    """The balls as WebVTT."""
    return "WEBVTT\n" + "".join(
        f"\n{number}\n{_times(part, '.')}\n{_text(part).translate(_WEBVTT)}\n"
        for number, part in enumerate(film_parts(balls), 1)
    )


def srt(balls: Iterable[FilmBall]) -> str:
    """The balls as SRT."""
    return "\n".join(
        f"{number}\n{_times(part, ',')}\n{_text(part).translate(_SRT)}\n"
        for number, part in enumerate(film_parts(balls), 1)
    )


def _text(part: FilmPart) -> str:
    return "\n".join(line for ball in part.balls for line in ball.lines())


def _times(part: FilmPart, point: str) -> str:
    return f"{_clock(part.start_ms, point)} --> {_clock(part.end_ms, point)}"


def _clock(at: int, point: str) -> str:
    """`01:02:03.004`, with that sign before the milliseconds."""
    seconds, thousandths = divmod(at, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02}{point}{thousandths:03}"
