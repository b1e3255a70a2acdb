"""The page of pairs as one HTML file: for each cue the same ball then and now, both at the hit."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog.plain_text import capital
from courtlog.reports.layout.html_elements import escaped, paragraph, section
from courtlog.reports.pairs.pair_models import CuePair, PairBall, PairPage
from courtlog.reports.stage.hit_commands import HitMoves
from courtlog.reports.stage.stage_html import StageVideo, stage
from courtlog.reports.stage.stage_keys import keys_list
from courtlog.reports.stage.stage_page import stage_page

BY_HAND = "This ball was chosen by hand."
ONE_BALL = "One ball shows how it looked. The counts say how often it was there."
NO_CUE = "There is no cue to show."


def pair_html(page: PairPage) -> str:
    """The whole file."""
    title = f"{page.player}, then and now: {page.clinic}"
    return stage_page(title, "\n".join(_body(page)))


def _body(page: PairPage) -> Iterator[str]:
    yield f"<header><h1>{escaped(page.player)}, then and now</h1>"
    yield f"{paragraph(page.clinic)}</header>\n<main>"
    if any(ball.clip for pair in page.cues for ball in _balls(pair)):
        yield paragraph(ONE_BALL)
        yield keys_list(("first video", "second video"), hits_move=True)
    for number, pair in enumerate(page.cues, 1):
        title = capital(pair.caption or pair.cue)
        yield section(f"cue-{number}", title, _cue(page.player, pair))
    if not page.cues:
        yield paragraph(NO_CUE)
    if page.left_out:
        yield section("left-out", "What this page lacks", map(paragraph, page.left_out))
    yield "</main>"
    yield f"<footer>{''.join(map(paragraph, page.foot))}</footer>"


def _cue(player: str, pair: CuePair) -> Iterator[str]:
    if pair.sentence:
        yield paragraph(pair.sentence)
    yield from map(paragraph, pair.blind)
    balls = _balls(pair)
    if not balls:
        yield paragraph(pair.missing or "")
        return
    videos = [
        _video(when, pair.cue, player, ball)
        for when, ball in zip(("Then", "Now"), balls, strict=True)
    ]
    yield stage(f"{pair.cue}, then and now", videos)
    yield f'<p class="rule">{escaped(pair.rule)}</p>'


def _balls(pair: CuePair) -> tuple[PairBall, ...]:
    """Both balls; none where there is no pair, since one alone shows no change."""
    if pair.missing is not None or pair.then is None or pair.now is None:
        return ()
    return pair.then, pair.now


def _video(when: str, cue: str, player: str, ball: PairBall) -> StageVideo:
    return StageVideo(
        label=f"{when}, {ball.day}",
        lines=(ball.what, f"{cue}: {ball.grade} on this ball", BY_HAND * ball.chosen_by_hand),
        clip=ball.clip,
        why_no_clip=ball.why_no_clip or "",
        moves=HitMoves(
            film=ball.film,
            player=player,
            clock=ball.clock,
            ball_ms=ball.hit_moved_ms - ball.film_moved_ms,
            film_ms=ball.film_moved_ms,
        ),
    )
