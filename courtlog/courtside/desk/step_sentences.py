"""What a key did, in the words of the line under the cues."""

from __future__ import annotations

from courtlog.coaching.game.grades import LOOKS
from courtlog.coaching.game.rounds import Ball
from courtlog.coaching.on_court.feeding import Step
from courtlog.coaching.on_court.live_round import LiveRound


def whose(live: LiveRound) -> str:
    """`Maren's`."""
    return f"{live.player.shown_name}'s"


FEED_ONE = "Rate every second ball: feed one in between."
"""Said whenever the next ball is one that is not rated."""


def step_words(live: LiveRound, step: Step) -> str:
    """`Ball 12 taken: turn made, spacing near, finish made.` or what the key changed."""
    number = f"Ball {step.number}"
    if step.took:
        between = live.feeding.feeds.every > 1 and f" {FEED_ONE}"
        return f"{number} taken: {ball_words(live, step.after)}.{between or ''}"
    if step.before.tough is not step.after.tough:
        return f"{number} is {'tough' if step.after.tough else 'not tough'}."
    if step.before.clip != step.after.clip:
        return f"{number}: clip mark."
    return f"{number}: {ball_words(live, step.after)}."


def ball_words(live: LiveRound, ball: Ball) -> str:
    """`turn made, spacing near, tough`: each cue with its grade as a word."""
    words = [
        f"{cue.name} {LOOKS[grade].word}"
        for cue, grade in zip(live.cues, ball.grades, strict=True)
        if grade is not None
    ]
    return ", ".join(words + ["tough"] * ball.tough) or "no cue seen"
