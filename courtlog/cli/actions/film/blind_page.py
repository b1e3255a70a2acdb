"""What `courtlog film blind` does: clips of both yardsticks in shuffled order, and their page."""

from __future__ import annotations

import os
import secrets
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from courtlog import drafts, finished_steps
from courtlog.cli.actions.film.agreed import check_agreed
from courtlog.cli.book_to_write import book_beside
from courtlog.cli.common import chosen_clinic, now
from courtlog.coaching.answers.ball_history import PastBall
from courtlog.coaching.answers.blind_balls import YardstickSides, shuffled, yardstick_sides
from courtlog.coaching.game.people import Clinic, Player
from courtlog.errors import CourtlogError, UnknownNameError
from courtlog.film.clip import Clip
from courtlog.film.cutting import ALIKE_RATE, cut_alike_clip, find_ffmpeg
from courtlog.film.film_balls import BEFORE_KEY_MS, HIT_BEFORE_KEY_MS
from courtlog.film.film_search import films_in
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.new_folder import new_folder
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.answer_lookups import StrokeHistory, stroke_histories
from courtlog.logbook.reads.film.blind_lookups import blind_pages, cues_of_ball
from courtlog.logbook.reads.film.whole_windows import BallWindow, whole_windows
from courtlog.logbook.writes.film import blind_writer
from courtlog.names import folded_name
from courtlog.plain_text import listed, many, plain
from courtlog.reports.blind.blind_html import GIVES_AWAY, BlindClips, blind_html
from courtlog.times import date_words

PAGE = "clips to rate.html"
_LETTERS = "BCDFGHJKLMNPQRSTVWXZ"
"""No vowels, so that no word comes out."""

_SEEDS = 1 << 31


@dataclass(frozen=True, slots=True)
class _FilmedSides:
    """The balls of both yardsticks that are in full on a film at hand, and where."""

    then: tuple[PastBall, ...]
    now: tuple[PastBall, ...]
    places: dict[int, tuple[Path, BallWindow]]
    """The file and the window of each ball."""
    absent: tuple[str, ...]
    """Films that show further balls and are not in the folder."""


def make_blind_page(
    path: Path | None,
    clinic: str | None,
    name: str,
    films: Path,
    *,
    to: Path | None,
    stroke: str | None,
) -> None:
    """Cut the clips, write the page, and keep in the book which ball is which."""
    with book_beside(path) as book:
        here = chosen_clinic(book, clinic)
        who = lookups.player_on_roster(book, here.id, name)
        check_agreed(book, here, who, f"{who.shown_name} is left out")
        ffmpeg = find_ffmpeg()
        if ffmpeg is None:
            raise CourtlogError(
                "Blind clips need ffmpeg, since a page that points into whole films shows the day.",
                "Install ffmpeg; nothing was written.",
            )
        past, sides = _sides(book, here, who, stroke)
        filmed = _filmed(book, here, who, sides, films)
        code, seed = _new_code(book, here), secrets.randbelow(_SEEDS)
        order = shuffled(filmed.then, filmed.now, seed)
        if not order:
            raise CourtlogError(
                f"Of {who.shown_name}'s two yardsticks {len(filmed.then)} and {len(filmed.now)}"
                f" balls are on films in {films.absolute()}, none of one kind on both days.",
                _next_step(filmed),
            )
        folder = to or Path(f"blind {code}")
        with new_folder(folder, book.path.absolute().parent) as scratch:
            print(f"Cutting {many(len(order), 'clip')} ...", flush=True)
            clips = []
            for number, ball in enumerate(order, 1):
                file, window = filmed.places[ball]
                clip = scratch / f"clip-{number:02}.mp4"
                cut_alike_clip(ffmpeg, file, window.start_ms, window.end_ms, clip)
                clips.append(_clip(clip, window))
            known = {cue.key: cue for cue in cues_of_ball(book, order[0])}
            cues = [known[cue] for cue in sides.cues]
            shown = BlindClips(code=code, cues=cues, clips=clips)
            drafts.write(scratch / PAGE, blind_html(shown))
            _same_date(scratch)
            blind_writer.add_page(
                book, here.id, who.id, past.history.stroke, sides.cues, code, seed, order, now()
            )
            finished_steps.note(f"page {code} is in the book")
    for line in _told(who, sides, filmed, len(order), folder, code):
        print(plain(line))


