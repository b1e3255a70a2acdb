"""A short piece of a video around one hit, as a page plays it; times are milliseconds."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Clip:
    """One piece of a video file, and where in it the ball was hit."""

    file: str
    """URL of the video relative to the page, percent-encoded."""
    start_ms: int
    """Where the clip begins in that file: 0 where it was cut."""
    hit_ms: int
    """Where the hit is in that file."""
    end_ms: int
    """Where the clip ends in that file."""
    frame_ms: float
    """How long one frame is shown, for stepping."""
    is_cut: bool
    """Whether the file is the clip alone; else it is the whole film, played in part."""
    still: str | None
    """URL of a picture of the hit, relative to the page; None where none could be made."""
