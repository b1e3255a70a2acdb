"""What `courtlog agree rate --blind` and `courtlog agree in FILE --blind` do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from courtlog.cli.actions.agree import rate_on_screen, rater
from courtlog.cli.actions.sheets import text_of
from courtlog.cli.book_to_write import book_beside
from courtlog.cli.common import chosen_clinic, now
from courtlog.cli.opening import has_terminal
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.rounds import Ball
from courtlog.errors import CourtlogError, LibraryError, Problem
from courtlog.library.second_ratings_in import BlindLine, read_blind
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.film.blind_lookups import BlindPage, clips_to_rate, page_to_rate
from courtlog.logbook.writes import second_rating_writer
from courtlog.logbook.writes.film.blind_writer import blind_sitting
from courtlog.plain_text import listed, many

_NAMED_IN_A_LINE = 8
"""How many clips one sentence names; more are counted."""


def rate_blind(
    path: Path | None,
    clinic: str | None,
    on: str | None,
    player: str | None,
    coach: str | None,
    code: str | None,
    anew: bool,
) -> None:
    """Open the screen that rates the clips of a blind page by their numbers."""
    if not has_terminal():
        raise CourtlogError(
            "Rating needs a terminal.", "`courtlog agree in FILE --blind` takes a text file."
        )
    who = rater(coach)
    with book_beside(path) as book:
        here = chosen_clinic(book, clinic)
        page = _page(book, here, on, player, code)
        balls = clips_to_rate(book, here, page)
        if not balls:
            raise CourtlogError(
                f"The book has no ball of page {page.code} any more.",
                "`courtlog film blind NAME` makes a new page.",
            )
        sitting = blind_sitting(book, page, who, now(), anew)
        done = rate_on_screen(book, here, who, sitting, balls, page.code)
        print(
            f"{many(done, 'clip')} of {len(balls)} rated."
            " `courtlog agree` compares them when all are."
        )


def take_in_blind(
    file: Path,
    path: Path | None,
    clinic: str | None,
    on: str | None,
    player: str | None,
    coach: str | None,
    code: str | None,
) -> None:
    """Read the ratings of a whole blind page from a text file; with any mistake none."""
    lines = read_blind(text_of(file), str(file))
    who = rater(coach)
    with book_beside(path) as book:
        here = chosen_clinic(book, clinic)
        page = _page(book, here, on, player, code)
        tokens = _tokens(lines, page, str(file))
        rows = {ball.ball_id: ball.rows for ball in clips_to_rate(book, here, page)}
        rated = [
            (ball, dict(zip(rows[ball], tokens[number].grades, strict=True)))
            for number, ball in page.numbers.items()
            if ball in rows
        ]
        at_ms = now()
        sitting = blind_sitting(book, page, who, at_ms, anew=True)
        second_rating_writer.rate_balls(book, who, sitting, rated, at_ms)
    print(f"{many(len(rated), 'clip')} of page {page.code} rated. `courtlog agree` compares them.")


def _page(
    book: Book, clinic: Clinic, on: str | None, player: str | None, code: str | None
) -> BlindPage:
    if on is not None:
        raise CourtlogError(
            "A blind page has clips of two days, and hides them.", "Leave the date out."
        )
    player_id = None if player is None else lookups.player_on_roster(book, clinic.id, player).id
    return page_to_rate(book, clinic.id, player_id, code)


def _tokens(lines: Sequence[BlindLine], page: BlindPage, file: str) -> dict[int, Ball]:
    """The ball of each clip, by its number. Raises LibraryError with every mistake."""
    tokens: dict[int, Ball] = {}
    problems = []
    for line in lines:
        try:
            if line.clip not in page.numbers:
                raise ValueError(f"page {page.code} has clips 1 to {len(page.numbers)}")
            if line.clip in tokens:
                raise ValueError(f"clip {line.clip} stands in the file twice")
            tokens[line.clip] = Ball.from_token(line.token, len(page.cues))
        except ValueError as error:
            problems.append(Problem(file, str(line.number), f"{error}."))
    if not problems:
        problems = [Problem(file, "", sentence) for sentence in _missing(tokens, page)]
    if problems:
        raise LibraryError(
            "The file has mistakes; nothing was written.", problems, "Mend them and read it again."
        )
    return tokens


def _missing(tokens: dict[int, Ball], page: BlindPage) -> Iterator[str]:
    missing = [str(number) for number in page.numbers if number not in tokens]
    if missing:
        named = missing[:_NAMED_IN_A_LINE]
        more = len(missing) - len(named)
        names = listed([*named, f"{more} more"] if more else named)
        dashes = "-" * len(page.cues)
        yield f"Not rated: clip {names}. A clip on which nothing is to be seen is {dashes}."
