"""What `courtlog film add` does: each video is looked at, and its times come into the book."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from courtlog import times
from courtlog.cli.actions.film.given_videos import given_videos, refuse
from courtlog.cli.book_to_write import book_beside
from courtlog.cli.common import chosen_clinic, now, typed_date
from courtlog.cli.output import write_page
from courtlog.coaching.game.court_book import Owner
from courtlog.coaching.game.people import Clinic
from courtlog.errors import CourtlogError
from courtlog.film import film_start
from courtlog.film.film_start import FilmStart, HeaderTime, StartSource
from courtlog.film.video_times import VideoTimes, read_video
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.courts.court_groups import court_book
from courtlog.logbook.reads.film.ball_moments import BallFilter, balls_in_time
from courtlog.logbook.reads.film.ball_words import court_called
from courtlog.logbook.reads.film.films import Film, clip_marks, courts_open, films
from courtlog.logbook.writes.film import film_writer
from courtlog.plain_text import listed, plain
from courtlog.reports.facts.film_facts import films_shown
from courtlog.reports.pages.film_text import added_text


@dataclass(frozen=True, slots=True)
class Sight:
    """What a film shows, as typed: at which place the book's clock, or a clip mark of that time."""

    at: str | None = None
    shows: str | None = None
    mark: str | None = None
    on: str | None = None
    header: HeaderTime | None = None
    court: str | None = None

    @property
    def is_given(self) -> bool:
        """Whether one film's start is told by what it shows."""
        return (self.at, self.shows, self.mark) != (None, None, None)


def sight(
    *,
    at: str | None,
    shows: str | None,
    mark: str | None,
    on: str | None,
    time: str | None,
    court: str | None,
) -> Sight:
    """What was typed. Raises CourtlogError for a --time that is neither start nor end."""
    if time not in (None, *HeaderTime):
        raise CourtlogError(
            f"The file's own time is its start or its end, not {time!r}.",
            "Write --time start or --time end.",
        )
    return Sight(at, shows, mark, on, None if time is None else HeaderTime(time), court)


def add_films(path: Path | None, clinic: str | None, files: Sequence[Path], sight: Sight) -> None:
    """Take in every video that covers a ball; the others are told, a sentence each."""
    found = given_videos(files)
    if sight.is_given and len(found) > 1:
        raise CourtlogError("Each film shows another moment.", "With --at name one file.")
    refused: list[tuple[Path, CourtlogError]] = []
    with book_beside(path) as book:
        here = chosen_clinic(book, clinic)
        added = []
        for file in found:
            try:
                added.append(_FilmDoor(book, here, sight, len(found) == 1).take_in(file))
            except CourtlogError as error:
                refused.append((file, error))
        names = {film.fingerprint: film for film in added if film is not None}
        if names:
            facts = films_shown(book, here, list(names.values()))
            write_page(added_text(facts))
    if refused:
        refuse(refused, len(found), "did not come in")


def _name(file: Path) -> str:
    """The file's name as a book can hold it: bytes that are no text become signs for them."""
    return file.name.encode("utf-8", "surrogateescape").decode("utf-8", "replace")


