"""A terminal that does not take what is written: told each time, and never an error."""

from __future__ import annotations

import io
from collections.abc import Iterator

import pytest

from courtlog.courtside.app import sure_output
from courtlog.courtside.app.sure_output import SureOutput


class Refusing(io.StringIO):
    """A file that refuses to be flushed as often as is said."""

    def __init__(self, refusals: Iterator[bool]) -> None:
        super().__init__()
        self._refusals = refusals

    def flush(self) -> None:
        if next(self._refusals, False):
            raise OSError(5, "Input/output error")


def test_every_failure_is_told_and_a_success_ends_the_row(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sure_output, "_PAUSE", 0)
    told: list[int] = []
    file = Refusing(iter([True, True, False, True]))
    output = SureOutput(file, told.append)
    for text in "abcd":
        output.write(text)
        output.flush()
    assert file.getvalue() == "abcd"
    assert told == [1, 2, 1]
