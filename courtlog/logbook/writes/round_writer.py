"""Write a live clinic: each entry is one committed transaction and returns what it made.

`at_ms` is the moment of the key, milliseconds UTC; nothing here reads a clock.
"""

from __future__ import annotations

import secrets
import sqlite3
from collections.abc import Sequence
from datetime import date

from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.feed_order import FeedChoice, draw_feeds
from courtlog.coaching.on_court.feeding import Step
from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.feed_rows import feed_values
from courtlog.logbook.rows.key_steps import ball_of, last_key, write_step
from courtlog.logbook.rows.row_changes import (
    coach_id,
    day_id,
    drill_id,
    end_pause,
    forget_if_empty,
    insert,
    leave_round,
    next_place,
    pass_over,
)

BASKET = 60
"""Usable balls of a basket (common practice, no source: 60 to 80)."""


class RoundWriter:
    """Writes days, rounds, keys, notes, the basket and pauses; each method is one transaction."""

    def __init__(self, book: Book) -> None:
        self._book = book

    def open_day(self, clinic: int, day: date, court: str, coach: str, at_ms: int) -> int:
        """Open the clinic's day of that date and court, new if need be, with a full basket."""
        with self._book.writing() as db:
            coach_row = coach_id(db, self._book.ids, at_ms, coach)
            row = day_id(db, self._book.ids, at_ms, clinic, day, court, coach_row)
            kept = db.execute("SELECT basket_size FROM bookmark").fetchone()
            size = kept[0] if kept else BASKET
            db.execute(
                "INSERT OR REPLACE INTO bookmark VALUES (1, ?, ?, NULL, ?, ?, NULL)",
                [clinic, row, size, size],
            )
            return row

    def start_round(
        self,
        player: int,
        used: UsedDrill,
        purpose: Purpose,
        cues: Sequence[str],
        at_ms: int,
        choice: FeedChoice | None = None,
        balls: int | None = None,
    ) -> int:
        """A new round on the bookmark's day, which the bookmark then points to; returns its id.

        Its feeds are drawn here, as chosen or as the drill card has them; `balls` are those the
        day's plan gave it, where it did. A round that was left without any ball gives its place to
        the new one; any other open round ends here.
        """
        with self._book.writing() as db:
            leave_round(db, at_ms)
            return self._new_round(db, player, used, purpose, cues, choice, at_ms, balls)

    def end_round(self, at_ms: int) -> None:
        """End the round on court; balls taken stay."""
        with self._book.writing() as db:
            end_pause(db, at_ms)
            db.execute(
                "UPDATE round SET ended_at = max(coalesce(started_at + paused_ms, 0), ?)"
                " WHERE id = (SELECT round_id FROM bookmark)",
                [at_ms - at_ms % 1000],
            )

    def subtract_idle_time(self, round_id: int, pause: int, at_ms: int) -> None:
        """Subtract idle time (ms) that ends now from the round and from each station."""
        with self._book.writing() as db:
            db.execute("UPDATE round SET paused_ms = paused_ms + ? WHERE id = ?", [pause, round_id])
            (day,) = db.execute("SELECT day_id FROM round WHERE id = ?", [round_id]).fetchone()
            pass_over(db, day, at_ms - pause, at_ms)

    def go_to_round(self, round_id: int) -> None:
        """Put an earlier round of the day back on court and go on with it.

        A round in between that never saw a ball is forgotten.
        """
        with self._book.writing() as db:
            if db.execute("SELECT round_id FROM bookmark").fetchone() != (round_id,):
                forget_if_empty(db)
            db.execute("UPDATE round SET ended_at = NULL WHERE id = ?", [round_id])
            db.execute("UPDATE bookmark SET round_id = ?", [round_id])

    def store_key(self, round_id: int, step: Step, at_ms: int, between: Step | None = None) -> None:
        """Store what one key did to one ball, with its journal line and tallies.

        `between` is the ball that was fed in between, where the key took that one as well.
        """
        with self._book.writing() as db:
            for made in (step, between):
                if made is not None:
                    write_step(db, self._book.ids, round_id, made, at_ms, "key", None)

    def take_back_key(
        self, round_id: int, step: Step, at_ms: int, rated: Step | None = None
    ) -> None:
        """Undo the round's last key, given as the step it made; the journal keeps both.

        Where the key made two steps, `rated` is the one before.
        """
        with self._book.writing() as db:
            for made in (step, rated):
                if made is not None:
                    last = last_key(db, round_id, made.number)
                    write_step(db, self._book.ids, round_id, made.reversed(), at_ms, "undo", last)

    def add_note(self, round_id: int, number: int | None, text: str, at_ms: int) -> int:
        """Add a note to a ball of the round, or to the round itself; returns its id."""
        with self._book.writing() as db:
            ball = None if number is None else ball_of(db, self._book.ids, round_id, number, at_ms)
            return insert(
                db,
                self._book.ids,
                at_ms,
                "note",
                round_id=round_id,
                ball_id=ball,
                text=text,
                at=at_ms,
            )

    def set_next_drill(self, clinic: int, player: int, drill: str | None) -> None:
        """Set the drill (full name) of the player's next round, after a rung call was taken."""
        with self._book.writing() as db:
            db.execute(
                "UPDATE roster SET next_drill = ? WHERE clinic_id = ? AND player_id = ?",
                [drill, clinic, player],
            )

    def refill_basket(self, size: int | None = None) -> None:
        """Fill the basket again after pick-up, at a new size if one is given."""
        with self._book.writing() as db:
            db.execute(
                "UPDATE bookmark SET basket_size = coalesce(?, basket_size),"
                " basket_left = coalesce(?, basket_size)",
                [size, size],
            )

    def pause(self, at_ms: int) -> None:
        """Pause at this moment; the pause does not count as time of the round."""
        with self._book.writing() as db:
            db.execute("UPDATE bookmark SET paused_at = coalesce(paused_at, ?)", [at_ms])

    def end_pause(self, at_ms: int) -> None:
        """End a pause."""
        with self._book.writing() as db:
            end_pause(db, at_ms)

    def _new_round(
        self,
        db: sqlite3.Connection,
        player: int,
        used: UsedDrill,
        purpose: Purpose,
        cues: Sequence[str],
        choice: FeedChoice | None,
        at_ms: int,
        balls: int | None,
    ) -> int:
        mark = db.execute(
            "SELECT day_id, coach_id FROM bookmark JOIN day ON day.id = day_id"
        ).fetchone()
        if mark is None:
            raise BookError("No day is open.", "Open a day first.")
        day, coach = mark
        wanted = choice or FeedChoice.of_card(used.drill)
        feeds = draw_feeds(used.drill, purpose, wanted, secrets.randbits(32), balls)
        round_id = insert(
            db,
            self._book.ids,
            at_ms,
            "round",
            day_id=day,
            player_id=player,
            coach_id=coach,
            drill_id=drill_id(db, self._book.ids, at_ms, used),
            purpose=str(purpose),
            place=next_place(db, day),
            started_at=at_ms - at_ms % 1000,
            planned_balls=balls,
            **feed_values(feeds),
        )
        for row, cue in enumerate(cues):
            db.execute("INSERT INTO round_cue VALUES (?, ?, ?)", [round_id, row, cue])
        if not purpose.measured:
            # The drill put down waits for practice while the uncoached rounds are played.
            db.execute(
                "UPDATE roster SET next_drill = NULL WHERE player_id = ? AND next_drill NOTNULL"
                " AND clinic_id = (SELECT clinic_id FROM day WHERE id = ?)",
                [player, day],
            )
        db.execute("UPDATE bookmark SET round_id = ?", [round_id])
        return round_id
