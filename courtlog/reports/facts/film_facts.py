"""The clinic's films as facts: when each one runs, how that is known, and whose balls it shows."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from courtlog import times
from courtlog.coaching.game.people import Clinic
from courtlog.film.film_start import StartSource
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.film.ball_moments import BallsInTime, timed_balls
from courtlog.logbook.reads.film.filming_consent import NotAgreed, filming_consent
from courtlog.logbook.reads.film.films import Film, courts_open, films


@dataclass(frozen=True, kw_only=True)
class FilmedPlayer:
    """A player whose balls a film shows, on one court."""

    player: str
    """The name as the clinic shows it."""
    court: str
    """The court of these balls."""
    balls: int
    """How many of the player's balls lie in the film."""


@dataclass(frozen=True, kw_only=True)
class FilmFacts:
    """One film: when it runs by the clinic's clock, and what of the book it shows."""

    name: str
    """The file's name."""
    began: datetime
    """Its start, in the clinic's zone."""
    ended: datetime
    """Its end."""
    length_ms: int
    """Its length in milliseconds."""
    source: StartSource
    """How the start is known."""
    to_the_tenth: bool
    """Whether the start is known to a tenth of a second; else it may be seconds off."""
    court: str | None
    """The court that it shows; None where nobody has said and several were open."""
    courts: tuple[str, ...]
    """The courts that were open while it ran."""
    players: tuple[FilmedPlayer, ...]
    """Whose balls it shows, in the order of the roster."""
    balls: int
    """All balls that it shows."""
    without_moment: int
    """Balls of the same dates from a sheet: nobody knows when they were hit."""


@dataclass(frozen=True, kw_only=True)
class FilmList:
    """All films of a clinic, and who of those in them has not agreed."""

    clinic: str
    """The clinic's name."""
    films: tuple[FilmFacts, ...]
    """The films by their start."""
    not_agreed: tuple[NotAgreed, ...]
    """Players in these films who have not agreed to be filmed."""


_EXACT = {StartSource.SLATE}


def film_list(book: Book, clinic: Clinic) -> FilmList:
    """The clinic's films."""
    return films_shown(book, clinic, films(book, clinic.id))


def films_shown(book: Book, clinic: Clinic, chosen: Sequence[Film]) -> FilmList:
    """Facts about these films alone."""
    begin = min((film.began_ms for film in chosen), default=0)
    end = max((film.ended_ms for film in chosen), default=0)
    balls = timed_balls(book, clinic, begin, end)
    facts = tuple(
        _film_facts(
            clinic,
            film,
            balls.within(film.began_ms, film.ended_ms, film.court),
            courts_open(book, clinic.id, film.began_ms, film.ended_ms),
        )
        for film in chosen
    )
    seen = {filmed.player for film in facts for filmed in film.players}
    consent = filming_consent(book, clinic.id)
    return FilmList(
        clinic=clinic.name,
        films=facts,
        not_agreed=tuple(one for one in consent.not_agreed.values() if one.player in seen),
    )


def _film_facts(clinic: Clinic, film: Film, shown: BallsInTime, courts: Sequence[str]) -> FilmFacts:
    counts = Counter((ball.court, ball.player) for ball in shown.balls)
    return FilmFacts(
        name=film.name,
        began=times.local(film.began_ms, clinic.place),
        ended=times.local(film.ended_ms, clinic.place),
        length_ms=film.length_ms,
        source=film.source,
        to_the_tenth=film.source in _EXACT,
        court=film.court,
        courts=tuple(courts),
        players=tuple(
            FilmedPlayer(player=name, court=court, balls=count)
            for (court, name), count in counts.items()
        ),
        balls=len(shown.balls),
        without_moment=shown.without_moment,
    )
