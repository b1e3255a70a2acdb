"""Names out of the drill files, the shipped ones and the coach's own."""

from __future__ import annotations

from courtlog import locations
from courtlog.library.drill_files import Library, read_folders


def _library() -> Library:
    # A mistake in a file is for `courtlog drills check` to tell.
    return read_folders([locations.shipped_drills(), locations.own_drills()])[0]


def drills() -> list[str]:
    """Every drill by its full name."""
    return _library().names()


def strokes() -> list[str]:
    """Every stroke."""
    return sorted(_library().ladders)


def cues() -> list[str]:
    """Every cue by its key, once."""
    ladders = _library().ladders.values()
    return list(dict.fromkeys(cue.key for ladder in ladders for cue in ladder.cues))
