"""What a command has done for good, so that trouble after it is never told as a refusal."""

from __future__ import annotations

_done: list[str] = []


def begin() -> None:
    """A command starts: nothing is done yet."""
    _done.clear()


def note(what: str) -> None:
    """Remember what is done now and stays done: `the book holds it`, without a full stop."""
    _done.append(what)


def count() -> int:
    """How much was done."""
    return len(_done)


def in_words() -> str:
    """A sentence that says what is done; empty when nothing is."""
    return f"This is done: {'; '.join(_done)}." if _done else ""
