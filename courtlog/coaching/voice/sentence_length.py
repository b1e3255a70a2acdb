"""Sentences that stay short: what would be too long for one becomes two."""

from __future__ import annotations

from courtlog.plain_text import capital

MOST_WORDS = 20
"""Words of a sentence at most, where it is said without its reason and figures."""


def sentences(*parts: str, by: str = ", ") -> str:
    """The parts as one sentence, without its full stop; as more where one would be too long."""
    said: list[str] = []
    for part in parts:
        longer = f"{said[-1]}{by}{part}" if said else part
        if said and len(longer.split()) <= MOST_WORDS:
            said[-1] = longer
        else:
            said.append(capital(part) if said else part)
    return ". ".join(said)
