"""What `courtlog film chapters` does: five files that players of films read, beside the video."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path, PurePath

from courtlog import drafts, finished_steps, private
from courtlog.cli.common import chosen_clinic, existing_book
from courtlog.coaching.game.people import Clinic
from courtlog.errors import CourtlogError, UnknownNameError
from courtlog.film.film_files import FilmFile, film_files, not_as_written
from courtlog.film.video_times import read_video
from courtlog.given_files import read_ordinary
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.new_folder import unwritten
from courtlog.logbook.reads.film.ball_words import ball_filter
from courtlog.logbook.reads.film.filmed_balls import FilmedBalls, filmed_balls
from courtlog.logbook.reads.film.films import Film, films
from courtlog.plain_text import listed, many, plain
from courtlog.reports.pages.film_text import KNOWN_BY

_MOST_BYTES = 1 << 28
"""A film of a day with a ball a second has files of a tenth of this."""


_USES = {
    FilmFile.CHAPTERS: "chapters, for mpv and ffmpeg",
    FilmFile.WEBVTT: "captions (WebVTT)",
    FilmFile.SRT: "captions (SRT)",
    FilmFile.XSPF: "these balls alone, for VLC",
    FilmFile.EDL: "these balls alone, for mpv",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedBalls:
    """Which balls go into the files, as typed."""

    player: str | None = None
    drill: str | None = None
    cue: str | None = None
    grade: str | None = None
    marked: bool = False


def write_chapters(
    path: Path | None,
    clinic: str | None,
    file: Path,
    to: Path | None,
    asked: AskedBalls,
    replace: bool,
) -> None:
    """Write the files of a film beside it or into a folder. Raises CourtlogError."""
    with existing_book(path) as book:
        here = chosen_clinic(book, clinic)
        film = _film_of(book, here, file)
        wanted = ball_filter(
            book,
            here.id,
            player=asked.player,
            drill=asked.drill,
            cue=asked.cue,
            grade=asked.grade,
            marked=asked.marked,
        )
        shown = filmed_balls(book, here, film, wanted)
    for sentence in _left_out(shown):
        print(plain(sentence))
    if not shown.balls:
        raise CourtlogError(
            f"{file.name} shows no ball that was asked for.",
            "Nothing was written. `courtlog film` says whose balls each film shows.",
        )
    names = _names(file, to)
    _check_free(file, names, replace)
    for kind, text in film_files(_path_from(file, to), shown.balls).items():
        _write(names[kind], text)
    for line in _written(file, to, names, len(shown.balls)):
        print(plain(line))
    print(KNOWN_BY[film.source])


def _film_of(book: Book, clinic: Clinic, file: Path) -> Film:
    """The film that the book has of this file, under whatever name it came in."""
    try:
        fingerprint = read_video(file).fingerprint
    except OSError as error:
        raise CourtlogError(
            f"{file.name} cannot be read ({error.strerror}).", "Check its name and place."
        ) from error
    for film in films(book, clinic.id):
        if film.fingerprint == fingerprint:
            return film
    raise UnknownNameError(
        f"{file.name} is no film of {clinic.name} yet.",
        "`courtlog film add FILE` takes it in; --clinic names another clinic.",
    )


def _left_out(shown: FilmedBalls) -> Iterator[str]:
    if shown.not_agreed:
        whose = listed([f"{count} of {name}" for name, count in shown.not_agreed.items()])
        yield f"Left out, since filming is not agreed: {whose}."
    if shown.without_moment:
        balls = many(shown.without_moment, "ball")
        has = "has" if shown.without_moment == 1 else "have"
        yield f"{balls} of that day {has} no moment, such as those from a sheet."


def _written(file: Path, to: Path | None, names: dict[FilmFile, Path], balls: int) -> Iterator[str]:
    where = "beside it" if to is None else f"in {to}"
    yield f"{many(balls, 'ball')} of {file.name} went into five files {where}:"
    width = max(len(name.name) for name in names.values())
    for kind, name in names.items():
        yield f"  {name.name:{width}}  {_USES[kind]}"


def _names(file: Path, to: Path | None) -> dict[FilmFile, Path]:
    folder = file.parent if to is None else to
    return {kind: folder / f"{file.stem}.{kind}" for kind in FilmFile}


def _path_from(file: Path, to: Path | None) -> PurePath:
    """The film's path as it is from the folder of the files: whole only on another drive."""
    path = PurePath(file.name)
    if to is not None:
        whole = Path(os.path.realpath(file.parent)) / file.name
        try:
            path = PurePath(os.path.relpath(whole, os.path.realpath(to)))
        except ValueError:
            path = whole
    try:
        str(path).encode()
    except UnicodeEncodeError as error:
        raise CourtlogError(
            f"{file.name} has a name or a folder that is no text.", "Give it another name."
        ) from error
    return path


def _check_free(file: Path, names: dict[FilmFile, Path], replace: bool) -> None:
    """Refuse to write over the film, or over what somebody else wrote or changed."""
    if any(name.exists() and name.samefile(file) for name in names.values()):
        raise CourtlogError(
            f"{file.name} has the name of a file that would be written.",
            "Nothing was written. --to names another folder.",
        )
    if replace:
        return
    held = {kind: _text_of(name) for kind, name in names.items() if os.path.lexists(name)}
    foreign = [names[kind].name for kind in not_as_written(held)]
    if foreign:
        raise CourtlogError(
            f"Not as courtlog wrote it: {listed(foreign)}.",
            "Nothing was written. --replace writes over it, --to names another folder.",
        )


def _text_of(name: Path) -> str:
    """What a file holds; bytes that are no text become signs that no digest fits."""
    try:
        return read_ordinary(name, "file to replace", _MOST_BYTES).decode(errors="replace")
    except OSError as error:
        raise unwritten(name.parent, error) from error


def _write(name: Path, text: str) -> None:
    try:
        if not name.parent.exists():
            private.make_folder(name.parent)
            finished_steps.note(f"the folder {name.parent} is made")
        drafts.write(name, text)
    except OSError as error:
        raise unwritten(name.parent, error) from error
    finished_steps.note(f"{name} is written")
