"""Playlists that play only the balls: XSPF for VLC, EDL for mpv. Each ball has its whole window.

Source: XSPF version 1 (xspf.org/spec); URIs by RFC 3986.
Source: VideoLAN wiki, XSPF, "VLC Extensions" (wiki.videolan.org/XSPF), for start and end.
Source: mpv, DOCS/edl-mpv.rst, version 0 of the format.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import PurePath
from urllib.parse import quote
from xml.sax.saxutils import escape

from courtlog.film.film_balls import FilmBall

XSPF = "http://xspf.org/ns/0/"
VLC = "http://www.videolan.org/vlc/playlist/ns/0/"
VLC_APPLICATION = "http://www.videolan.org/vlc/playlist/0"


def xspf(film: PurePath, balls: Iterable[FilmBall]) -> str:
    """The balls as XSPF; the film's path is whole, or begins at the playlist's folder."""
    location = escape(uri_of(film))
    tracks = "".join(
        f"    <track>\n      <location>{location}</location>\n"
        f"      <title>{escape(ball.title)}</title>\n"
        f'      <extension application="{VLC_APPLICATION}">\n'
        f"        <vlc:id>{number}</vlc:id>\n"
        f"        <vlc:option>start-time={_seconds(ball.start_ms)}</vlc:option>\n"
        f"        <vlc:option>stop-time={_seconds(ball.end_ms)}</vlc:option>\n"
        "      </extension>\n    </track>\n"
        for number, ball in enumerate(_in_order(balls))
    )
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<playlist version="1" xmlns="{XSPF}" xmlns:vlc="{VLC}">\n'
        f"  <trackList>\n{tracks}  </trackList>\n</playlist>\n"
    )


def edl(film: PurePath, balls: Iterable[FilmBall]) -> str:
    """The balls as an EDL; the film's path is whole, or begins at the list's folder."""
    lines = [
        f"{_counted(str(film))},{_seconds(ball.start_ms)},"
        f"{_seconds(ball.end_ms - ball.start_ms)},title={_counted(ball.title)}\n"
        for ball in _in_order(balls)
    ]
    return "# mpv EDL v0\n" + "".join(lines)


def uri_of(film: PurePath) -> str:
    """A path as a URI; one that is not whole begins with `./`, so that no colon makes a scheme."""
    if film.is_absolute():
        return film.as_uri()
    return "./" + quote(os.fsencode(film.as_posix()))


def _in_order(balls: Iterable[FilmBall]) -> list[FilmBall]:
    return sorted(balls, key=lambda ball: ball.start_ms)


def _seconds(milliseconds: int) -> str:
    return f"{milliseconds // 1000}.{milliseconds % 1000:03}"


def _counted(text: str) -> str:
    """A text with the number of its bytes before it: nothing in it is read as a sign."""
    return f"%{len(os.fsencode(text))}%{text}"
