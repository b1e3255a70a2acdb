"""Pages of pairs as tests make them: two cues, a clip that is missing, hostile names."""

from __future__ import annotations

from dataclasses import replace
from urllib.parse import quote

from courtlog.film.clip import Clip
from courtlog.reports.pairs.pair_models import CuePair, PairBall, PairPage

RULE = "The ball in the middle of the order of grades on its day, not the best one."
FOOT = ("The pictures on this page belong to the person in them.",)


def clip(
    file: str = "then.mp4",
    hit_ms: int = 2000,
    end_ms: int = 5000,
    start_ms: int = 0,
    still: str | None = None,
) -> Clip:
    """A clip of twenty frames a second; cut, where it starts at the beginning of its file."""
    return Clip(
        file=quote(file),
        start_ms=start_ms,
        hit_ms=hit_ms,
        end_ms=end_ms,
        frame_ms=50,
        is_cut=start_ms == 0,
        still=still,
    )


def ball(shown: Clip | None, day: str = "Monday 11 May", film: str = "court 2.mp4") -> PairBall:
    """A ball of a yardstick, with this clip or without one."""
    return PairBall(
        day=day,
        what="Racquet feed · deep right · ball 7 of 20",
        grade="missed",
        film=film,
        clock="09:31:07",
        hit_moved_ms=0,
        chosen_by_hand=False,
        clip=shown,
        why_no_clip=None if shown else "The film of this ball is not in the folder.",
    )


def pair(then: PairBall | None, now: PairBall | None, cue: str = "spacing") -> CuePair:
    """Both balls of a cue."""
    return CuePair(
        cue=cue,
        then=then,
        now=now,
        caption=f"{cue}: 6 of 19 then, 16 of 19 now",
        sentence="Made more often now: 6 of 19 balls then, 16 of 19 now.",
        rule=RULE,
        missing=None if then and now else "No ball of this cue was filmed on both days.",
    )


def page(*cues: CuePair) -> PairPage:
    """The page of these cues."""
    return PairPage(clinic="Harbour Week", player="Maren", cues=cues, left_out=(), foot=FOOT)


def hostile_page(name: str) -> PairPage:
    """A page where every text from outside is this one."""
    shown = clip()
    one = replace(ball(shown), day=name, what=name, grade=name, film=name, clock="09:31:07")
    without = replace(one, clip=None, why_no_clip=name)
    pairs = (pair(one, without), pair(None, None))
    return PairPage(
        clinic=name,
        player=name,
        cues=tuple(
            replace(
                cue, cue=name, caption=f"{number} {name}", sentence=name, rule=name, blind=(name,)
            )
            for number, cue in enumerate(pairs)
        ),
        left_out=(name,),
        foot=(name,),
    )
