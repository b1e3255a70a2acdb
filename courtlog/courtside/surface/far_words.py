"""The few words of the look that is read from two metres, each in long and then in short."""

from __future__ import annotations

from collections.abc import Sequence

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.courtside.desk.view import CourtView
from courtlog.plain_text import plain

SHORTEST = 3
"""Letters that a word keeps when it is cut to fit."""


def shorter(word: str) -> list[str]:
    """The word, then its beginnings from the longest down."""
    return [word, *(word[:length].rstrip() for length in range(len(word) - 1, SHORTEST - 1, -1))]


def to_say(view: CourtView) -> Sequence[str]:
    """What to say now, the phrase before the cue's name; or to stay quiet."""
    live, advice = view.live, view.advice
    if live is None:
        return ()
    if view.ended:
        return to_do(view)
    if not live.purpose.coached:
        return ("QUIET",)
    if advice is None:
        return ()
    if not advice.speak:
        return ("QUIET",)
    names = [cue.name for cue in live.cues]
    ball = ball_spoken_of(live)
    faults = (Grade.MISSED, Grade.NEAR)
    rows = [ball.grades.index(grade) for grade in faults if grade in ball.grades]
    row = names.index(advice.cue) if advice.cue in names else next(iter(rows), None)
    if row is None:
        return ("SAY IT",)
    cue = live.cues[row]
    phrase, *cut = f"SAY {plain(cue.say_inner)}", *shorter(f"SAY {plain(cue.name)}")
    return (phrase, *(words for words in cut if len(words) > len("SAY ") + 1))


def ball_spoken_of(live: LiveRound) -> Ball:
    """The ball in hand; while it has no grade yet, the last one taken."""
    _, ball = live.feeding.in_hand
    if any(grade is not None for grade in ball.grades) or not live.feeding.taken:
        return ball
    return live.feeding.taken[-1]


def to_do(view: CourtView) -> Sequence[str]:
    """At a standstill the key of the likeliest step and what it does, or the key alone."""
    if view.next_act is None:
        return ()
    step = view.next_act.steps[0]
    return f"{step.key} {plain(step.few)}", step.key


def is_held_back(view: CourtView) -> bool:
    """Whether the player of the open round is on court though a red holds them back."""
    return view.live is not None and not view.ended and view.live.player.id in view.care.held_back


def caution_of(view: CourtView) -> str:
    """`▲ AMBER`, or `■ RED` with its reason while it holds the player back; empty without any."""
    if view.live is None:
        return ""
    player = view.live.player
    reason = view.care.held_back.get(player.id, "")
    mark = view.care.mark_of(player, view.letters)
    return f"{mark}: {plain(reason)}" if reason else mark


def warning(view: CourtView) -> Sequence[str]:
    """What keeps balls from being fed or stored, in long and in short; nothing else comes first."""
    if view.not_stored:
        return ("NOT STORED", "UNSTORED")
    if view.read_only:
        return ("READ ONLY",)
    if view.basket.empty:
        return ("BASKET EMPTY", "PICK UP")
    return ("PAUSED",) if view.paused and view.ended else ()
