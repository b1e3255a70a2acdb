"""Captions, read back by parsers of others: webvtt-py, srt, and FFmpeg's own.

Source: W3C, WebVTT: The Web Video Text Tracks Format (w3.org/TR/webvtt1), sections 4.1 and 4.2:
the header, timestamps, `&amp; &lt; &gt;`, and no `-->` and no blank line in a cue's text.
SRT has no specification: common practice as VideoLAN's wiki (SubRip) tells it.
"""

from __future__ import annotations

import html
import io
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
import srt as other_srt
import webvtt as other_webvtt
from hypothesis import given

from courtlog.film.captions import srt, webvtt
from courtlog.film.film_balls import FilmBall, FilmPart, film_parts
from tests.film.balls import HOSTILE, ball, film_balls, needs_ffmpeg


def test_webvtt_as_the_specification_writes_it() -> None:
    assert webvtt(
        film_parts([ball(3662.5, 3667.5), ball(3665, 3670, player="<b>Bo & Co", cues=())])
    ) == (
        "WEBVTT\n"
        "\n1\n01:01:02.500 --> 01:01:05.000\n"
        "Maren · Racquet feed · ball 7\nturn made · spacing missed\n"
        "\n2\n01:01:05.000 --> 01:01:10.000\n&lt;b&gt;Bo &amp; Co · Racquet feed · ball 7\n"
    )


def test_srt_as_players_read_it() -> None:
    assert srt(
        film_parts([ball(0, 5), ball(5.25, 10, player="<b>Bo & Co --> {\\an8}", cues=())])
    ) == (
        "1\n00:00:00,000 --> 00:00:05,000\n"
        "Maren · Racquet feed · ball 7\nturn made · spacing missed\n"
        "\n2\n00:00:05,250 --> 00:00:10,000\n"
        "＜b＞Bo ＆ Co --＞ ｛＼an8｝ · Racquet feed · ball 7\n"
    )


def text_of(balls: tuple[FilmBall, ...]) -> str:
    """What a caption says, before a format escapes it."""
    return "\n".join(line for one in balls for line in one.lines)


def stripped(text: str) -> list[str]:
    """Its lines without the blanks around them, which parsers may drop."""
    return [line.strip() for line in text.split("\n")]


@given(film_balls())
def test_another_parser_reads_webvtt_back(balls: list[FilmBall]) -> None:
    read = other_webvtt.from_buffer(io.BytesIO(webvtt(film_parts(balls)).encode())).captions
    parts = film_parts(balls)
    assert [one.start_time.in_milliseconds() for one in read] == [p.start_ms for p in parts]
    assert [one.end_time.in_milliseconds() for one in read] == [p.end_ms for p in parts]
    assert [stripped(html.unescape(one.raw_text)) for one in read] == [
        stripped(text_of(part.balls)) for part in parts
    ]


@given(film_balls())
def test_another_parser_reads_srt_back(balls: list[FilmBall]) -> None:
    read = list(other_srt.parse(srt(film_parts(balls))))
    parts = film_parts(balls)
    assert [round(one.start.total_seconds() * 1000) for one in read] == [p.start_ms for p in parts]
    assert [round(one.end.total_seconds() * 1000) for one in read] == [p.end_ms for p in parts]
    wide = str.maketrans("&<>{}\\", "＆＜＞｛｝＼")
    told = [stripped(text_of(part.balls).translate(wide)) for part in parts]
    assert [stripped(one.content) for one in read] == told


@given(film_balls())
def test_nothing_in_a_name_is_read_as_a_sign(balls: list[FilmBall]) -> None:
    for written in (webvtt(film_parts(balls)), srt(film_parts(balls))):
        assert written.count("-->") == len(film_parts(balls))
        assert not set(written) & {"\r", "\x00", "\x0b", "\x0c", "\x85", "\u2028", "\u202e"}
    assert not set("<{\\&") & set(srt(film_parts(balls)))


@needs_ffmpeg
@pytest.mark.parametrize(("ending", "write"), [("vtt", webvtt), ("srt", srt)])
def test_ffmpeg_reads_one_caption_for_each_part(
    tmp_path: Path, ending: str, write: Callable[[list[FilmPart]], str]
) -> None:
    balls = [ball(5 * n, 5 * n + 5, player=name) for n, name in enumerate(HOSTILE)]
    file = tmp_path / f"film.{ending}"
    file.write_bytes(write(film_parts(balls)).encode())
    words = ["ffprobe", "-v", "error", "-show_entries", "packet=pts_time", "-of", "csv=p=0"]
    said = subprocess.run([*words, f"file:{file}"], capture_output=True, check=True, timeout=60)
    assert [float(at.strip(b",")) for at in said.stdout.split()] == [5.0 * n for n in range(11)]
