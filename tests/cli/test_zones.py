"""The zone that is proposed for a clinic is the one this computer's clock shows."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import pytest
import tzlocal

from courtlog.cli import zones
from courtlog.cli.zones import local_zone, named_zone

if sys.platform == "win32":
    pytest.skip("TZ is read on POSIX only", allow_module_level=True)

MOMENT = datetime(2026, 5, 12, 7, 30, tzinfo=UTC)


@pytest.fixture
def laptop(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[pytest.MonkeyPatch]:
    """A laptop whose system names no zone; what a test sets is taken back for good."""
    monkeypatch.setattr(zones, "_LINK", tmp_path / "localtime")
    monkeypatch.setattr(tzlocal, "get_localzone_name", lambda: None)
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


# Rules as POSIX writes them; the cities' own clock changes are in the IANA database.
@pytest.mark.parametrize(
    ("posix", "hours"),
    [
        ("CET-1CEST,M3.5.0,M10.5.0/3", {1, 2}),
        ("AAA5BBB,M3.2.0,M11.1.0", {-5, -4}),
        ("AAA-10BBB,M10.1.0,M4.1.0/3", {10, 11}),
        ("<+0530>-5:30", {5.5}),
        ("<-0330>3:30<-0230>,M3.2.0,M11.1.0", {-3.5, -2.5}),
    ],
)
def test_a_clock_without_a_name_gets_a_zone_that_goes_as_it_does(
    laptop: pytest.MonkeyPatch, posix: str, hours: set[float]
) -> None:
    laptop.setenv("TZ", posix)
    time.tzset()
    zone = ZoneInfo(local_zone())
    found = set()
    for week in range(52):
        moment = MOMENT + timedelta(weeks=week)
        assert moment.astimezone(zone).utcoffset() == moment.astimezone().utcoffset()
        found.add((moment.astimezone(zone).utcoffset() or timedelta()) / timedelta(hours=1))
    assert found == hours
    assert named_zone() == ""


def link_to(name: str, folder: Path) -> None:
    """Make the system's link name this zone."""
    zone = folder / "zoneinfo" / name
    zone.parent.mkdir(parents=True)
    zone.touch()
    (folder / "localtime").symlink_to(zone)


def test_a_name_goes_first(laptop: pytest.MonkeyPatch, tmp_path: Path) -> None:
    link_to("Asia/Kathmandu", tmp_path)
    assert local_zone() == "Asia/Kathmandu"
    laptop.setenv("TZ", ":Europe/Lisbon")
    assert local_zone() == "Europe/Lisbon"


@pytest.mark.parametrize("asked", ["the link", "the settings"])
def test_a_rule_in_tz_is_obeyed_whatever_the_system_is_set_to(
    laptop: pytest.MonkeyPatch, tmp_path: Path, asked: str
) -> None:
    if asked == "the link":
        link_to("Asia/Kathmandu", tmp_path)
    else:
        laptop.setattr(tzlocal, "get_localzone_name", lambda: "Asia/Kathmandu")
    laptop.setenv("TZ", "<+09>-9")
    time.tzset()
    assert (named_zone(), local_zone()) == ("", "Etc/GMT-9")
    laptop.setenv("TZ", "<+0545>-5:45")  # as Kathmandu's clocks go
    time.tzset()
    assert local_zone() == "Asia/Kathmandu"


def test_where_no_link_names_it_the_settings_of_the_system_are_asked(
    laptop: pytest.MonkeyPatch,
) -> None:
    laptop.setattr(tzlocal, "get_localzone_name", lambda: "Europe/Lisbon")
    assert named_zone() == "Europe/Lisbon"


def test_settings_that_contradict_one_another_name_no_zone(laptop: pytest.MonkeyPatch) -> None:
    def contradict() -> str:
        raise ZoneInfoNotFoundError("Multiple conflicting time zone configurations found")

    laptop.setattr(tzlocal, "get_localzone_name", contradict)
    laptop.setenv("TZ", "<+00>0")
    time.tzset()
    assert (named_zone(), local_zone()) == ("", "UTC")
