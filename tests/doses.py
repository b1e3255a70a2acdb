"""How many cases a drawn test takes: a short dose in every run, the whole one with `--long`."""

from __future__ import annotations

_LONG: list[bool] = []


def take_the_whole(long: bool) -> None:
    """Say, before any test is loaded, whether the whole doses are asked for."""
    _LONG[:] = [True] if long else []


def dose(short: int, whole: int) -> int:
    """The number of cases for this run."""
    return whole if _LONG else short
