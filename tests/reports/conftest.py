"""What the tests of pages in a browser share."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.reports.browser import Browser, browser


@pytest.fixture(scope="module")
def window(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """One browser for all tests of a module."""
    with browser(tmp_path_factory.mktemp("profile")) as opened:
        yield opened
