"""When a morning tells less than it seems: its first balls, before the player is warmed up."""

from __future__ import annotations

WARM_UP_BALLS = 5
"""The first balls of a morning are also counted apart. Adams JA 1961, Psychol Bull 58:257-273."""
