"""What `courtlog agree` and its subcommands do: compare, rate by keys, read from a file."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from courtlog import locations, times
from courtlog import settings as settings_file
from courtlog.cli import failures
from courtlog.cli.actions.sheets import text_of
from courtlog.cli.book_to_write import book_beside
from courtlog.cli.common import chosen_clinic, existing_book, now, typed_date
from courtlog.cli.opening import has_terminal
from courtlog.cli.output import Form, write
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.rounds import Ball
from courtlog.errors import CourtlogError, LibraryError, Problem
from courtlog.library.second_ratings_in import SecondLine, read_seconds
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups, second_rating_lookups
from courtlog.logbook.reads.second_rating_lookups import BallToRate
from courtlog.logbook.writes import second_rating_writer
from courtlog.names import folded_name
from courtlog.plain_text import many
from courtlog.reports import facts, pages


def print_agreement(path: Path | None, clinic: str | None, as_json: bool) -> None:
    """Print how alike balls were rated twice, as text or JSON."""
    with existing_book(path) as book:
        compared = facts.agree_facts.agree_facts(book, chosen_clinic(book, clinic))
        write(
            compared,
            lambda: pages.agree_text.agree_text(compared),
            Form.JSON if as_json else Form.PAGE,
        )


def rate_again(
    path: Path | None,
    clinic: str | None,
    on: str | None,
    player: str | None,
    coach: str | None,
    new_sitting: bool,
) -> None:
    """Open the screen that rates clip-marked balls again, with their first grades hidden."""
    if not has_terminal():
        raise CourtlogError(
            "Rating needs a terminal.", "`courtlog agree in FILE` takes a text file instead."
        )
    who = rater(coach)
    with book_beside(path) as book:
        here = chosen_clinic(book, clinic)
        player_id = None if player is None else lookups.player_on_roster(book, here.id, player).id
        balls = [
            ball
            for ball in second_rating_lookups.balls_to_rate(
                book, here.id, typed_date(on), player_id
            )
            if ball.has_clip
        ]
        if not balls:
            raise CourtlogError(
                "No such ball has a clip mark.", "On court, a marks the time of a ball."
            )
        go_on = second_rating_lookups.sitting_to_go_on(book, who)
        last = second_rating_lookups.last_sitting(book, who)
        done = rate_on_screen(book, here, who, last + 1 if new_sitting else go_on, balls)
        print(f"{many(done, 'ball')} of {len(balls)} rated. `courtlog agree` compares them.")


def rate_on_screen(
    book: Book,
    clinic: Clinic,
    who: str,
    sitting: int,
    balls: Sequence[BallToRate],
    page: str = "",
) -> int:
    """Show the screen that rates these balls, of that blind page if any; how many are rated."""
    # The comparison is printed without a screen, and does not load one.
    from courtlog.courtside.app.second_look_app import RatingSession, SecondLookApp

    settings = settings_file.read(locations.settings())
    session = RatingSession(book, clinic, who, sitting, balls, now, page)
    failures.run_once(SecondLookApp(session, settings))
    return session.done


def take_in(
    file: Path,
    path: Path | None,
    clinic: str | None,
    on: str | None,
    player: str | None,
    coach: str | None,
) -> None:
    """Read second ratings from a text file: all of them, or (with any mistake) none."""
    lines = read_seconds(text_of(file), str(file))
    who = rater(coach)
    with book_beside(path) as book:
        here = chosen_clinic(book, clinic)
        days = lookups.dates(book, here.id)
        day = typed_date(on) or (days[-1] if days else None)
        player_id = None if player is None else lookups.player_on_roster(book, here.id, player).id
        balls = second_rating_lookups.balls_to_rate(book, here.id, day, player_id)
        found = _balls_of(lines, balls, here, str(file))
        second_rating_writer.rate_balls(
            book,
            who,
            second_rating_lookups.last_sitting(book, who) + 1,
            [(ball.ball_id, dict(enumerate(grades.grades))) for ball, grades in found],
            now(),
        )
    print(f"{many(len(found), 'ball')} rated once more. `courtlog agree` compares them.")


def rater(coach: str | None) -> str:
    """Who rates: as named, else the coach of the settings. Raises CourtlogError without either."""
    name = (coach or settings_file.read(locations.settings()).coach).strip()
    if not name:
        raise CourtlogError("Who rates?", "Write --coach and a name.")
    return name


def _balls_of(
    lines: Sequence[SecondLine], balls: Sequence[BallToRate], clinic: Clinic, file: str
) -> list[tuple[BallToRate, Ball]]:
    """The ball of each line, by its clip mark or the second in which it was taken."""
    found: dict[int, tuple[BallToRate, Ball]] = {}
    problems = []
    for line in lines:
        try:
            ball = _ball_of(line, balls, clinic)
            if ball.ball_id in found:
                raise ValueError("this ball stands in the file twice")
            found[ball.ball_id] = ball, Ball.from_token(line.token, len(ball.cues))
        except ValueError as error:
            problems.append(Problem(file, str(line.number), f"{error}."))
    if problems:
        raise LibraryError(
            "The file has mistakes; nothing was written.", problems, "Mend them and read it again."
        )
    if not found:
        raise CourtlogError("The file has no ball.", "A line is like 09:31:07 Maren 212.")
    return list(found.values())


def _ball_of(line: SecondLine, balls: Sequence[BallToRate], clinic: Clinic) -> BallToRate:
    clock = line.clock.strftime("%H:%M:%S")
    fitting = [
        ball
        for ball in balls
        if folded_name(ball.player) == folded_name(line.player)
        and times.clock_words(ball.at_ms, clinic.place) == clock
    ]
    if len(fitting) == 1:
        return fitting[0]
    if fitting:
        raise ValueError(f"{len(fitting)} balls of {line.player} were taken at {clock}")
    raise ValueError(f"no ball of {line.player} was marked or taken at {clock}")
