"""What tests of sounds share: programs of their own on the PATH."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.courtside.sound.fake_programs import FakePrograms


@pytest.fixture
def fakes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> FakePrograms:
    """No program on the PATH but those that the test puts there; the player is Linux's."""
    monkeypatch.setattr("sys.platform", "linux")
    folder = tmp_path / "fakes"
    (folder / "bin").mkdir(parents=True)
    for pipe in ("never", "go", "begun"):
        os.mkfifo(folder / pipe)
    monkeypatch.setenv("PATH", str(folder / "bin"))
    monkeypatch.setenv("COURTLOG_SOUNDS", str(folder / "sounds"))
    return FakePrograms(folder)
