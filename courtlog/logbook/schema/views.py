"""The book's own questions as SQL views: read-only, with words instead of ids, for any SQL reader.

A view keeps its columns: one that has shipped gets new ones at its end, never others.
"""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass

from courtlog.coaching.game.grades import LOOKS


@dataclass(frozen=True, slots=True)
class View:
    """A question that the book answers: one row is what `about` says."""

    name: str
    about: str
    columns: tuple[tuple[str, str], ...]
    source: str
    """The SELECT's values in the order of the columns, then FROM and the rest."""

    @property
    def sql(self) -> str:
        """The statement that makes the view."""
        names = ", ".join(name for name, _ in self.columns)
        return f"CREATE VIEW {self.name} ({names}) AS SELECT {self.source}"


def _iso(column: str) -> str:
    return f"strftime('%Y-%m-%dT%H:%M:%fZ', {column} / 1000.0, 'unixepoch')"


_GRADE = " ".join(
    f"WHEN {int(grade)} THEN '{look.word}'" for grade, look in LOOKS.items() if grade is not None
)
_ROUND = (
    "round JOIN day ON day.id = round.day_id JOIN clinic ON clinic.id = day.clinic_id"
    " JOIN player ON player.id = round.player_id JOIN coach ON coach.id = round.coach_id"
    " JOIN drill_used ON drill_used.id = round.drill_id"
)
_WHERE_AND_WHO = (
    ("clinic", "the clinic's name"),
    ("date", "the day, as 2026-05-12"),
    ("court", "the court's name"),
    ("player", "the player's name"),
    ("player_id", "the same person has the same number in every clinic"),
)
_WHAT = (
    ("stroke", "the stroke's key"),
    ("drill", "the drill's full name"),
    ("rung", "the drill's rung on the stroke's ladder"),
    ("feed", "how the ball comes"),
    ("purpose", "choosing, yardstick, practice, hold or transfer"),
    ("round_id", "the round"),
)
_WHERE_SQL = "clinic.name, day.date, day.court, player.name, player.id"
_WHAT_SQL = (
    "drill_used.stroke, drill_used.name, drill_used.rung, drill_used.feed, round.purpose, round.id"
)
_COUNTS = (
    ("missed", "balls on which it was missed"),
    ("near", "balls on which it was near"),
    ("made", "balls on which it was made"),
    ("not_seen", "balls on which nobody saw it"),
)

VIEWS = (
    View(
        "balls_taken",
        "a ball that was taken",
        (
            *_WHERE_AND_WHO,
            *_WHAT,
            ("ball_id", "the ball"),
            ("number", "its place in the round, from 1"),
            ("tough", "1 for a tough ball, else 0"),
            ("taken_at", "when, in UTC; empty for balls from a sheet"),
            ("clip_at", "the moment of its clip mark, in UTC"),
        ),
        f"{_WHERE_SQL}, {_WHAT_SQL}, ball.id, ball.number, ball.tough,"
        f" {_iso('ball.taken_at')}, {_iso('ball.clip_at')}"
        f" FROM {_ROUND} JOIN ball ON ball.round_id = round.id AND ball.taken",
    ),
    View(
        "cues_seen",
        "a cue in view on a ball that was taken; not seen is never missed",
        (
            *_WHERE_AND_WHO,
            *_WHAT,
            ("ball_id", "the ball"),
            ("number", "its place in the round, from 1"),
            ("tough", "1 for a tough ball, else 0"),
            ("cue", "the cue's key"),
            ("grade", "0 missed, 1 near, 2 made; empty when not seen"),
            ("word", "the grade in a word"),
        ),
        f"{_WHERE_SQL}, {_WHAT_SQL}, ball.id, ball.number, ball.tough, round_cue.cue,"
        f" rating.grade, CASE rating.grade {_GRADE} ELSE '{LOOKS[None].word}' END"
        f" FROM {_ROUND} JOIN ball ON ball.round_id = round.id AND ball.taken"
        " JOIN round_cue ON round_cue.round_id = round.id"
        " LEFT JOIN rating ON rating.ball_id = ball.id AND rating.row = round_cue.row",
    ),
    View(
        "rounds_played",
        "a round with at least one ball",
        (
            *_WHERE_AND_WHO,
            *_WHAT,
            ("coach", "the coach's name"),
            ("place", "its place on the day and court, from 1"),
            ("balls", "balls taken"),
            ("tough", "tough balls among them"),
            ("minutes", "from start to end without pauses; empty when nobody noted the times"),
        ),
        f"{_WHERE_SQL}, {_WHAT_SQL}, coach.name, round.place, count(*), sum(ball.tough),"
        " max(0, coalesce(round.ended_at, max(ball.taken_at)) - round.started_at"
        " - round.paused_ms) / 60000.0"
        f" FROM {_ROUND} JOIN ball ON ball.round_id = round.id AND ball.taken GROUP BY round.id",
    ),
    View(
        "cue_by_day",
        "a player's cue on a date, all drills and purposes together",
        (*_WHERE_AND_WHO[:2], *_WHERE_AND_WHO[3:], *_WHAT[:1], ("cue", "the cue's key"), *_COUNTS),
        "clinic.name, day.date, player.name, player.id, tally.stroke, tally.cue,"
        " sum(missed), sum(near), sum(made), sum(unseen)"
        " FROM tally JOIN day ON day.id = tally.day_id JOIN clinic ON clinic.id = day.clinic_id"
        " JOIN player ON player.id = tally.player_id"
        " GROUP BY clinic.id, day.date, player.id, tally.stroke, tally.cue"
        " HAVING sum(missed + near + made + unseen) > 0",
    ),
    View(
        "check_ins_said",
        "what a player said of arm and effort",
        (
            *_WHERE_AND_WHO,
            ("moment", "arrival, break, end or morning"),
            ("pain", "0 to 10"),
            ("place", "where it hurts"),
            ("effort", "0 to 10"),
            ("minutes", "how long the player was on court"),
            ("note", "the player's or coach's words"),
            ("at", "when, in UTC"),
            ("round_id", "the round after which it was said, if one"),
        ),
        f"{_WHERE_SQL}, check_in.moment, check_in.pain, check_in.place, check_in.effort,"
        f" check_in.minutes, check_in.note, {_iso('check_in.at')}, check_in.round_id"
        " FROM check_in JOIN day ON day.id = check_in.day_id"
        " JOIN clinic ON clinic.id = day.clinic_id JOIN player ON player.id = check_in.player_id",
    ),
)


def create(db: sqlite3.Connection) -> None:
    """Make every view."""
    for view in VIEWS:
        db.execute(view.sql)
