"""Look-ups of balls that were rated twice, and of those that wait for it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from courtlog import times
from courtlog.logbook.file.book import Book

if TYPE_CHECKING:
    # Most books hold no second rating: then nothing of this is loaded at start.
    from courtlog.coaching.answers.rater_agreement import TwiceRatedCue


@dataclass(frozen=True, slots=True, kw_only=True)
class BallToRate:
    """A taken ball to rate once more, without its grades: where to find it, and what to look at."""

    ball_id: int
    """The ball."""
    at_ms: int
    """The moment of its clip mark, else when it was taken, ms UTC."""
    has_clip: bool
    """Whether the moment is that of a clip mark."""
    day: date
    """The round's date."""
    player: str
    """The player's name."""
    drill: str
    """The drill's name."""
    stroke: str
    """The stroke's key."""
    cues: tuple[str, ...]
    """The keys of the cues to look at, in stroke order."""
    rows: tuple[int, ...]
    """The row of each of them in the ball's round."""
    clip: int | None = None
    """Its number on a blind page; None where it is rated by its time."""


def rated_twice(
    book: Book, clinic_id: int | None, stroke: str | None = None
) -> list[TwiceRatedCue]:
    """Every cue of every ball that was rated twice, of one clinic or of all; in stroke order.

    What was rated blind is not among them: `film.rating_doubts.rated_blind` has it, page by page.
    """
    # Most books hold no second rating: then nothing of this is loaded at start.
    from courtlog.coaching.answers.rater_agreement import TwiceRatedCue

    rows = book.db.execute(
        "SELECT ball.id, drill_used.stroke, round_cue.cue, one.name, two.name, sitting,"
        " min(second_rating.at) OVER (PARTITION BY second_rating.coach_id, sitting), zone,"
        " rating.grade, second_rating.grade"
        " FROM second_rating JOIN ball ON ball.id = second_rating.ball_id AND ball.taken"
        " JOIN round ON round.id = ball.round_id JOIN day ON day.id = round.day_id"
        " JOIN clinic ON clinic.id = clinic_id JOIN drill_used ON drill_used.id = drill_id"
        " JOIN round_cue ON round_cue.round_id = round.id AND round_cue.row = second_rating.row"
        " JOIN coach AS one ON one.id = round.coach_id"
        " JOIN coach AS two ON two.id = second_rating.coach_id"
        " LEFT JOIN rating ON rating.ball_id = ball.id AND rating.row = second_rating.row"
        " WHERE (:clinic IS NULL OR clinic.id = :clinic) AND (:stroke IS NULL OR stroke = :stroke)"
        " AND NOT EXISTS (SELECT 1 FROM blind_sitting JOIN blind_ball USING (page_id)"
        "  WHERE blind_sitting.coach_id = second_rating.coach_id"
        "  AND blind_sitting.sitting = second_rating.sitting AND blind_ball.ball_id = ball.id)"
        " ORDER BY stroke, second_rating.row, cue, one.name, two.name, sitting, ball.id",
        {"clinic": clinic_id, "stroke": stroke},
    )
    return [
        TwiceRatedCue(
            ball_id=ball,
            stroke=on,
            cue=cue,
            first=first,
            second=second,
            sitting=sitting,
            on=times.local_date(begun, times.zone(zone)),
            grade=grade,
            again=again,
        )
        for ball, on, cue, first, second, sitting, begun, zone, grade, again in rows
    ]


def balls_to_rate(
    book: Book, clinic_id: int, on: date | None = None, player_id: int | None = None
) -> list[BallToRate]:
    """The clinic's taken balls with a moment, in its order; a clip mark goes before the key's."""
    rows = book.db.execute(
        "SELECT ball.id, coalesce(clip_at, taken_at), clip_at IS NOT NULL, date, player.name,"
        " card ->> '$.drill.name', stroke,"
        " (SELECT group_concat(cue, ' ') FROM (SELECT cue FROM round_cue"
        "   WHERE round_id = round.id ORDER BY row))"
        " FROM day JOIN round ON round.day_id = day.id JOIN player ON player.id = player_id"
        " JOIN drill_used ON drill_used.id = drill_id"
        " JOIN ball ON ball.round_id = round.id AND taken"
        " WHERE clinic_id = :clinic AND coalesce(clip_at, taken_at) IS NOT NULL"
        " AND (:on IS NULL OR date = :on) AND (:player IS NULL OR player_id = :player)"
        " ORDER BY 2, ball.id",
        {"clinic": clinic_id, "on": on.isoformat() if on else None, "player": player_id},
    )
    return [
        BallToRate(
            ball_id=ball,
            at_ms=at,
            has_clip=bool(clip),
            day=date.fromisoformat(day),
            player=player,
            drill=drill,
            stroke=on_stroke,
            cues=tuple((cues or "").split()),
            rows=tuple(range(len((cues or "").split()))),
        )
        for ball, at, clip, day, player, drill, on_stroke, cues in rows
    ]


def last_sitting(book: Book, coach: str) -> int:
    """The number of the coach's last sitting, blind or not; 0 before the first."""
    row = book.db.execute(
        "SELECT max(sitting) FROM (SELECT coach_id, sitting FROM second_rating"
        " UNION SELECT coach_id, sitting FROM blind_sitting)"
        " JOIN coach ON coach.id = coach_id WHERE name = ?",
        [coach],
    ).fetchone()
    return int(row[0] or 0)


def sitting_to_go_on(book: Book, coach: str) -> int:
    """The number of the coach's last sitting that was not blind, else a new one."""
    row = book.db.execute(
        "SELECT max(sitting) FROM second_rating JOIN coach ON coach.id = coach_id WHERE name = ?"
        " AND NOT EXISTS (SELECT 1 FROM blind_sitting WHERE blind_sitting.coach_id = coach.id"
        " AND blind_sitting.sitting = second_rating.sitting)",
        [coach],
    ).fetchone()
    return int(row[0] or last_sitting(book, coach) + 1)


def grades_of_sitting(book: Book, coach: str, sitting: int) -> dict[int, dict[int, int | None]]:
    """The grades of one sitting by ball and row; None means not seen."""
    found: dict[int, dict[int, int | None]] = {}
    for ball, row, grade in book.db.execute(
        "SELECT ball_id, row, grade FROM second_rating JOIN coach ON coach.id = coach_id"
        " WHERE name = ? AND sitting = ?",
        [coach, sitting],
    ):
        found.setdefault(ball, {})[row] = grade
    return found
