"""What balls that were not seen leave open of a share."""

from __future__ import annotations

from courtlog.coaching.game.counts import Counts
from courtlog.measures.shares.proportions import unseen_bounds


def not_seen_words(counts: Counts) -> str:
    """`5 of 20 not seen: 12 to 17 made`, where that many leave the share open; else nothing."""
    bounds = unseen_bounds(counts.made, counts.missed + counts.near, counts.unseen)
    if bounds is None or not bounds.worth_printing:
        return ""
    balls = counts.seen + counts.unseen
    return f"{counts.unseen} of {balls} not seen: {bounds.least} to {bounds.most} made"
