"""One ball of an invented player: tough or not, its grades, what went unseen, a remark on it."""

from __future__ import annotations

from math import exp

from courtlog.coaching.game.drills import Drill, Feed
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from tests.samples.dice import Dice
from tests.samples.players import COACHED_LIFT, Form

EASE = {
    Feed.SHADOW: 1.5,
    Feed.FENCE: 1.2,
    Feed.SELF: 0.8,
    Feed.HAND: 0.5,
    Feed.RACQUET: 0.0,
    Feed.LIVE: -0.7,
}
"""Log-odds beside the racquet-fed ball: the nearer to a rally, the harder."""

SPOTS_COST = 0.3
"""Log-odds lost when the ball may go to more than one spot."""

TOUGH = {Feed.HAND: 0.07, Feed.RACQUET: 0.2, Feed.LIVE: 0.3}
TOUGH_UNCHANGED = 0.06
"""A yardstick is fed with care: a ball goes astray now and then."""

NEAR_WIDTH = 1.3
"""Log-odds between made and near: the share of near follows from it."""

PULL = {Grade.MADE: 0.25, Grade.NEAR: 0.0, Grade.MISSED: -0.6}
"""A cue earlier in the stroke carries the next one along, or spoils it."""

UNSEEN_BALL = 0.008
UNSEEN_CUE = 0.015
UNSEEN_LATE = 0.04
"""The last cue is lost most often: the eyes are already on the next feed."""

REMARKED = 0.09

REMARKS: dict[tuple[str, Grade, bool], tuple[str, ...]] = {
    ("turn", Grade.MISSED, False): ("turned late", "racquet went back alone"),
    ("turn", Grade.MISSED, True): ("late on this one", "no time, no turn"),
    ("spacing", Grade.MISSED, False): ("ran into the ball", "elbow on the ribs"),
    ("spacing", Grade.MISSED, True): ("elbow tight on the high one", "jammed"),
    ("spacing", Grade.MADE, True): ("room even on the high one", "small steps made the room"),
    ("finish", Grade.MISSED, True): ("stopped at the chest", "let go of it to stay up"),
    ("finish", Grade.MADE, True): ("held it all the same",),
    ("contact", Grade.MISSED, True): ("met it beside the hip",),
    ("toss", Grade.MISSED, False): ("toss behind the head",),
    ("reach", Grade.MADE, False): ("full stretch",),
}
"""What a coach notes, by cue, grade and whether the ball was tough."""


def tough_ball(dice: Dice, feed: Feed, purpose: Purpose) -> bool:
    """Whether this feed came harder than the drill's usual."""
    uneven = TOUGH.get(feed, 0.0)
    careful = purpose in (Purpose.YARDSTICK, Purpose.CHOOSING)
    return dice.chance(min(uneven, TOUGH_UNCHANGED) if careful else uneven)


def grades(
    dice: Dice, form: Form, stroke: str, drill: Drill, cues: tuple[str, ...], purpose: Purpose
) -> Ball:
    """A ball with every cue drawn from the player's form, before anything goes unseen."""
    tough = tough_ball(dice, drill.feed, purpose)
    ease = EASE[drill.feed] - SPOTS_COST * (len(drill.spots) > 1)
    ease += COACHED_LIFT * purpose.coached
    drawn: list[Grade | None] = []
    pull = 0.0
    for cue in cues:
        grade = _grade(dice, form.log_odds(stroke, cue, ease, tough) + pull)
        pull = PULL[grade]
        drawn.append(grade)
    return Ball(tuple(drawn), tough)


def as_seen(dice: Dice, ball: Ball) -> Ball:
    """The ball as the coach saw it: a cue missing now and then, seldom all of them."""
    if dice.chance(UNSEEN_BALL):
        return Ball.unseen(len(ball.grades))
    last = len(ball.grades) - 1
    for row in range(len(ball.grades)):
        if dice.chance(UNSEEN_LATE if row == last else UNSEEN_CUE):
            ball = ball.with_grade(row, None)
    return ball


def remark(dice: Dice, drill: Drill, cues: tuple[str, ...], ball: Ball) -> tuple[str, ...]:
    """The coach's note on a ball, or nothing."""
    if not dice.chance(REMARKED) or drill.station != "feed":
        return ()
    fitting = [
        text
        for cue, grade in zip(cues, ball.grades, strict=True)
        if grade is not None
        for text in REMARKS.get((cue, grade, ball.tough), ())
    ]
    return (dice.one_of(fitting),) if fitting else ()


def _grade(dice: Dice, log_odds: float) -> Grade:
    draw = dice.share()
    if draw < _share(log_odds):
        return Grade.MADE
    return Grade.NEAR if draw < _share(log_odds + NEAR_WIDTH) else Grade.MISSED


def _share(log_odds: float) -> float:
    return 1 / (1 + exp(-log_odds))
