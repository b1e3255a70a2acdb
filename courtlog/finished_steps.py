"""What a command has finished for good, so that a later error is never told as a refusal."""

from __future__ import annotations

_done: list[str] = []


def begin() -> None:
    """Forget all steps, as a new command starts."""
    _done.clear()


def note(what: str) -> None:
    """Remember a finished step: `the book holds it`, without a full stop."""
    _done.append(what)


def count() -> int:
    """The number of finished steps."""
    return len(_done)


def in_words() -> str:
    """A sentence that names the finished steps; empty without any."""
    return f"This is done: {'; '.join(_done)}." if _done else ""
