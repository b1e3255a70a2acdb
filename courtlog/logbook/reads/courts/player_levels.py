"""How far each player is, as far as the balls tell, for dealing courts of equal strength."""

from __future__ import annotations

from datetime import date

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.court_dealing import Level
from courtlog.coaching.plans.day_plan import where_left
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.answer_lookups import stroke_histories
from courtlog.logbook.reads.player_progress import main_stroke


def player_levels(book: Book, clinic_id: int, until: date) -> dict[int, Level]:
    """The rung each player was left on at their main stroke, and the grades made on that drill.

    By player id; whoever has no ball of the clinic is left out. All cues count alike, over the
    balls of the last day the drill was hit.
    """
    found: dict[int, Level] = {}
    for player in lookups.players(book, clinic_id):
        main = main_stroke(stroke_histories(book, clinic_id, player.id, until))
        left = where_left(main.history) if main else None
        if main is None or left is None:
            continue
        balls = main.history.where(lambda ball, drill=left.drill: ball.kind.drill == drill)  # type: ignore[misc]
        practice = balls.of(Purpose.PRACTICE)
        balls = practice if practice.balls else balls
        last = balls.on(balls.days[-1]).balls
        seen = [grade for ball in last for grade in ball.grades.values() if grade is not None]
        found[player.id] = Level(left.rung, seen.count(Grade.MADE), len(seen))
    return found
