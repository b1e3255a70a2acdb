"""Chapters as ffmetadata, read back by ffprobe.

Source: FFmpeg formats documentation, chapter "Metadata" (ffmpeg.org/ffmpeg-formats.html): the
header, the order TIMEBASE, START, END, and the characters that are escaped.
"""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from courtlog.film.ffmetadata import BEFORE_FIRST, chapters, escaped
from courtlog.film.film_balls import FilmBall, film_parts
from tests.doses import dose
from tests.film.balls import HOSTILE, TITLE, ball, film_balls, needs_ffmpeg


def read_by_ffprobe(file: Path, form: tuple[str, ...] = ()) -> list[tuple[float, float, str]]:
    """Each chapter's start and end in seconds, and its title."""
    words = ["ffprobe", "-v", "error", *form, "-show_chapters", "-of", "json", f"file:{file}"]
    said = subprocess.run(words, capture_output=True, check=True, timeout=60)
    assert said.stderr == b""
    return [
        (float(one["start_time"]), float(one["end_time"]), one.get("tags", {}).get("title", ""))
        for one in json.loads(said.stdout)["chapters"]
    ]


def test_chapters_as_the_documentation_writes_them() -> None:
    assert chapters(film_parts([ball(5, 10), ball(8, 13, player="Bo;#=\\")])) == (
        ";FFMETADATA1\n"
        "[CHAPTER]\nTIMEBASE=1/1000\nSTART=0\nEND=5000\ntitle=before the first ball\n"
        f"[CHAPTER]\nTIMEBASE=1/1000\nSTART=5000\nEND=8000\ntitle={TITLE}\n"
        "[CHAPTER]\nTIMEBASE=1/1000\nSTART=8000\nEND=13000\n"
        "title=Bo\\;\\#\\=\\\\ · Racquet feed · ball 7 · turn made · spacing missed\n"
    )


def test_a_ball_at_the_beginning_needs_no_chapter_before_it() -> None:
    assert BEFORE_FIRST not in chapters(film_parts([ball(0, 5)]))


def test_a_film_without_balls_has_no_chapters() -> None:
    assert chapters(film_parts([])) == ";FFMETADATA1\n"


def test_a_newline_in_a_value_is_escaped() -> None:
    assert escaped("multi\nline") == "multi\\\nline"


@needs_ffmpeg
@settings(
    max_examples=dose(25, 300),
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(film_balls())
def test_ffprobe_reads_each_chapter_back(tmp_path: Path, balls: list[FilmBall]) -> None:
    file = tmp_path / "film.ffmetadata"
    file.write_bytes(chapters(film_parts(balls)).encode())
    parts = film_parts(balls)
    told = [(part.start_ms / 1000, part.end_ms / 1000, part.title) for part in parts]
    if told and told[0][0] > 0:
        told.insert(0, (0, told[0][0], BEFORE_FIRST))
    assert read_by_ffprobe(file, ("-f", "ffmetadata")) == told


@needs_ffmpeg
def test_in_an_mp4_each_ball_still_begins_where_it_did(tmp_path: Path) -> None:
    """MP4 pulls its first chapter to zero, so that without the leading one this would fail."""
    meta, plain, film = (tmp_path / name for name in ("a.ffmetadata", "plain.mp4", "film.mp4"))
    names = [name for name in HOSTILE if name.strip()]
    balls = [ball(3 + 2 * n, 8 + 2 * n, player=name) for n, name in enumerate(names)]
    meta.write_bytes(chapters(film_parts(balls)).encode())
    source = ["-f", "lavfi", "-i", "color=c=gray:size=64x64:rate=10:duration=40"]
    ffmpeg = ["ffmpeg", "-v", "error", "-nostdin"]
    subprocess.run([*ffmpeg, *source, f"file:{plain}"], check=True, timeout=120)
    joined = ["-i", f"file:{plain}", "-i", f"file:{meta}", "-map_chapters", "1", "-codec", "copy"]
    subprocess.run([*ffmpeg, *joined, f"file:{film}"], check=True, timeout=120)
    read = read_by_ffprobe(film)
    assert [title for _, _, title in read] == [BEFORE_FIRST, *[b.title for b in balls]]
    assert [start for start, _, _ in read] == pytest.approx([0, *range(3, 3 + 2 * len(balls), 2)])
