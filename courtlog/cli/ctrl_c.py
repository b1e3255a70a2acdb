"""Ctrl+C: a command ends with exit code 130 and without a traceback, whenever it comes."""

from __future__ import annotations

import os
import signal
import sys
import time
from collections.abc import Callable
from types import FrameType

from courtlog import deeds

INTERRUPTED = 130
"""128 and the signal's number, as a shell counts it."""

_PATIENCE = 3.0
"""Seconds in which further presses (a key that repeats) do not disturb the tidying up."""


class _Interrupt(KeyboardInterrupt):
    """After a KeyboardInterrupt proper that passed an `exec`, Python 3.11 dies by the signal."""


def leave_at_once() -> None:
    """From now on Ctrl+C ends the program where it stands: nothing is begun, or all is done."""
    _answer_with(_leave)


def leave_in_order(work: Callable[[], None]) -> None:
    """Do the work; at Ctrl+C it may tidy up, and then the program ends with one sentence."""
    pressed: list[float] = []

    def stop(_number: int, _frame: FrameType | None) -> None:
        if not pressed:
            pressed.append(time.monotonic())
            raise _Interrupt
        if time.monotonic() - pressed[0] > _PATIENCE:
            _leave()

    sys.unraisablehook = _tell_unless_interrupted
    try:
        _answer_with(stop)
        try:
            work()
        finally:
            leave_at_once()
    except BaseException:
        # By now it may be an error of another kind: SQLite and C modules make their own of it.
        if not pressed:
            raise
        leave_at_once()
        words = f"courtlog: stopped by Ctrl+C before it was done. {deeds.in_words()}"
        print(words.rstrip(), file=sys.stderr)
        sys.exit(INTERRUPTED)


def _answer_with(handler: Callable[[int, FrameType | None], None]) -> None:
    """A program that was started to ignore Ctrl+C goes on ignoring it."""
    if signal.getsignal(signal.SIGINT) is not signal.SIG_IGN:
        signal.signal(signal.SIGINT, handler)


def _leave(_number: int = 0, _frame: FrameType | None = None) -> None:
    os._exit(INTERRUPTED)


def _tell_unless_interrupted(what: sys.UnraisableHookArgs) -> None:
    """An interrupt that could be raised nowhere is lost: the next one ends the command."""
    if not isinstance(what.exc_value, KeyboardInterrupt):
        sys.__unraisablehook__(what)
