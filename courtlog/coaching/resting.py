"""The prompt to drink, go into the shade and rest, on a timer the coach sets."""

from __future__ import annotations

from courtlog.coaching.heat_care import REST

PROMPT = REST
"""What the prompt says; it names no volume of drink and no length of rest."""


def rest_due(started_at: int, last_prompt_at: int | None, now: int, minutes: int | None) -> bool:
    """Whether a prompt is due: `minutes` have passed since the last one, or since the start.

    Moments are milliseconds UTC. None as `minutes` (no timer set) is never due; a clock that went
    back is not due either. The caller keeps `last_prompt_at` when it shows PROMPT.
    """
    if minutes is None:
        return False
    since = started_at if last_prompt_at is None else max(started_at, last_prompt_at)
    return now - since >= minutes * 60_000
