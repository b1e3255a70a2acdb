"""Only programs of whole folders are run: never what lies where somebody stands."""

from __future__ import annotations

import os

import pytest

from courtlog.courtside.sound import programs
from tests.courtside.sound.fake_programs import WELL, FakePrograms


def test_players_are_found_by_their_whole_paths_the_best_first(fakes: FakePrograms) -> None:
    for name in ("aplay", "paplay", "espeak-ng"):
        fakes.put(name, WELL)
    at = fakes.folder / "bin"
    assert programs.players() == [(str(at / "paplay"),), (str(at / "aplay"), "-q")]
    assert programs.voices() == [(str(at / "espeak-ng"), "--stdin")]


@pytest.mark.parametrize("path", ["", ".", ".:", "bin", "./bin:", "::"])
def test_nothing_is_run_from_the_folder_somebody_stands_in(
    fakes: FakePrograms, monkeypatch: pytest.MonkeyPatch, path: str
) -> None:
    for name in ("aplay", "paplay", "pw-play", "espeak-ng"):
        fakes.put(name, WELL)
    monkeypatch.setenv("PATH", path)
    for folder in (fakes.folder, fakes.folder / "bin"):
        monkeypatch.chdir(folder)
        assert programs.players() == programs.voices() == []


def test_what_may_not_be_run_or_is_no_file_is_no_player(fakes: FakePrograms) -> None:
    fakes.put("paplay", WELL)
    (fakes.folder / "bin" / "paplay").chmod(0o600)
    (fakes.folder / "bin" / "pw-play").mkdir()
    assert programs.players() == []


def test_where_no_sounds_are_wished_for_nothing_is_looked_for(
    fakes: FakePrograms, monkeypatch: pytest.MonkeyPatch
) -> None:
    fakes.put("aplay", WELL)
    monkeypatch.setenv("COURTLOG_SOUNDS", "")
    assert programs.players() == []


def test_windows_speaks_by_its_own_powershell_alone(
    fakes: FakePrograms, monkeypatch: pytest.MonkeyPatch
) -> None:
    fakes.put("powershell.exe", WELL)
    monkeypatch.chdir(fakes.folder / "bin")
    monkeypatch.setattr("sys.platform", "win32")
    monkeypatch.setenv("SYSTEMROOT", str(fakes.folder / "windows"))
    assert programs.players() == programs.voices() == []
    own = fakes.folder / "windows" / "System32" / "WindowsPowerShell" / "v1.0"
    own.mkdir(parents=True)
    os.link(fakes.folder / "bin" / "powershell.exe", own / "powershell.exe")
    ((program, *options),) = programs.voices()
    assert program == str(own / "powershell.exe")
    assert options[:3] == ["-NoProfile", "-NonInteractive", "-Command"]


def test_a_mac_has_its_own(fakes: FakePrograms, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("afplay", "say", "aplay"):
        fakes.put(name, WELL)
    monkeypatch.setattr("sys.platform", "darwin")
    at = fakes.folder / "bin"
    assert programs.players() == [(str(at / "afplay"),)]
    assert programs.voices() == [(str(at / "say"), "-f", "-")]
