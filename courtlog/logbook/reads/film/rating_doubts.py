"""Which cues are in doubt for a player, since the same balls were rated two ways."""

from __future__ import annotations

from courtlog.coaching.answers.ball_history import Doubt
from courtlog.coaching.answers.rater_agreement import TwiceRatedCue, agreements, doubts_of
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups, second_rating_lookups
from courtlog.logbook.reads.film.blind_lookups import (
    BlindReading,
    blind_readings,
    coaches_on_court,
)
from courtlog.plain_text import listed


def rating_doubts(book: Book, clinic_id: int, player_id: int, stroke: str) -> dict[str, Doubt]:
    """Cues of a stroke on whose grades no verdict on this player stands.

    Balls that a coach rated again by their times tell of a cue, whoever hit them. A blind page is
    of one player's clips and may be rated by anybody, so it tells of that player alone. It tells
    nothing before it is rated whole.
    """
    told = agreements(second_rating_lookups.rated_twice(book, clinic_id, stroke))
    for reading in blind_readings(book, lookups.clinic(book, clinic_id), player_id):
        if reading.page.stroke == stroke and reading.is_whole:
            told += agreements(rated_blind(book, reading))
    return doubts_of(told)


def rated_blind(book: Book, reading: BlindReading) -> list[TwiceRatedCue]:
    """Every cue of the page's balls as rated on court and blind, by cue; all coaches as one."""
    coaches = listed(coaches_on_court(book, reading.page))
    rows = book.db.execute(
        "SELECT ball.id, cue, grade FROM blind_ball JOIN ball ON ball.id = blind_ball.ball_id"
        " JOIN round_cue USING (round_id)"
        " LEFT JOIN rating ON rating.ball_id = ball.id AND rating.row = round_cue.row"
        " WHERE page_id = ? AND taken ORDER BY round_cue.row, cue, ball.id",
        [reading.page.id],
    )
    return [
        TwiceRatedCue(
            ball_id=ball,
            stroke=reading.page.stroke,
            cue=cue,
            first=coaches,
            second=reading.rater,
            sitting=1,
            on=reading.on,
            grade=grade,
            again=reading.grades[ball][cue],
        )
        for ball, cue, grade in rows
        if cue in reading.grades.get(ball, {})
    ]
