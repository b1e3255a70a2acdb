"""Sparklines: one character a day, a bar for the share made, a dot where nothing was seen."""

from __future__ import annotations

from collections.abc import Iterable

from courtlog.coaching.counts import Counts

BARS = "▁▂▃▄▅▆▇█"
NOTHING = "·"


def bar(share: float | None) -> str:
    """The bar of a share 0 to 1; `·` for none. Zero is the lowest bar, one the full one."""
    if share is None:
        return NOTHING
    return BARS[min(int(share * len(BARS)), len(BARS) - 1)]


def spark(days: Iterable[Counts]) -> str:
    """The sparkline of a cue over days."""
    return "".join(bar(counts.share) for counts in days)