def _sides(
    book: Book, clinic: Clinic, who: Player, stroke: str | None
) -> tuple[StrokeHistory, YardstickSides]:
    """The stroke that is asked for, else the one with most balls that has two yardsticks."""
    strokes = stroke_histories(book, clinic.id, who.id)
    if stroke is not None:
        keys = listed([past.history.stroke for past in strokes]) or "none yet"
        strokes = [past for past in strokes if past.history.stroke == folded_name(stroke)]
        if not strokes:
            raise UnknownNameError(
                f"{who.shown_name} hit no ball of a stroke called {stroke!r}.",
                f"The strokes so far: {keys}.",
            )
    for past in strokes:
        sides = yardstick_sides(past.history, past.dates, past.cues)
        if sides is not None:
            return past, sides
    raise CourtlogError(
        f"{who.shown_name} has no two yardsticks to compare yet.",
        "Nothing was cut. `courtlog player NAME` says what can be compared.",
    )


def _filmed(
    book: Book, clinic: Clinic, who: Player, sides: YardstickSides, folder: Path
) -> _FilmedSides:
    files = films_in(folder)
    windows = whole_windows(book, clinic, who.id)
    places: dict[int, tuple[Path, BallWindow]] = {}
    absent: dict[str, None] = {}
    for ball in (*sides.then, *sides.now):
        of_ball = windows.get(ball.ball_id, ())
        at_hand = [window for window in of_ball if window.film.fingerprint in files]
        if at_hand:
            places[ball.ball_id] = files[at_hand[0].film.fingerprint], at_hand[0]
        elif of_ball:
            absent[of_ball[0].film.name] = None
    then, late = (
        tuple(ball for ball in side if ball.ball_id in places) for side in (sides.then, sides.now)
    )
    return _FilmedSides(then, late, places, tuple(absent))


def _next_step(filmed: _FilmedSides) -> str:
    if filmed.absent:
        return f"Nothing was cut. Not in this folder: {listed(list(filmed.absent))}."
    return "Nothing was cut. `courtlog film` says whose balls each film shows."


def _new_code(book: Book, clinic: Clinic) -> str:
    """Four letters that no page of the clinic has."""
    taken = {page.code for page in blind_pages(book, clinic.id)}
    while True:
        code = "".join(secrets.choice(_LETTERS) for _ in range(4))
        if code not in taken:
            return code


def _clip(file: Path, window: BallWindow) -> Clip:
    return Clip(
        file=file.name,
        start_ms=0,
        hit_ms=BEFORE_KEY_MS - HIT_BEFORE_KEY_MS,
        end_ms=window.end_ms - window.start_ms,
        frame_ms=1000 / ALIKE_RATE,
        is_cut=True,
        still=None,
    )


def _same_date(folder: Path) -> None:
    """Give all files one date, so that none tells in which order they were cut."""
    at_s = now() // 1000
    for file in folder.iterdir():
        os.utime(file, (at_s, at_s))


def _told(
    who: Player,
    sides: YardstickSides,
    filmed: _FilmedSides,
    clips: int,
    folder: Path,
    code: str,
) -> Iterator[str]:
    then, late = (date_words(day) for day in sides.days)
    half = clips // 2
    yield f"{many(clips, 'clip')} of {who.shown_name}: {half} of {then}, {half} of {late}."
    yield from _left_out(sides, filmed, clips)
    yield f"Open “{PAGE}” in {folder}: it is page {code}, and it has a form to print."
    yield f"By keys: `courtlog agree rate --page {code} --coach NAME`."
    yield f"From paper: `courtlog agree in FILE --page {code} --coach NAME`, lines like 7 212."
    yield from GIVES_AWAY


def _left_out(sides: YardstickSides, filmed: _FilmedSides, clips: int) -> Iterator[str]:
    every = len(sides.then) + len(sides.now)
    at_hand = len(filmed.then) + len(filmed.now)
    if every > at_hand:
        yield (
            f"Of {many(every, 'ball')} {every - at_hand} are on no film in the folder,"
            " or not from 4 s before the key to 1 s after it."
        )
    if filmed.absent:
        yield f"Not in the folder: {listed(list(filmed.absent))}."
    if at_hand > clips:
        yield f"{many(at_hand - clips, 'ball')} left out by lot, so that both days have as many."
    if sides.left_out:
        yield f"Not rated here, since they rest on other days: {listed(list(sides.left_out))}."
