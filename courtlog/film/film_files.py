"""The five files beside a film, and whether a file that is there is still as courtlog wrote it.

The chapters' file holds a digest of each of the five in its comments. So what somebody else wrote,
or has changed since, is not replaced unasked.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import StrEnum
from hashlib import sha256
from pathlib import PurePath

from courtlog.film.captions import srt, webvtt
from courtlog.film.ffmetadata import HEADER, chapters
from courtlog.film.film_balls import FilmBall, film_parts
from courtlog.film.playlists import edl, xspf


class FilmFile(StrEnum):
    """One of the files beside a film, by the ending of its name."""

    CHAPTERS = "ffmetadata"
    WEBVTT = "vtt"
    SRT = "srt"
    XSPF = "xspf"
    EDL = "edl"


FileTexts = Mapping[FilmFile, str]
"""What the files hold."""

_MARK = "; courtlog wrote "
_OF_FILM = "this of film "


def film_files(film: PurePath, balls: Sequence[FilmBall], fingerprint: str) -> dict[FilmFile, str]:
    """What each file holds; the film's path is whole, or begins at the folder of the files.

    By its fingerprint another film of the same name is told apart.
    """
    parts = film_parts(balls)
    texts = {
        FilmFile.CHAPTERS: chapters(parts),
        FilmFile.WEBVTT: webvtt(parts),
        FilmFile.SRT: srt(parts),
        FilmFile.XSPF: xspf(film, balls),
        FilmFile.EDL: edl(film, balls),
    }
    marks = f"{_MARK}{_OF_FILM}{fingerprint}\n"
    marks += "".join(f"{_MARK}{file} {_digest(text)}\n" for file, text in texts.items())
    told = texts[FilmFile.CHAPTERS].removeprefix(HEADER)
    return texts | {FilmFile.CHAPTERS: HEADER + marks + told}


def film_of(texts: FileTexts) -> str:
    """The fingerprint of the film that the files are of; empty where they do not tell."""
    lines = texts.get(FilmFile.CHAPTERS, "").splitlines()
    marked = [line for line in lines if line.startswith(_MARK + _OF_FILM)]
    return marked[0].removeprefix(_MARK + _OF_FILM) if marked else ""


def not_as_written(texts: FileTexts) -> list[FilmFile]:
    """Those of the files that something else wrote or changed; each is there with its text."""
    lines = texts.get(FilmFile.CHAPTERS, "").splitlines(keepends=True)
    marks = {line.removeprefix(_MARK).rstrip("\n") for line in lines if line.startswith(_MARK)}
    without_marks = "".join(line for line in lines if not line.startswith(_MARK))
    held = {file: without_marks if file is FilmFile.CHAPTERS else texts[file] for file in texts}
    return [file for file, text in held.items() if f"{file} {_digest(text)}" not in marks]


def _digest(text: str) -> str:
    return sha256(text.encode()).hexdigest()
