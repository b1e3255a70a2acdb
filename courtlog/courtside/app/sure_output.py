"""Writing to the terminal: where a write failed, everything is drawn once more.

Nobody knows how much of it arrived, and a screen that shows what is not so is worse than none.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import IO, Any

MOST_FAILURES = 6
"""Failures one after another from which nothing will be shown any more."""

_PAUSE = 0.04
"""Seconds before the first new try; each further one waits twice as long, 2.5 s in all."""


class SureOutput:
    """A file for a thread of its own that is never refused.

    `on_failure` is told of every failure, and how many there were in a row.
    """

    def __init__(self, file: IO[str], on_failure: Callable[[int], None]) -> None:
        self._file = file
        self._on_failure = on_failure
        self._in_a_row = 0

    def write(self, text: str) -> int:
        """Write the text, as far as that can be done."""
        try:
            return self._file.write(text)
        except OSError:
            self._fail()
            return len(text)

    def flush(self) -> None:
        """Send what was written, as far as that can be done."""
        try:
            self._file.flush()
        except OSError:
            self._fail()
        else:
            self._in_a_row = 0

    def __getattr__(self, name: str) -> Any:
        return getattr(self._file, name)

    def _fail(self) -> None:
        self._in_a_row += 1
        time.sleep(_PAUSE * 2 ** min(self._in_a_row - 1, MOST_FAILURES))
        self._on_failure(self._in_a_row)
