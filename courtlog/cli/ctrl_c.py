"""Ctrl+C: a command ends with exit code 130 and without a traceback, whenever it comes."""

from __future__ import annotations

import os
import signal
import sys
import time
from collections.abc import Callable
from types import FrameType

from courtlog import finished_steps

INTERRUPTED = 130
"""The exit code of a command that Ctrl+C ended: 128 and the signal's number, as shells count."""

_PATIENCE = 3.0
"""Seconds in which further presses, as of a held key, are ignored while the command tidies up."""


class _Interrupt(KeyboardInterrupt):
    """Not a plain KeyboardInterrupt: after one inside `exec`, Python 3.11 dies by the signal."""


def leave_at_once() -> None:
    """Let Ctrl+C end the program at once: nothing has begun, or all is done."""
    _answer_with(_leave)


def leave_in_order(work: Callable[[], None]) -> None:
    """Do the work. At Ctrl+C it may tidy up, then the program ends with one sentence."""
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
        # SQLite and C modules may have turned the interrupt into an error of their own.
        if not pressed:
            raise
        leave_at_once()
        words = f"courtlog: stopped by Ctrl+C before it was done. {finished_steps.in_words()}"
        print(words.rstrip(), file=sys.stderr)
        sys.exit(INTERRUPTED)


def _answer_with(handler: Callable[[int, FrameType | None], None]) -> None:
    """Set what Ctrl+C does, except where the program was started to ignore it."""
    if signal.getsignal(signal.SIGINT) is not signal.SIG_IGN:
        signal.signal(signal.SIGINT, handler)


def _leave(_number: int = 0, _frame: FrameType | None = None) -> None:
    os._exit(INTERRUPTED)


def _tell_unless_interrupted(what: sys.UnraisableHookArgs) -> None:
    """Note an interrupt that Python could not raise: the next one ends the command."""
    if not isinstance(what.exc_value, KeyboardInterrupt):
        sys.__unraisablehook__(what)
