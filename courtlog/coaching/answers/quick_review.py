"""The quick review between rotations, the good thing first. Its words are in reports."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from courtlog.coaching.answers.ball_history import History
from courtlog.coaching.answers.comparison import (
    Comparison,
    tough_against_usual,
)
from courtlog.coaching.answers.cue_rounds import CueRound, rounds_of_cue
from courtlog.coaching.answers.highlights import Highlights, of_balls
from courtlog.coaching.answers.rung_call import RungCall, rung_call
from courtlog.coaching.answers.yardstick import hold_against_first, yardstick_again
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.speaking import planned_to_speak, share_of


@dataclass(frozen=True, slots=True)
class CueReview:
    """One cue: this round, today, the yardstick, tough against usual.

    `rounds` are all rounds of the round's own drill, so that like stands beside like.
    """

    cue: str
    round: Counts
    today: Counts
    rounds: tuple[CueRound, ...]
    against_yardstick: Comparison | None
    tough: Comparison


@dataclass(frozen=True, slots=True)
class QuickReview:
    """A round just played; `cues` strongest first, `best` the good thing and the one thing."""

    purpose: Purpose
    today: date
    cues: tuple[CueReview, ...]
    best: Highlights
    call: RungCall | None
    speak: int
    speak_of: int


def quick_review(
    history: History,
    round_id: int,
    today: date,
    dates: Sequence[date],
    cues: Sequence[str],
    watched: Sequence[str],
    balls: int,
) -> QuickReview:
    """The review of a round (whose balls are in the history), over the clinic's dates.

    `watched` are the stroke's cues as the evening's page has them, so that both name the same
    good thing and the same one thing. `balls` is how many the next round of this drill has.
    """
    played = history.where(lambda ball: ball.round_id == round_id)
    now = history.on(today)
    drill = played.balls[-1].kind.drill if played.balls else ""
    against = _against_yardstick(history, today, dates)
    reviews = [_cue(history, played, now, cue, against.get(cue)) for cue in cues]
    reviews.sort(key=lambda review: _strength(review, cues))
    call = rung_call(history, drill, cues)
    speak = spoken_balls(now, drill, balls)
    return QuickReview(
        played.balls[-1].purpose if played.balls else Purpose.PRACTICE,
        today,
        tuple(reviews),
        of_balls(now, watched),
        call,
        speak,
        balls,
    )


def spoken_balls(now: History, drill: str, balls: int) -> int:
    """Balls of the next practice round to speak on, fading over the day's rounds of the drill."""
    played = now.of(Purpose.PRACTICE).where(lambda ball: ball.kind.drill == drill).rounds
    return planned_to_speak(balls, share_of(len(played)))


def _cue(
    history: History,
    played: History,
    now: History,
    cue: str,
    against_yardstick: Comparison | None,
) -> CueReview:
    drills = {ball.kind.drill for ball in played.balls}
    alike = history.where(lambda ball: ball.kind.drill in drills)
    return CueReview(
        cue,
        played.counts(cue),
        now.counts(cue),
        rounds_of_cue(alike, cue),
        against_yardstick,
        tough_against_usual(now, cue),
    )


def _against_yardstick(
    history: History, today: date, dates: Sequence[date]
) -> dict[str, Comparison]:
    """By cue: today's yardstick, else this morning's hold, against the first; the page's own."""
    again = yardstick_again(history, today, dates, "today")
    alike = {cue: comparison for cue, comparison in again.items() if comparison.result is not None}
    return again | hold_against_first(history, today, dates, "this morning") | alike


def _strength(review: CueReview, order: Sequence[str]) -> tuple[float, int]:
    """The order of cues: made most often today first, unseen ones last, ties in stroke order."""
    share = review.today.share
    return (1.0 if share is None else -share, order.index(review.cue))
