"""A court on a real terminal for each test; without POSIX terminals the tests are left out."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

import pytest

if TYPE_CHECKING:
    from tests.terminal.console import Console

collect_ignore_glob = ["test_*.py"] if sys.platform == "win32" else []


class Opener(Protocol):
    """Opens a book at the court screen, on a terminal of its own."""

    def __call__(
        self, path: Path, columns: int = 80, lines: int = 24, **environment: str
    ) -> Console: ...


@pytest.fixture
def open_court() -> Iterator[Opener]:
    """Opens a book at the court screen; whatever still runs when the test ends is killed."""
    from tests.terminal.console import Console, court, environment

    with ExitStack() as open_:

        def opened(path: Path, columns: int = 80, lines: int = 24, **more: str) -> Console:
            env = environment(path.parent, **more)
            return open_.enter_context(Console(court(path), env, columns, lines, True))

        yield opened


@pytest.fixture(autouse=True)
def _on_disk(disk_waited_for: None) -> None:
    """The program on a terminal finds on the disk what a test wrote there."""
