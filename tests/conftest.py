"""What every test shares: the flag for long runs, and a home that is never the real one."""

from __future__ import annotations

from pathlib import Path

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--long` runs at a coach's pace and at every point; the ordinary run takes a short dose."""
    parser.addoption("--long", action="store_true", help="run the long versions of the tests")


@pytest.fixture
def long_run(request: pytest.FixtureRequest) -> bool:
    """Whether the long versions were asked for."""
    return bool(request.config.getoption("--long"))


@pytest.fixture(autouse=True)
def nobody_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No test reads or writes the coach's own book, settings or drills."""
    monkeypatch.setenv("COURTLOG_BOOK", str(tmp_path / "own" / "book.db"))
    monkeypatch.setenv("COURTLOG_SETTINGS", str(tmp_path / "own" / "settings.json"))
    monkeypatch.setenv("COURTLOG_DRILLS", str(tmp_path / "own" / "drills"))
    monkeypatch.delenv("NO_COLOR", raising=False)
