"""The names of the laptop's settings."""

from __future__ import annotations

from courtlog.settings import descriptions


def settings() -> list[str]:
    """Every setting by its name."""
    return list(descriptions())
