"""What tests of sounds share: programs of their own on the PATH."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.courtside.sound.fake_programs import FakePrograms


@pytest.fixture
def fakes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> FakePrograms:
    """No program on the PATH but those that the test puts there; the player is Linux's."""
    monkeypatch.setattr("sys.platform", "linux")
    made = FakePrograms.in_folder(tmp_path / "fakes")
    monkeypatch.setenv("PATH", str(made.folder / "bin"))
    monkeypatch.setenv("COURTLOG_SOUNDS", str(made.folder / "sounds"))
    return made
