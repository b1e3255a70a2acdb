"""What `courtlog film chapters` does: five files that players of films read, beside the video."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from courtlog.cli.actions.film.agreed import ASK_FIRST
from courtlog.cli.actions.film.beside_film import FilePlace, FilesBeside
from courtlog.cli.actions.film.given_videos import given_videos, refuse
from courtlog.cli.common import chosen_clinic, existing_book
from courtlog.coaching.game.people import Clinic
from courtlog.errors import CourtlogError, UnknownNameError
from courtlog.film.film_files import FilmFile, film_files
from courtlog.film.film_start import StartSource
from courtlog.film.video_times import read_video
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.film.ball_words import ball_filter
from courtlog.logbook.reads.film.filmed_balls import FilmedBalls, balls_of_films
from courtlog.logbook.reads.film.films import Film, courts_open, films
from courtlog.plain_text import listed, many, plain
from courtlog.reports.pages.film_text import KNOWN_BY, court_to_say, left_out_words, others_words

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
    court: str | None = None
    cue: str | None = None
    grade: str | None = None
    marked: bool = False


@dataclass(frozen=True, slots=True)
class _FilmFound:
    """A video with what the book has of it."""

    beside: FilesBeside
    source: StartSource
    shown: FilmedBalls


def write_chapters(
    path: Path | None,
    clinic: str | None,
    files: Sequence[Path],
    to: Path | None,
    asked: AskedBalls,
    replace: bool,
) -> None:
    """Write the files of each film beside it or into a folder. Raises CourtlogError."""
    videos = given_videos(files)
    refused: list[tuple[Path, CourtlogError]] = []
    with existing_book(path) as book:
        found = list(_films_found(book, chosen_clinic(book, clinic), videos, to, asked, refused))
    _say(_left_out(found, len(videos)))
    written: set[FilePlace] = set()
    done = []
    for film in found:
        try:
            if film.shown.balls:
                film.beside.check_free(written, replace)
                film.beside.write(_texts(film))
                written |= film.beside.places()
                done.append(film)
            elif len(videos) == 1:
                raise _no_ball(film)
        except CourtlogError as error:
            refused.append((film.beside.film, error))
    if done:
        _say(_written(done[0], to) if len(videos) == 1 else _all_written(found, to))
        _say(others_words(done[0].shown.without_yes))
    if refused:
        refuse(refused, len(videos), "went without files beside them")
    if not done:
        raise CourtlogError(
            "None of these films shows a ball that was asked for.",
            "Nothing was written. `courtlog film` says whose balls each film shows.",
        )


def _texts(film: _FilmFound) -> dict[FilmFile, str]:
    beside = film.beside
    return film_files(beside.path_from, film.shown.balls, beside.fingerprint)


def _films_found(
    book: Book,
    clinic: Clinic,
    videos: Sequence[Path],
    to: Path | None,
    asked: AskedBalls,
    refused: list[tuple[Path, CourtlogError]],
) -> Iterator[_FilmFound]:
    """The videos that the book knows, each with its balls; the others go to `refused`."""
    wanted = ball_filter(
        book,
        clinic.id,
        player=asked.player,
        drill=asked.drill,
        court=asked.court,
        cue=asked.cue,
        grade=asked.grade,
        marked=asked.marked,
    )
    known = {film.fingerprint: film for film in films(book, clinic.id)}
    chosen: list[tuple[Path, Film]] = []
    for file in videos:
        try:
            film = _known_film(known, clinic, file)
            if film.court is None:
                courts = courts_open(book, clinic.id, film.began_ms, film.ended_ms)
                if courts:
                    raise CourtlogError(f"The court of {file.name} is {court_to_say(courts)}")
            chosen.append((file, film))
        except CourtlogError as error:
            refused.append((file, error))
    every = balls_of_films(book, clinic, [film for _, film in chosen], wanted)
    for (file, film), shown in zip(chosen, every, strict=True):
        yield _FilmFound(FilesBeside(file, film.fingerprint, to), film.source, shown)


def _known_film(known: dict[str, Film], clinic: Clinic, file: Path) -> Film:
    """The film that the book has of this file, under whatever name it came in."""
    try:
        fingerprint = read_video(file).fingerprint
    except OSError as error:
        raise CourtlogError(
            f"{file.name} cannot be read ({error.strerror}).", "Check its name and place."
        ) from error
    if fingerprint not in known:
        raise UnknownNameError(
            f"{file.name} is no film of {clinic.name} yet.",
            "`courtlog film add FILE` takes it in; --clinic names another clinic.",
        )
    return known[fingerprint]


def _no_ball(film: _FilmFound) -> CourtlogError:
    name, there = film.beside.film.name, film.beside.there()
    still = f" Still there from before, and yours to delete: {listed(there)}." if there else ""
    if film.shown.not_agreed:
        return CourtlogError(
            f"{name} shows no ball of anybody who agreed to be filmed.",
            f"Nothing was written.{still} {ASK_FIRST}",
        )
    return CourtlogError(
        f"{name} shows no ball that was asked for.",
        f"Nothing was written.{still} `courtlog film` says whose balls each film shows.",
    )


def _left_out(found: Sequence[_FilmFound], videos: int) -> Iterator[str]:
    not_agreed = Counter[str]()
    for film in found:
        not_agreed.update(film.shown.not_agreed)
    yield from left_out_words(not_agreed)
    without = max((film.shown.without_moment for film in found), default=0)
    if without and videos == 1:
        has = "has" if without == 1 else "have"
        yield f"{many(without, 'ball')} of that day {has} no moment, such as those from a sheet."
    elif without:
        yield "Balls without a moment, such as those from a sheet, are in none of them."


def _written(film: _FilmFound, to: Path | None) -> Iterator[str]:
    name, names = film.beside.film.name, film.beside.names
    where = "beside it" if to is None else f"in {to}"
    yield f"{many(len(film.shown.balls), 'ball')} of {name} went into five files {where}:"
    width = max(len(file.name) for file in names.values())
    for kind, file in names.items():
        yield f"  {file.name:{width}}  {_USES[kind]}"
    yield KNOWN_BY[film.source]


def _all_written(found: Sequence[_FilmFound], to: Path | None) -> Iterator[str]:
    """A line for each film, then what each of the five files is for."""
    where = "beside it" if to is None else f"in {to}"
    yield f"Balls of each film in five files {where}:"
    width = max(len(film.beside.film.name) for film in found)
    for film in found:
        balls = len(film.shown.balls)
        there = film.beside.there() if not balls else []
        told = many(balls, "ball") if balls else "none that was asked for, nothing written"
        still = f"; still there from before: {listed(there)}" if there else ""
        yield f"  {film.beside.film.name:{width}}  {told}{still}"
    for kind, use in _USES.items():
        yield f"  .{kind:{width}} {use}"
    for source in StartSource:
        of_it = [film for film in found if film.source is source]
        if of_it:
            yield f"{many(len(of_it), 'film')}: {KNOWN_BY[source]}"


def _say(sentences: Iterator[str] | Sequence[str]) -> None:
    for sentence in sentences:
        print(plain(sentence))
