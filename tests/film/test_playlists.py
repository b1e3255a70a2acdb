"""Playlists: XSPF read by xspf-lib, EDL by its grammar.

Source: XSPF version 1 (xspf.org/spec), sections 4.1.1.1 and 4.1.1.2; URIs by RFC 3986.
Source: VideoLAN wiki, XSPF, "VLC Extensions": one id for each track, `start-time`, `stop-time`.
Source: mpv, DOCS/edl-mpv.rst: `param ::= [name '='] (value | '%' number '%' valuebytes)`.
"""

from __future__ import annotations

import os
import re
from pathlib import Path, PurePath, PurePosixPath
from urllib.parse import unquote_to_bytes, urljoin, urlsplit
from xml.etree import ElementTree

import pytest
import xspf_lib
from hypothesis import given
from hypothesis import strategies as st

from courtlog.film.film_balls import FilmBall
from courtlog.film.playlists import VLC, VLC_APPLICATION, XSPF, edl, uri_of, xspf
from tests.film.balls import HOSTILE, TITLE, ball, film_balls

FILM = PurePath("first day.mp4")

FILE_NAMES = st.one_of(
    st.sampled_from([name for name in HOSTILE if name and "/" not in name and "\0" not in name]),
    st.text(st.characters(exclude_categories=["Cs"], exclude_characters="/\0"), min_size=1),
).filter(lambda name: name not in (".", ".."))


def of_edl(text: str) -> list[dict[str, str]]:
    """The entries of an EDL, by the grammar of its documentation, byte by byte."""
    first, _, rest = text.encode("utf-8", "surrogateescape").partition(b"\n")
    assert first == b"# mpv EDL v0"
    entries: list[dict[str, str]] = []
    while rest:
        assert rest[:1] not in (b"#", b"!", b"\n")
        entry: dict[str, str] = {}
        unnamed = iter(("file", "start", "length"))
        while True:
            named = re.match(rb"([^=%,;\n!]+)=", rest)
            name = named[1].decode() if named else next(unnamed)
            rest = rest[named.end() :] if named else rest
            counted = re.match(rb"%(\d+)%", rest)
            size = re.match(rb"[^,;\n!]*", rest)
            assert size is not None
            begin = counted.end() if counted else 0
            end = begin + int(counted[1]) if counted else size.end()
            entry[name] = rest[begin:end].decode("utf-8", "surrogateescape")
            sign, rest = rest[end : end + 1], rest[end + 1 :]
            if sign == b"\n":
                break
            assert sign == b","
        entries.append(entry)
    return entries


def test_edl_as_the_documentation_writes_it() -> None:
    assert edl(FILM, [ball(61.5, 66), ball(0, 5)]) == (
        "# mpv EDL v0\n"
        f"%13%first day.mp4,0.000,5.000,title=%{len(TITLE.encode())}%{TITLE}\n"
        f"%13%first day.mp4,61.500,4.500,title=%{len(TITLE.encode())}%{TITLE}\n"
    )


@given(FILE_NAMES, film_balls())
def test_an_edl_keeps_names_and_times_whole(name: str, balls: list[FilmBall]) -> None:
    in_order = sorted(balls, key=lambda one: one.start_ms)
    read = of_edl(edl(PurePosixPath(name), balls))
    assert [one["title"] for one in read] == [one.title for one in in_order]
    assert {one["file"] for one in read} <= {name}
    assert [one["start"] for one in read] == [f"{one.start_ms / 1000:.3f}" for one in in_order]
    lengths = [(one.end_ms - one.start_ms) / 1000 for one in in_order]
    assert [one["length"] for one in read] == [f"{length:.3f}" for length in lengths]


def test_xspf_as_the_specification_and_vlc_write_it() -> None:
    assert xspf(FILM, [ball(61.5, 66)]) == (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<playlist version="1" xmlns="{XSPF}" xmlns:vlc="{VLC}">\n'
        "  <trackList>\n"
        "    <track>\n"
        "      <location>./first%20day.mp4</location>\n"
        f"      <title>{TITLE}</title>\n"
        f'      <extension application="{VLC_APPLICATION}">\n'
        "        <vlc:id>0</vlc:id>\n"
        "        <vlc:option>start-time=61.500</vlc:option>\n"
        "        <vlc:option>stop-time=66.000</vlc:option>\n"
        "      </extension>\n"
        "    </track>\n"
        "  </trackList>\n"
        "</playlist>\n"
    )


@given(FILE_NAMES, film_balls())
def test_other_parsers_read_xspf_back(
    tmp_path_factory: pytest.TempPathFactory, name: str, balls: list[FilmBall]
) -> None:
    in_order = sorted(balls, key=lambda one: one.start_ms)
    written = xspf(PurePosixPath(name), balls)
    root = ElementTree.fromstring(written.encode())
    assert (root.tag, root.attrib) == (f"{{{XSPF}}}playlist", {"version": "1"})
    tracks = root.findall(f"./{{{XSPF}}}trackList/{{{XSPF}}}track")
    assert [track.findtext(f"{{{XSPF}}}title") for track in tracks] == [
        one.title for one in in_order
    ]
    ids = [track.findtext(f".//{{{VLC}}}id") for track in tracks]
    assert len(set(ids)) == len(balls)
    options = [[one.text for one in track.iter(f"{{{VLC}}}option")] for track in tracks]
    assert options == [
        [f"start-time={one.start_ms / 1000:.3f}", f"stop-time={one.end_ms / 1000:.3f}"]
        for one in in_order
    ]
    file = tmp_path_factory.mktemp("xspf") / "film.xspf"
    file.write_bytes(written.encode())
    read = xspf_lib.Playlist.parse(str(file))
    assert [track.title for track in read] == [one.title for one in in_order]
    assert [track.location for track in read] == [[f"./{name}"]] * len(balls)


@given(FILE_NAMES)
def test_a_name_beside_the_list_stays_beside_it(name: str) -> None:
    """Resolved as RFC 3986, section 5, says, whatever colons, `?`, `#` and `%` it has."""
    found = urlsplit(urljoin("file:///films/list.xspf", uri_of(PurePosixPath(name))))
    assert (found.scheme, found.query, found.fragment) == ("file", "", "")
    assert unquote_to_bytes(found.path) == b"/films/" + os.fsencode(name)
    assert re.fullmatch(r"[A-Za-z0-9._~%/-]*", uri_of(PurePosixPath(name)))


def test_a_whole_path_is_a_file_uri(tmp_path: Path) -> None:
    film = tmp_path / "a b#?.mp4"
    assert uri_of(film) == f"{tmp_path.as_uri()}/a%20b%23%3F.mp4"


def test_balls_keep_their_whole_window_in_a_playlist() -> None:
    """Each one is sought for itself, so that none is cut where the next one begins."""
    read = of_edl(edl(FILM, [ball(0, 5), ball(3, 8)]))
    assert [one["length"] for one in read] == ["5.000", "5.000"]
