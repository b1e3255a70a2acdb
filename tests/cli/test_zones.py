"""The zone that is proposed for a clinic is the one this computer's clock shows."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from types import ModuleType
from zoneinfo import ZoneInfo

import pytest

from courtlog.cli import zones
from courtlog.cli.zones import local_zone, named_zone

pytestmark = pytest.mark.skipif(not hasattr(time, "tzset"), reason="TZ is read on POSIX only")

MOMENT = datetime(2026, 5, 12, 7, 30, tzinfo=UTC)


@pytest.fixture
def laptop(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[pytest.MonkeyPatch]:
    """A laptop whose system names no zone; what a test sets is taken back for good."""
    monkeypatch.setattr(zones, "_LINK", tmp_path / "localtime")
    monkeypatch.delenv("TZ", raising=False)
    yield monkeypatch
    monkeypatch.undo()
    time.tzset()


# POSIX writes a zone's offset westward: <+09>-9 is nine hours east of Greenwich.
@pytest.mark.parametrize(
    ("posix", "hours", "name"),
    [
        ("<+09>-9", 9, "Etc/GMT-9"),
        ("<+14>-14", 14, "Etc/GMT-14"),
        ("<-04>4", -4, "Etc/GMT+4"),
        ("<-11>11", -11, "Etc/GMT+11"),
        ("<+00>0", 0, "UTC"),
        ("", 0, "UTC"),
    ],
)
def test_a_clock_without_a_name_gets_the_zone_of_its_hours(
    laptop: pytest.MonkeyPatch, posix: str, hours: int, name: str
) -> None:
    laptop.setenv("TZ", posix)
    time.tzset()
    assert local_zone() == name
    offset = MOMENT.astimezone(ZoneInfo(local_zone())).utcoffset()
    assert offset is not None
    assert offset.total_seconds() == hours * 3600
    assert offset == MOMENT.astimezone().utcoffset()


def test_a_name_goes_first(laptop: pytest.MonkeyPatch, tmp_path: Path) -> None:
    zone = tmp_path / "zoneinfo" / "Asia" / "Kathmandu"
    zone.parent.mkdir(parents=True)
    zone.touch()
    (tmp_path / "localtime").symlink_to(zone)
    assert local_zone() == "Asia/Kathmandu"
    laptop.setenv("TZ", ":Europe/Lisbon")
    assert local_zone() == "Europe/Lisbon"
    laptop.setenv("TZ", "no such zone")
    assert local_zone() == "Asia/Kathmandu"


def test_on_windows_the_zone_of_its_settings_is_asked_by_its_iana_name(
    laptop: pytest.MonkeyPatch,
) -> None:
    asked = ModuleType("tzlocal")
    asked.get_localzone_name = lambda: "Europe/Lisbon"  # type: ignore[attr-defined]
    laptop.setitem(sys.modules, "tzlocal", asked)
    assert named_zone() == ""
    laptop.setattr(sys, "platform", "win32")
    assert named_zone() == "Europe/Lisbon"