@dataclass(frozen=True, slots=True)
class _FilmDoor:
    """Takes films into one clinic of a book."""

    book: Book
    clinic: Clinic
    sight: Sight
    alone: bool
    """Whether one film was named: of many, those that the book has keep their court."""

    def take_in(self, file: Path) -> Film | None:
        """The film as the book has it now; None where it is there already, which is printed.

        Raises CourtlogError.
        """
        name = _name(file)
        try:
            video = read_video(file)
        except OSError as error:
            raise CourtlogError(
                f"{name} cannot be read ({error.strerror}).", "Check its name and place."
            ) from error
        known = self._known(video)
        sight = self.sight
        same_start = known is not None and not sight.is_given and sight.header is None
        if known is not None and same_start and not self._says_court(known):
            under = "" if known.name == name else f", as {known.name}"
            of = "" if sight.court is None else f", of court {known.court}"
            print(plain(f"{name} is in the book already{under}{of}."))
            return None
        if known is not None and same_start:
            start = FilmStart(known.began_ms, known.source)
        else:
            start = self._start(name, video)
        court = self._shown_court(name, video, start, None if known is None else known.court)
        with self.book.writing():
            if known is None:
                film_writer.add_film(self.book, self.clinic.id, name, video, start, court, now())
            else:
                film_writer.change_start(self.book, self.clinic.id, video.fingerprint, start)
                if court != known.court:
                    film_writer.say_court(self.book, known.id, court, now())
        return self._known(video)

    def _says_court(self, known: Film) -> bool:
        """Whether what was typed says which court this known film shows."""
        return self.sight.court is not None and (self.alone or known.court is None)

    def _shown_court(
        self, name: str, video: VideoTimes, start: FilmStart, before: str | None
    ) -> str:
        """The court of the film: as typed, else as known before, else the only one it can be.

        Raises CourtlogError where it may be several, or shows no ball.
        """
        typed = self.sight.court
        if typed is not None:
            court = court_called(self.book, self.clinic.id, typed)
            self._check_balls(name, video, start, court)
            return court
        self._check_balls(name, video, start)
        end = start.began_ms + video.length_ms
        courts = courts_open(self.book, self.clinic.id, start.began_ms, end)
        own = court_book(self.book)
        if before in courts:
            return str(before)
        if own is not None and own.owner is not Owner.HEAD and own.court in courts:
            return own.court
        if len(courts) > 1:
            raise CourtlogError(
                f"{name} shows one court, and {listed([f'court {one}' for one in courts])} were"
                " open while it ran.",
                f"Write which it is, like --court {courts[0]}.",
            )
        return courts[0]

    def _known(self, video: VideoTimes) -> Film | None:
        every = films(self.book, self.clinic.id)
        return next((film for film in every if film.fingerprint == video.fingerprint), None)

    def _start(self, name: str, video: VideoTimes) -> FilmStart:
        if not self.sight.is_given:
            return film_start.film_start(video, name, self.clinic.place, self.sight.header)
        position, moments, source = self._seen()
        if position > video.length_ms:
            raise CourtlogError(
                f"{name} is only {times.span_words(video.length_ms)} long.",
                "--at is the place in the film that shows it.",
            )
        own = film_start.own_time(video, name, self.clinic.place)
        starts = film_start.start_by_sight(moments, position, source, own)
        if len(starts) > 1:
            starts = [start for start in starts if self._balls(video, start)] or starts[:1]
        if len(starts) > 1:
            raise CourtlogError(
                f"{name} may be of {len(starts)} days, and has no date.", "Write --date too."
            )
        return starts[0]

    def _seen(self) -> tuple[int, list[int], StartSource]:
        """The place in the film, the moments it may show there, and what kind they are."""
        at, shows, mark = self.sight.at, self.sight.shows, self.sight.mark
        if at is None or (shows is None) is (mark is None):
            raise CourtlogError(
                "A start by sight needs a place in the film and what is seen there.",
                "Write --at 0:02 --shows 09:31:07.4, or --at 0:02 --mark 09:31:07.",
            )
        day = typed_date(self.sight.on)
        dates: list[date] = lookups.dates(self.book, self.clinic.id) if day is None else [day]
        try:
            position = film_start.position(at)
            clock = film_start.clock_time(shows or mark or "")
        except ValueError as error:
            raise CourtlogError(f"{error}.", "Nothing was written.") from error
        place = self.clinic.place
        if shows is not None:
            moments = film_start.clock_moments(clock, dates, place)
            return position, moments, StartSource.SLATE
        marks = [
            at_ms
            for at_ms in clip_marks(self.book, self.clinic.id)
            if times.clock_words(at_ms, place) == f"{clock:%H:%M:%S}"
            and (day is None or times.local_date(at_ms, place) == day)
        ]
        if not marks:
            raise CourtlogError(
                f"No clip mark was made at {clock:%H:%M:%S}.", "`courtlog day` lists the marks."
            )
        return position, marks, StartSource.MARK

    def _balls(self, video: VideoTimes, start: FilmStart) -> int:
        end = start.began_ms + video.length_ms
        return len(balls_in_time(self.book, self.clinic, start.began_ms, end).balls)

    def _check_balls(
        self, name: str, video: VideoTimes, start: FilmStart, court: str | None = None
    ) -> None:
        end = start.began_ms + video.length_ms
        wanted = BallFilter(court=court)
        shown = balls_in_time(self.book, self.clinic, start.began_ms, end, wanted)
        if shown.balls:
            return
        place = self.clinic.place
        on = times.date_words(times.local_date(start.began_ms, place))
        clocks = [times.clock_words(at, place) for at in (start.began_ms, end)]
        of = self.clinic.name if court is None else f"court {court}"
        happened = f"{name} shows no ball of {of}: it runs on {on}, {clocks[0]} to"
        raise CourtlogError(
            f"{happened} {clocks[1]}.",
            "Balls from a sheet have no moment, so no film shows them."
            if shown.without_moment
            else "If its clock is wrong, say what it shows: --at 0:02 --shows 09:31:07.4.",
        )
