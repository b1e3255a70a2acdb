"""Homes for the command line: an empty one for each test, filled ones shared and never changed."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.cli.program import HARBOUR, WEEKEND, Home, home_with


@pytest.fixture
def home(tmp_path: Path) -> Home:
    """A home with nothing in it."""
    folder = tmp_path / "home"
    folder.mkdir()
    return Home(folder)


@pytest.fixture(scope="session")
def harbour(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Home]:
    """A home with the five-day sample, the same afterwards as before."""
    filled = home_with(tmp_path_factory.mktemp("harbour"), HARBOUR)
    before = filled.files()
    yield filled
    assert filled.files() == before


@pytest.fixture(scope="session")
def weekend(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Home]:
    """A home with the two-court sample, the same afterwards as before."""
    filled = home_with(tmp_path_factory.mktemp("weekend"), WEEKEND)
    before = filled.files()
    yield filled
    assert filled.files() == before
