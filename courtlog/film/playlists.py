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
from xml.etree import ElementTree

from courtlog.film.film_balls import FilmBall

XSPF = "http://xspf.org/ns/0/"
VLC = "http://www.videolan.org/vlc/playlist/ns/0/"
VLC_APPLICATION = "http://www.videolan.org/vlc/playlist/0"


def xspf(film: PurePath, balls: Iterable[FilmBall]) -> str:
    """The balls as XSPF; the film's path is whole, or begins at the playlist's folder."""
    root = ElementTree.Element("playlist", {"version": "1", "xmlns": XSPF, "xmlns:vlc": VLC})
    tracks = ElementTree.SubElement(root, "trackList")
    location = uri_of(film)
    for number, ball in enumerate(_in_order(balls)):
        track = ElementTree.SubElement(tracks, "track")
        ElementTree.SubElement(track, "location").text = location
        ElementTree.SubElement(track, "title").text = ball.title()
        extension = ElementTree.SubElement(track, "extension", application=VLC_APPLICATION)
        ElementTree.SubElement(extension, "vlc:id").text = str(number)
        for option, at in (("start-time", ball.start_ms), ("stop-time", ball.end_ms)):
            ElementTree.SubElement(extension, "vlc:option").text = f"{option}={_seconds(at)}"
    ElementTree.indent(root)
    written = ElementTree.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{written}\n'


def edl(film: PurePath, balls: Iterable[FilmBall]) -> str:
    """The balls as an EDL; the film's path is whole, or begins at the list's folder."""
    lines = [
        f"{_counted(str(film))},{_seconds(ball.start_ms)},"
        f"{_seconds(ball.end_ms - ball.start_ms)},title={_counted(ball.title())}\n"
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
