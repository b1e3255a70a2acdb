"""Write how a round is fed, and when the coach spoke; each entry is one transaction."""

from __future__ import annotations

import secrets
import sqlite3

from courtlog.coaching.game.speaking import Wording, next_wording
from courtlog.coaching.on_court.feed_order import FeedChoice, Feeds, draw_feeds
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.errors import BookError, ChangedElsewhereError
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.feed_rows import FEED_COLUMNS, feed_values, feeds_of


class FeedsWriter:
    """What the court screen writes of feeds and of speaking."""

    def __init__(self, book: Book) -> None:
        self._book = book

    def redraw(self, live: LiveRound, choice: FeedChoice) -> bool:
        """Draw the feeds of a round again, unless it has a ball; returns whether it did."""
        with self._book.writing() as db:
            begun = db.execute("SELECT 1 FROM ball WHERE round_id = ?", [live.id]).fetchone()
            if begun:
                return False
            seed = secrets.randbits(32)
            feeds = draw_feeds(live.drill.drill, live.purpose, choice, seed, live.plan_balls)
            self._write(db, live.id, feeds)
            return True

    def replace_feeds(self, round_id: int, before: Feeds, after: Feeds) -> None:
        """Replace a round's feeds, if it still has those that this window shows."""
        with self._book.writing() as db:
            row = db.execute(
                f"SELECT {FEED_COLUMNS} FROM round WHERE id = ?", [round_id]
            ).fetchone()
            if row is None or feeds_of(*row) != before:
                raise ChangedElsewhereError(
                    "Another window has changed these feeds; here is what the book holds.",
                    "Close one of the two.",
                )
            self._write(db, round_id, after)

    def log_spoken(self, round_id: int, number: int, at_ms: int) -> Wording | None:
        """Log that the coach spoke after a ball: first wording, then second, then not after all."""
        with self._book.writing() as db:
            row = db.execute(
                "SELECT ball.id, wording FROM ball LEFT JOIN said ON ball_id = ball.id"
                " WHERE round_id = ? AND number = ?",
                [round_id, number],
            ).fetchone()
            if row is None:
                raise BookError("There is no ball yet to have spoken after.")
            ball, said = row
            wording = next_wording(Wording(said) if said else None)
            if wording is None:
                db.execute("DELETE FROM said WHERE ball_id = ?", [ball])
            else:
                db.execute("INSERT OR REPLACE INTO said VALUES (?, ?, ?)", [ball, wording, at_ms])
            return wording

    def _write(self, db: sqlite3.Connection, round_id: int, feeds: Feeds) -> None:
        values = feed_values(feeds)
        places = ", ".join(f"{column} = ?" for column in values)
        db.execute(f"UPDATE round SET {places} WHERE id = ?", [*values.values(), round_id])
