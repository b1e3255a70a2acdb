"""Rounds in which nothing is left, and days of such rounds: as SQL, for look-ups to leave out.

A round stays in the book when all its balls are struck out, as where a sheet was taken back.
"""

from __future__ import annotations

EMPTY_ROUND = (
    "(round.id NOT IN (SELECT round_id FROM bookmark WHERE round_id NOT NULL)"
    " AND NOT EXISTS (SELECT 1 FROM ball AS fed WHERE fed.round_id = round.id AND fed.number > 0)"
    " AND NOT EXISTS (SELECT 1 FROM note AS text"
    "   WHERE text.round_id = round.id AND text.ball_id IS NULL)"
    " AND NOT EXISTS (SELECT 1 FROM check_in AS said WHERE said.round_id = round.id))"
)
"""A round without ball, note and check-in that is not on court."""

EMPTIED_DAY = (
    "(day.id NOT IN (SELECT day_id FROM bookmark)"
    " AND EXISTS (SELECT 1 FROM round WHERE round.day_id = day.id)"
    f" AND NOT EXISTS (SELECT 1 FROM round WHERE round.day_id = day.id AND NOT {EMPTY_ROUND})"
    " AND NOT EXISTS (SELECT 1 FROM check_in AS said WHERE said.day_id = day.id))"
)
"""A day that has rounds, all of them empty; a day without any round is one that was opened."""
