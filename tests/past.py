"""Shorthand for histories: `day 1 yardstick 222 012! .` lines as the balls of one player."""

from __future__ import annotations

from datetime import date, timedelta

from courtlog.coaching.answers.ball_history import BallKind, History, PastBall
from courtlog.coaching.game.rounds import Ball, Purpose

FIRST = date(2026, 5, 11)
CUES = ("turn", "spacing", "finish")
DRILL = "forehand/racquet-feed"
RUNGS = {"forehand/fence": 2, DRILL: 5, "forehand/live": 6}


def day(number: int) -> date:
    """The clinic's day of that number."""
    return FIRST + timedelta(days=number - 1)


def past(*rounds: str, cues: tuple[str, ...] = CUES) -> History:
    """A history from rounds like `1 practice 222*10 012!`; `@forehand/live` names another drill."""
    balls: list[PastBall] = []
    for number, text in enumerate(rounds, 1):
        on, purpose, *tokens = text.split()
        drill = DRILL
        for token in tokens:
            if token.startswith("@"):
                drill = token[1:]
                continue
            written, _, times = token.partition("*")
            ball = Ball.from_token(written, len(cues))
            grades = dict(zip(cues, ball.grades, strict=True))
            kind = BallKind(drill, RUNGS.get(drill, 5), "racquet", ball.tough)
            balls += [PastBall(day(int(on)), number, Purpose(purpose), kind, grades)] * int(
                times or 1
            )
    return History("forehand", tuple(balls))


def one_cue(made: int, seen: int) -> str:
    """Tokens of that many balls of one cue, made first."""
    return " ".join(["2"] * made + ["0"] * (seen - made))
