"""The five files together, and which of them may be replaced."""

from __future__ import annotations

import subprocess
from pathlib import Path, PurePath

from hypothesis import given

from courtlog.film.captions import srt, webvtt
from courtlog.film.ffmetadata import chapters
from courtlog.film.film_balls import FilmBall, film_parts
from courtlog.film.film_files import FilmFile, film_files, not_as_written
from courtlog.film.playlists import edl, xspf
from tests.film.balls import ball, film_balls, needs_ffmpeg

FILM = PurePath("first day.mp4")


def test_each_file_holds_its_format() -> None:
    balls = [ball(5, 10)]
    texts = film_files(FILM, balls, "f1")
    assert texts[FilmFile.WEBVTT] == webvtt(film_parts(balls))
    assert texts[FilmFile.SRT] == srt(film_parts(balls))
    assert texts[FilmFile.XSPF] == xspf(FILM, balls)
    assert texts[FilmFile.EDL] == edl(FILM, balls)
    lines = texts[FilmFile.CHAPTERS].splitlines(keepends=True)
    assert "".join(line for line in lines if not line.startswith("; ")) == chapters(
        film_parts(balls)
    )


@given(film_balls())
def test_what_courtlog_wrote_is_known(balls: list[FilmBall]) -> None:
    texts = film_files(FILM, balls, "f1")
    assert not_as_written(texts) == []
    assert not_as_written({}) == []


def test_a_changed_file_is_known_and_so_is_one_of_somebody_else() -> None:
    texts = film_files(FILM, [ball(5, 10)], "f1")
    for file in FilmFile:
        assert not_as_written(texts | {file: texts[file] + "x"}) == [file]
    assert not_as_written({FilmFile.SRT: texts[FilmFile.SRT]}) == [FilmFile.SRT]
    assert not_as_written(film_files(FILM, [], "f1") | {FilmFile.EDL: texts[FilmFile.EDL]}) == [
        FilmFile.EDL
    ]


@needs_ffmpeg
def test_the_marks_are_comments_to_ffprobe(tmp_path: Path) -> None:
    file = tmp_path / "film.ffmetadata"
    file.write_bytes(film_files(FILM, [ball(0, 5)], "f1")[FilmFile.CHAPTERS].encode())
    words = ["ffprobe", "-v", "error", "-f", "ffmetadata", "-show_entries", "format_tags:chapter"]
    said = subprocess.run([*words, f"file:{file}"], capture_output=True, check=True, timeout=60)
    assert (said.stderr, said.stdout.count(b"[CHAPTER]")) == (b"", 1)
    assert b"courtlog" not in said.stdout
