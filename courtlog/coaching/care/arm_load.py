"""How much an arm has done: balls at full speed, and effort times minutes. A record, no advice."""

from __future__ import annotations

from collections.abc import Sequence

from courtlog.coaching.game.drills import Feed
from courtlog.measures.common.enough import Level, Question, level
from courtlog.measures.court_day.load import DAYS, load_week

SERVE = "serve"
SERVICE_LINE_RUNG = 4
"""From here up the serve's ladder the whole swing is made (common practice, no source)."""

FULL_SPEED = frozenset({Feed.RACQUET, Feed.LIVE})
"""Feeds whose ball is hit back at full speed (common practice, no source)."""


def at_full_speed(stroke: str, feed: Feed, rung: int) -> bool:
    """Whether a ball of such a drill is a full-speed hit; a serve is one from the service line on.

    An overhead counts from the racquet-fed lob on, as its feed says.
    """
    if stroke == SERVE:
        return rung >= SERVICE_LINE_RUNG
    return feed in FULL_SPEED


def week_words(loads: Sequence[float | None]) -> str:
    """The sentence on the last seven days (None: nothing logged); numbers need a full week.

    Monotony is mean over standard deviation (n - 1), strain total times monotony; see
    measures.court_day.load.week. No line is drawn through either.
    """
    week = load_week(loads)
    if level(Question.MONOTONY, week.logged) is not Level.NORMAL:
        return f"week: monotony needs a full week of logged days ({week.logged} of {DAYS} so far)"
    if week.monotony is None or week.strain is None:
        return f"week: load {week.total:.0f}, every day the same"
    return (
        f"week: load {week.total:.0f}, monotony {week.monotony:.2f}, strain {week.strain:.0f}"
        " (days differ by a sample's standard deviation, n - 1)"
    )
