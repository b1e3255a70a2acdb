"""Blind readings of the players of a drawn clinic: alike, by luck, and begun."""

from __future__ import annotations

from random import Random

from courtlog.coaching.answers.blind_balls import shuffled, yardstick_sides
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.people import Clinic
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.answer_lookups import stroke_histories
from courtlog.logbook.reads.film.blind_lookups import blind_pages, clips_to_rate
from courtlog.logbook.writes import second_rating_writer
from courtlog.logbook.writes.film import blind_writer
from tests.pages.drawn_books import NOW

RATER = "Omar"


def rate_blind(book: Book, here: Clinic) -> int:
    """Rate the yardsticks of all who have two, each player in another way; returns how many.

    The first rater sees every eighth grade otherwise, of the second player goes by luck, and of
    the third has rated half. Of the fourth a coach of the court rates again.
    """
    luck, pages = Random(7), 0
    for player in lookups.players(book, here.id):
        for past in stroke_histories(book, here.id, player.id):
            sides = yardstick_sides(past.history, past.dates, past.cues)
            if sides is None:
                continue
            order = shuffled(sides.then, sides.now, 7)
            known = {ball.ball_id: ball.grades for ball in (*sides.then, *sides.now)}
            stroke, code = past.history.stroke, f"B{'CDFGH'[pages % 5]}KR"
            blind_writer.add_page(book, here.id, player.id, stroke, sides.cues, code, 7, order, NOW)
            page = blind_pages(book, here.id)[-1]
            clips = clips_to_rate(book, here, page)
            rater = coach_of(book) if pages % 4 == 3 else RATER
            sitting = blind_writer.blind_sitting(book, page, rater, NOW, anew=False)
            by_luck, part = pages % 4 == 1, len(clips) // (2 if pages % 4 == 2 else 1)
            for clip in clips[:part]:
                grades: dict[int, int | None] = {}
                for row, cue in zip(clip.rows, clip.cues, strict=True):
                    other = by_luck or luck.random() < 1 / 8
                    grades[row] = luck.choice([*Grade]) if other else known[clip.ball_id][cue]
                second_rating_writer.rate_ball(book, rater, sitting, clip.ball_id, grades, NOW)
            pages += 1
    return pages


def coach_of(book: Book) -> str:
    """A coach of the court."""
    (name,) = book.db.execute(
        "SELECT name FROM coach JOIN round ON round.coach_id = coach.id LIMIT 1"
    ).fetchone()
    return str(name)
