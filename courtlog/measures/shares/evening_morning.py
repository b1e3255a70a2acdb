"""When an evening or a morning tells less than it seems: tired, or not warmed up yet.

No page prints it yet.
"""

from __future__ import annotations

from courtlog.measures.common.arguments import within

TIRED_EFFORT = 7
"""From this effort (0-10) on, an evening round may look worse than the player is."""

WARM_UP_BALLS = 5
"""The first balls of a morning are also counted apart. Adams JA 1961, Psychol Bull 58:257-273."""


def tired_evening(effort: float) -> bool:
    """Whether the evening was so hard (0-10) that the morning may look better than it is."""
    return within(effort, "effort", 0, 10) >= TIRED_EFFORT
