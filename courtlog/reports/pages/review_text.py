"""The quick review in words, for the screen between rotations: the good thing first."""

from __future__ import annotations

from collections.abc import Iterator

from rich.cells import set_cell_size

from courtlog.coaching.answers.comparison import YARDSTICK_SEEN
from courtlog.coaching.answers.quick_review import QuickReview
from courtlog.coaching.game.drills import Cue
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.coaching.voice import figures
from courtlog.plain_text import each_of, many, plain
from courtlog.reports.layout.signs import spark

Line = tuple[str, bool]
"""A line and whether it stands out."""


def review_lines(review: QuickReview, live: LiveRound, speak: Speak) -> list[Line]:
    """All lines of the review, about twenty; `speak` is the rule the round was coached by."""
    return list(_lines(review, live, speak))


def _lines(review: QuickReview, live: LiveRound, speak: Speak) -> Iterator[Line]:
    names = {cue.key: plain(cue.name) for cue in live.cues}
    balls = many(len(live.feeding.taken), "ball")
    if live.feeding.feeds.every > 1:
        balls += f", {len(live.feeding.rated)} rated"
    yield (
        f"{plain(live.player.shown_name)} · {plain(live.drill.drill.name)}"
        f" · {live.purpose} · {balls}",
        False,
    )
    best = review.cues[0]
    if best.today.made:
        alike = [names[cue.cue] for cue in review.cues if cue.today.words() == best.today.words()]
        yield f"Made most today: {each_of(alike, best.today.words())}.", True
    yield "", False
    yield f"{'':14}{'this round':<17}{'today':<18}{'days':<9}rounds (this drill)", False
    for cue in review.cues:
        yield (
            f"{set_cell_size(names[cue.cue], 14)}{cue.round.words():<17}{cue.today.words():<18}"
            f"{spark(cue.days[-7:]):<9}{spark(cue.rounds[-12:])}",
            True,
        )
    yield "", False
    yield from _next(review, live, names)
    yield from _spoke(live, speak)
    yield "", False
    yield from _against_yardstick(review, names)
    yield from _tough(review, names)


def _next(review: QuickReview, live: LiveRound, names: dict[str, str]) -> Iterator[Line]:
    if live.purpose.measured:
        seen = min(((cue.round.seen, names[cue.cue]) for cue in review.cues), default=(0, ""))
        warning = figures.few_balls(seen[0], YARDSTICK_SEEN, seen[1])
        if warning:
            yield warning, True
        return
    if live.purpose is Purpose.CHOOSING:
        yield "Pick two or three cues (F3). Next: the yardstick, before anything is taught.", True
        return
    if review.work_on is not None:
        yield f"Work on: {names[review.work_on]}. {_phrase(live, review.work_on)}", True
    yield figures.rung_sentence(review.call, names), False
    yield figures.next_wording_plan(review.speak, review.speak_of), False


def _spoke(live: LiveRound, speak: Speak) -> Iterator[Line]:
    """The line on what the coach logged as said; empty when nothing was logged."""
    wordings, balls, advised = live.spoken, len(live.feeding.rated), live.advised(speak)
    if wordings and not live.purpose.coached:
        yield figures.spoke_uncoached_words(len(wordings), balls), True
    elif wordings:
        yield figures.speaking_words(wordings, balls, speak, advised), False


def _phrase(live: LiveRound, key: str) -> str:
    cue: Cue = live.drill.cue(key)
    return f"Say “{plain(cue.say_inner)}” or “{plain(cue.say_outer)}”."


def _against_yardstick(review: QuickReview, names: dict[str, str]) -> Iterator[Line]:
    """Each cue against the yardstick, as far as today had an uncoached ball like it."""
    against = [(names[c.cue], c.against_yardstick) for c in review.cues if c.against_yardstick]
    alike = [(name, comparison) for name, comparison in against if comparison.result is not None]
    for name, comparison in alike:
        yield f"yardstick, {name}: {figures.comparison_words(comparison)}", False
    if against and not alike:
        yield (
            "yardstick: no uncoached ball of its kind today, so nothing is compared",
            False,
        )


def _tough(review: QuickReview, names: dict[str, str]) -> Iterator[Line]:
    """Tough balls against usual ones, or one line that the balls are too few."""
    hit = [cue for cue in review.cues if cue.tough.late.seen]
    bearing = [cue for cue in hit if cue.tough.bears_statement]
    for cue in bearing:
        yield f"tough, {names[cue.cue]}: {figures.comparison_words(cue.tough)}", False
    if hit and not bearing:
        counts = ", ".join(
            f"{names[c.cue]} {c.tough.late.made} of {c.tough.late.seen}" for c in hit
        )
        yield f"tough balls today: {counts} made: too few balls to tell", False
