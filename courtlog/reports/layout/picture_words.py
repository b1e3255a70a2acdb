"""What stands at the foot of every page with pictures of players, and in the guide."""

from __future__ import annotations

PICTURE_WORDS: tuple[str, ...] = (
    "Whoever is named here agreed to be filmed; for a minor, a parent or guardian did.",
    "A clip may show others too: keep it in the family, and ask them before it goes online.",
    "Local rules and your club's safeguarding rules come first."
    " Delete a clip when anyone in it asks.",
)
"""To players, parents and coaches: whose word there is, who may see it, and what comes first."""
