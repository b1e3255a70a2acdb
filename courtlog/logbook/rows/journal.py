"""How the journal writes a ball: its grades, `!` for tough, `@` a clip's moment, `?` while open."""

from __future__ import annotations

import re

from courtlog.coaching.game.grades import DIGITS, LOOKS
from courtlog.coaching.game.rounds import Ball
from courtlog.coaching.on_court.feeding import Step

_STATE = re.compile(r"([-012]+)(!?)(?:@(\d+))?(\??)")


def state_text(ball: Ball, is_open: bool) -> str:
    """`2-0!@1778571667000?`"""
    digits = "".join(LOOKS[grade].digit for grade in ball.grades)
    clip = "" if ball.clip is None else f"@{ball.clip}"
    return digits + "!" * ball.tough + clip + "?" * is_open


def state_sql(digits: str, is_open: str) -> str:
    """The SQL of the same of a row of `ball`; its digits and whether it is open are SQL too."""
    return (
        f"{digits} || CASE WHEN tough THEN '!' ELSE '' END || ifnull('@' || clip_at, '')"
        f" || CASE WHEN {is_open} THEN '?' ELSE '' END"
    )


def ball_state(text: str) -> tuple[Ball, bool]:
    """The ball a journal line speaks of, and whether it was open."""
    match = _STATE.fullmatch(text)
    if match is None:
        raise ValueError(f"{text!r} is no ball of the journal")
    digits, tough, clip, is_open = match.groups()
    grades = tuple(DIGITS[digit] for digit in digits)
    return Ball(grades, bool(tough), int(clip) if clip else None), bool(is_open)


def as_step(number: int, before: str, after: str) -> Step:
    """The step between two states of the ball of that number."""
    old, was_open = ball_state(before)
    new, is_open = ball_state(after)
    return Step(number, old, new, was_open, is_open)
