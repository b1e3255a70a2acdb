"""Putting right what went to the wrong place; the balls, their notes and their journal go along."""

from __future__ import annotations

from courtlog.errors import BookError
from courtlog.logbook import tallies
from courtlog.logbook.feed_rows import FEED_COLUMNS, feed_values, feeds_of
from courtlog.logbook.opening import Book
from courtlog.logbook.rows import insert, leave_round, next_place


def move_balls(book: Book, player: int, count: int, at: int) -> int:
    """Give the last `count` taken balls of the round on court, and the open one, to a player.

    They become a round of their own with the same drill, purpose, cues and feeds (begun where
    these balls were fed); that round is then on court, and taking back goes on through the moved
    balls. Where every second ball is rated they move by twos. Returns the round's id.
    """
    with book.writing() as db:
        row = db.execute(
            "SELECT round_id, rate_every FROM bookmark JOIN round ON round.id = round_id"
        ).fetchone()
        if row is None:
            raise BookError("There is no round on court to move balls from.")
        source, every = row
        (taken,) = db.execute(
            "SELECT count(*) FROM ball WHERE round_id = ? AND taken", [source]
        ).fetchone()
        if not 1 <= count <= taken:
            raise BookError(f"This round has {taken} balls, so {count} cannot be moved.")
        if count % every:
            raise BookError("Every second ball is rated here: move an even number of balls.")
        first = taken - count + 1
        balls = db.execute(
            "SELECT id, number FROM ball WHERE round_id = ? AND number >= ? ORDER BY number",
            [source, first],
        ).fetchall()
        target = _twin_round(book, source, player, balls[0], at)
        for ball, number in balls:
            tallies.uncount_ball(db, ball)
            db.execute(
                "UPDATE ball SET round_id = ?, number = ? WHERE id = ?",
                [target, number - first + 1, ball],
            )
            db.execute("UPDATE note SET round_id = ? WHERE ball_id = ?", [target, ball])
            tallies.count_ball(db, ball)
            insert(
                db,
                book.ids,
                at,
                "journal",
                ball_id=ball,
                kind="move",
                before=str(source),
                after=str(target),
                at=at,
            )
        leave_round(db, at)
        db.execute("UPDATE bookmark SET round_id = ?", [target])
        return target


def _twin_round(book: Book, source: int, player: int, first: tuple[int, int], at: int) -> int:
    """A round like the source for another player, begun when its first ball was taken.

    `first` is that ball's id and its number in the source.
    """
    db = book.db
    ball, number = first
    day, coach, drill, purpose, begun, *feeds = db.execute(
        "SELECT day_id, coach_id, drill_id, purpose,"
        " (SELECT coalesce(taken_at, ?) FROM ball WHERE id = ?),"
        f" {FEED_COLUMNS} FROM round WHERE id = ?",
        [at, ball, source],
    ).fetchone()
    target = insert(
        db,
        book.ids,
        at,
        "round",
        day_id=day,
        player_id=player,
        coach_id=coach,
        drill_id=drill,
        purpose=purpose,
        place=next_place(db, day),
        started_at=begun - begun % 1000,
        **feed_values(feeds_of(*feeds).begun_at(number)),
    )
    db.execute(
        "INSERT INTO round_cue SELECT ?, row, cue FROM round_cue WHERE round_id = ?",
        [target, source],
    )
    return target
