"""What `courtlog film hit` does: the book remembers where in its clips the ball is hit."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from courtlog import times
from courtlog.cli.book_to_write import book_beside
from courtlog.cli.common import chosen_clinic
from courtlog.coaching.game.people import Clinic
from courtlog.errors import CourtlogError, UnknownNameError
from courtlog.film.video_times import read_video
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.film.ball_moments import BallFilter, TimedBall, balls_in_time
from courtlog.logbook.reads.film.film_names import film_called
from courtlog.logbook.reads.film.films import Film, films
from courtlog.logbook.writes.film import film_writer
from courtlog.plain_text import plain

FARTHEST_MS = 5000
"""A key that comes longer after its hit is not of that hit."""

_SECONDS = re.compile(r"(\d{1,5})(?:[.,](\d{1,3}))?")
_CLOCK = re.compile(r"\d{1,2}:\d\d:\d\d(?:[.,]\d)?")


def move(
    path: Path | None,
    clinic: str | None,
    film: str,
    later: str | None,
    earlier: str | None,
    player: str | None,
    at: str | None,
) -> None:
    """Move the hit in all clips of a film, or in one ball's clip. Raises CourtlogError."""
    hit_ms = _moved(later, earlier)
    if (player is None) is not (at is None):
        raise CourtlogError(
            "One ball needs its player and its time.",
            "Write both, like --player Maren --at 09:31:07, or none for all clips of the film.",
        )
    with book_beside(path) as book:
        here = chosen_clinic(book, clinic)
        chosen = _film(book, here, film)
        if player is None or at is None:
            film_writer.move_hits(book, chosen.id, hit_ms)
            lines = list(_all_moved(chosen, hit_ms))
        else:
            ball = _ball(book, here, chosen, player, at)
            film_writer.move_hit(book, chosen.id, ball.ball_id, hit_ms)
            clock = times.clock_words(ball.first_key_at, here.place)
            lines = list(_one_moved(chosen, ball, clock, hit_ms))
    for line in lines:
        print(plain(line))


def seconds_words(milliseconds: int) -> str:
    """`0.3 s later`, `1 s earlier`; never of 0."""
    return f"{abs(milliseconds) / 1000:g} s {'later' if milliseconds > 0 else 'earlier'}"


def _moved(later: str | None, earlier: str | None) -> int:
    """By how many milliseconds the hit is moved."""
    typed = later if earlier is None else earlier
    if typed is None or (later is not None and earlier is not None):
        raise CourtlogError(
            "The hit is moved one way.", "Write --later 0.3 or --earlier 0.3; 0 takes it back."
        )
    match = _SECONDS.fullmatch(typed.strip()) if typed.isascii() else None
    if match is None:
        raise CourtlogError(f"{typed!r} is no number of seconds.", "Write one like 0.3.")
    moved = int(match[1]) * 1000 + int((match[2] or "").ljust(3, "0"))
    if moved > FARTHEST_MS:
        raise CourtlogError(
            f"A hit is moved by {FARTHEST_MS // 1000} seconds at most.",
            "Where a whole film is further off, its start is wrong:"
            " `courtlog film add FILE --at 0:02 --shows 09:31:07.4` says it.",
        )
    return moved if earlier is None else -moved


def _film(book: Book, clinic: Clinic, typed: str) -> Film:
    """The film by its name; of several by the file that is there."""
    known = films(book, clinic.id)
    try:
        return film_called(known, clinic.name, typed)
    except UnknownNameError:
        try:
            fingerprint = read_video(Path(typed)).fingerprint
        except (OSError, CourtlogError):
            fingerprint = ""
        same = [film for film in known if fingerprint and film.fingerprint == fingerprint]
        if not same:
            raise
        return same[0]


def _ball(book: Book, clinic: Clinic, film: Film, player: str, at: str) -> TimedBall:
    """The player's ball whose first key came at that time, on that film."""
    who = lookups.player_on_roster(book, clinic.id, player)
    typed = at.strip().replace(",", ".")
    typed = f"0{typed}" if typed[1:2] == ":" else typed
    if not (at.isascii() and _CLOCK.fullmatch(typed)):
        raise CourtlogError(f"{at!r} is no time of day.", "Write it like 09:31:07.")
    wanted = BallFilter(player_id=who.id, court=film.court)
    balls = balls_in_time(book, clinic, film.began_ms, film.ended_ms, wanted).balls
    fits = [
        ball
        for ball in balls
        if times.tenth_words(ball.first_key_at, clinic.place).startswith(typed)
    ]
    if len(fits) == 1:
        return fits[0]
    if fits:
        clocks = " and ".join(times.tenth_words(ball.first_key_at, clinic.place) for ball in fits)
        raise CourtlogError(
            f"{len(fits)} balls of {who.shown_name} were rated then: {clocks}.",
            "Write the tenth of a second too.",
        )
    raise CourtlogError(
        f"{film.name} shows no ball of {who.shown_name} that was rated at {at}.",
        _nearest(balls, clinic, typed)
        or f"It shows no ball of {who.shown_name} at all; `courtlog film` says whose it shows.",
    )


def _nearest(balls: Sequence[TimedBall], clinic: Clinic, typed: str) -> str:
    clocks = sorted({times.tenth_words(ball.first_key_at, clinic.place) for ball in balls})
    before = [clock for clock in clocks if clock < typed][-1:]
    after = [clock for clock in clocks if clock > typed][:1]
    near = " and ".join(clock[:8] for clock in before + after)
    return f"The nearest: {near}." if near else ""


def _all_moved(film: Film, hit_ms: int) -> Iterator[str]:
    rule = "two seconds before its first key"
    if hit_ms:
        yield f"In {film.name} a ball's hit is now {seconds_words(hit_ms)} than {rule}."
    else:
        yield f"In {film.name} a ball's hit is {rule} again."
    yield from _next(hit_ms)


def _one_moved(film: Film, ball: TimedBall, clock: str, hit_ms: int) -> Iterator[str]:
    whose = f"{ball.player}'s ball of {clock}"
    if hit_ms:
        far = seconds_words(hit_ms)
        yield f"The hit of {whose} is now {far} than the other hits of {film.name}."
    else:
        yield f"The hit of {whose} is where the other hits of {film.name} are again."
    yield from _next(hit_ms)


def _next(hit_ms: int) -> Iterator[str]:
    if hit_ms:
        yield "The same with --later 0 takes it back."
    yield "Chapters and pairs follow once they are written again."
