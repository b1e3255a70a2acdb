"""Every sentence said of a player's week: the review of each round, the page of each evening."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import nullcontext
from dataclasses import dataclass
from datetime import date
from unittest import mock

from courtlog.coaching.answers.ball_history import History
from courtlog.coaching.answers.player_answer import stroke_answer
from courtlog.coaching.answers.quick_review import quick_review
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.on_court.feed_order import rated_balls
from courtlog.coaching.on_court.feeding import Feeding
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.coaching.plans.day_plan import StrokeStanding, where_left
from courtlog.coaching.voice.day_names import DayNames
from courtlog.coaching.voice.figures import rung_call_words
from courtlog.coaching.voice.statement import EVERYTHING
from courtlog.reports.facts.answer_facts import stroke_change
from courtlog.reports.pages.review_text import review_lines, review_page
from tests.claims.clinics import DAYS, DrawnPlayer, DrawnRound, drill_named
from tests.claims.histories import STROKE, history

CURVE_OF = "courtlog.coaching.answers.player_answer.curve_of"
REVIEW, PLAYER_PAGE, DAY_PAGE = "review", "player page", "day page"

_CARD = drill_named("forehand/day-one-feed")
CUE_NAMES = {cue.key: cue.name for cue in _CARD.cues}
_NAMES = {(STROKE, key): name for key, name in CUE_NAMES.items()}
_TITLES = {STROKE: _CARD.title}


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence: where and when it was said, after which round, and of which cue (or of none)."""

    place: str
    day: int
    round_id: int
    cue: str
    text: str


def sentences(player: DrawnPlayer, curves: Sequence[int] = ()) -> Iterator[Said]:
    """All that is said of the player in the order of the week.

    The skill curve takes longer than all the rest, so it is drawn on the evenings named only.
    """
    whole = history(player.rounds, player.main)
    ends = 0
    for index, played in enumerate(player.rounds):
        ends += len(played.balls)
        so_far = whole.first(ends)
        yield from _review(played, so_far)
        last = index + 1 == len(player.rounds)
        if last or player.rounds[index + 1].day != played.day:
            yield from _evening(player, played, so_far, played.day in curves)


def last_evening(player: DrawnPlayer) -> Iterator[Said]:
    """What the pages of the last evening say of the player, without curves."""
    yield from _evening(
        player, player.rounds[-1], history(player.rounds, player.main), curves=False
    )


def _review(played: DrawnRound, so_far: History) -> Iterator[Said]:
    """The lines of the review on court; a line of one cue has its name before the first colon."""
    review = quick_review(
        so_far,
        played.id,
        played.date,
        _dates(played.day),
        played.cues,
        played.cues,
        rated_balls(played.drill.drill, Purpose.PRACTICE),
    )
    days = DayNames.of(_dates(played.day), played.date)
    for line, _ in review_lines(review_page(review, _live(played), Speak.OFF, days), EVERYTHING):
        cue = next((key for key in played.cues if f", {CUE_NAMES[key]}: " in line), "")
        yield Said(REVIEW, played.day, played.id, cue, line)


def _live(played: DrawnRound) -> LiveRound:
    cues = len(played.cues)
    fed = Feeding(cues, played.balls, Ball.unseen(cues))
    return LiveRound(
        id=played.id,
        day_id=0,
        player=Player(1, "Maren"),
        drill=played.drill,
        purpose=played.purpose,
        cue_keys=played.cues,
        feeding=fed,
        started_at=None,
        ended_at=None,
    )


def _evening(
    player: DrawnPlayer, played: DrawnRound, so_far: History, curves: bool
) -> Iterator[Said]:
    """The page of the player, and the rung call on the page of the day."""
    cues = tuple(cue for cue in CUE_NAMES if cue in player.cues)
    with nullcontext() if curves else mock.patch(CURVE_OF, return_value=None):
        answer = stroke_answer(so_far, _dates(played.day), cues)
    change = stroke_change(answer, _NAMES, _TITLES, {})
    for cue in change.cues:
        for text in (cue.learned, *cue.more, cue.trend, cue.curve_words):
            yield Said(PLAYER_PAGE, played.day, played.id, cue.cue, text)
    for text in (change.together, change.whole.sentence):
        yield Said(PLAYER_PAGE, played.day, played.id, "", text)
    at = where_left(so_far)
    assert at is not None
    standing = StrokeStanding(
        player=Player(1, "Maren"), balls=len(so_far.balls), history=so_far, cues=cues, left_on=at
    )
    if standing.call is not None:
        words = f"{rung_call_words(standing.call, CUE_NAMES)}."
        yield Said(DAY_PAGE, played.day, played.id, "", words)


def _dates(day: int) -> tuple[date, ...]:
    return DAYS[:day]
