"""Look-ups of single balls for the questions that tallies cannot answer; one player, one clinic."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from courtlog.coaching.answers.ball_history import BallKind, Doubt, History, PastBall
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Purpose
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import main_cue_lookups
from courtlog.logbook.rows.ids import in_time


def strokes_of(book: Book, clinic_id: int, player_id: int) -> list[str]:
    """The player's strokes in this clinic, the one with most balls first."""
    rows = book.db.execute(
        "SELECT stroke FROM tally JOIN day ON day.id = day_id"
        " WHERE player_id = ? AND clinic_id = ?"
        " GROUP BY stroke ORDER BY sum(missed + near + made + unseen) DESC, stroke",
        [player_id, clinic_id],
    )
    return [stroke for (stroke,) in rows]


def history(
    book: Book, clinic_id: int, player_id: int, stroke: str, until: date | None = None
) -> History:
    """The player's taken balls on a stroke in this clinic, oldest first, up to a date."""
    return history_without_ties(book, clinic_id, player_id, stroke, until).with_ties()


def history_without_ties(
    book: Book, clinic_id: int, player_id: int, stroke: str, until: date | None = None
) -> History:
    """The same, but not how far neighbouring balls go alike: enough to say what comes next."""
    rounds = book.db.execute(
        "SELECT round.id, date, purpose, drill_used.name, rung, feed FROM day"
        " JOIN round ON round.day_id = day.id JOIN drill_used ON drill_used.id = drill_id"
        " WHERE clinic_id = :clinic AND player_id = :player AND stroke = :stroke"
        f" AND (:until IS NULL OR date <= :until) ORDER BY date, {in_time('round')}",
        {
            "clinic": clinic_id,
            "player": player_id,
            "stroke": stroke,
            "until": until.isoformat() if until else None,
        },
    ).fetchall()
    balls: list[PastBall] = []
    for round_id, on, purpose, *kind in rounds:
        balls += _balls(book, round_id, date.fromisoformat(on), Purpose(purpose), *kind)
    (days,) = book.db.execute(
        "SELECT planned_days FROM clinic WHERE id = ?", [clinic_id]
    ).fetchone()
    in_doubt = doubts(book, clinic_id, player_id, stroke)
    past = History(stroke, tuple(balls), in_doubt, planned_days=days)
    main = main_cue_lookups.named_main(book, clinic_id, player_id, stroke)
    return replace(past, main=main)


def doubts(book: Book, clinic_id: int, player_id: int, stroke: str) -> dict[str, Doubt]:
    """Cues of a stroke that are not seen the same way twice in this clinic; none costs nothing.

    What was rated blind raises doubts about the page's own player alone.
    """
    if book.db.execute("SELECT 1 FROM second_rating LIMIT 1").fetchone() is None:
        return {}
    # Most books hold no second rating: then nothing of this is loaded at start.
    from courtlog.logbook.reads.film.rating_doubts import rating_doubts

    return rating_doubts(book, clinic_id, player_id, stroke)


def watched_balls(history: History) -> tuple[PastBall, ...]:
    """The balls that say which cues matter: those after choosing, or all before any."""
    taught = history.where(lambda ball: ball.purpose is not Purpose.CHOOSING)
    return taught.balls or history.balls


def _balls(
    book: Book, round_id: int, on: date, purpose: Purpose, drill: str, rung: int, feed: str
) -> list[PastBall]:
    kinds = [BallKind(drill, rung, feed, tough) for tough in (False, True)]
    found: dict[int, PastBall] = {}
    for ball, number, tough, cue, grade in book.db.execute(
        "SELECT ball.id, number, tough, cue, grade FROM ball JOIN round_cue USING (round_id)"
        " LEFT JOIN rating ON ball_id = ball.id AND rating.row = round_cue.row"
        " WHERE round_id = ? AND taken ORDER BY number, round_cue.row",
        [round_id],
    ):
        if number not in found:
            found[number] = PastBall(on, round_id, purpose, kinds[tough], {}, number, ball)
        found[number].grades[cue] = None if grade is None else Grade(grade)
    return list(found.values())
