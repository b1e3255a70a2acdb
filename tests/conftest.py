"""What every test shares: the flag for long runs, and a home that is never the real one."""

from __future__ import annotations

import gc
import secrets
import sqlite3
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any
from unittest import mock

import pytest
import textual.app
import textual.pilot
from hypothesis import HealthCheck, settings

from courtlog.courtside.app import own_app
from courtlog.courtside.sound import loudspeaker
from courtlog.courtside.sound.loudspeaker import Request
from courtlog.film import cutting
from courtlog.logbook.file import open_book
from tests import doses, remembered, slow
from tests.courtside.screen import settled
from tests.courtside.sound.recorder import Recorder


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--long` runs at a coach's pace and at every point; the ordinary run takes a short dose.

    `--quick` leaves out the few that take most of the time. `--spark` starts Spark, which takes
    longer than all that it is asked. `--kit` builds what a laptop without a network is given, out
    of the package index.
    """
    parser.addoption("--long", action="store_true", help="run the long versions of the tests")
    parser.addoption("--quick", action="store_true", help="leave out what slow_tests.txt names")
    parser.addoption("--spark", action="store_true", help="ask Spark as well (needs Java 17)")
    parser.addoption("--kit", action="store_true", help="build and try the kits (two minutes)")


def pytest_configure(config: pytest.Config) -> None:
    """Tell it to the tests that draw, before they are loaded."""
    doses.take_the_whole(bool(config.getoption("--long")))
    # A busy machine is no failure.
    slow = [HealthCheck.too_slow]
    settings.register_profile("untimed", deadline=None, suppress_health_check=slow)
    settings.load_profile("untimed")
    gc.disable()  # loading makes no rubbish, and searching for it takes a fifth of the loading


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave most combinations of costly cases to the long run, and slow tests to a run of all."""
    left = doses.left_for_long(items, Path(__file__).parent)
    if config.getoption("--quick"):
        left |= slow.left_for_slow(items)
    config.hook.pytest_deselected(items=[item for item in items if item in left])
    items[:] = [item for item in items if item not in left]


def pytest_collection_finish() -> None:
    """Sweep memory again, but never again through all that was loaded, which stays."""
    gc.collect()
    gc.freeze()
    gc.enable()


@pytest.fixture
def long_run(request: pytest.FixtureRequest) -> bool:
    """Whether the long versions were asked for."""
    return bool(request.config.getoption("--long"))


MANY_FILES = 200


@pytest.fixture(autouse=True)
def nothing_frozen(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The app sweeps its memory and keeps what it has loaded; a test's app must go when it ends."""
    monkeypatch.setattr(own_app, "gc", mock.Mock(spec=gc))
    yield
    open_files = Path("/proc/self/fd")
    if open_files.is_dir() and sum(1 for _ in open_files.iterdir()) > MANY_FILES:
        gc.collect()


@pytest.fixture(autouse=True)
def nobody_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No test reads or writes the coach's own book, settings or drills."""
    monkeypatch.setenv("COURTLOG_BOOK", str(tmp_path / "own" / "book.db"))
    monkeypatch.setenv("COURTLOG_SETTINGS", str(tmp_path / "own" / "settings.json"))
    monkeypatch.setenv("COURTLOG_DRILLS", str(tmp_path / "own" / "drills"))
    monkeypatch.setenv("COURTLOG_ERRORS", str(tmp_path / "own" / "errors.txt"))
    monkeypatch.setenv("COURTLOG_SOUNDS", "")
    monkeypatch.delenv("NO_COLOR", raising=False)


@pytest.fixture(autouse=True)
def draws_of_its_own(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Orders of balls are drawn anew for every round; in a test they are the same on every run."""
    draws = Random(request.node.nodeid)
    monkeypatch.setattr(secrets, "randbits", draws.getrandbits)
    monkeypatch.setattr(secrets, "randbelow", draws.randrange)


@pytest.fixture(autouse=True)
def heard(monkeypatch: pytest.MonkeyPatch) -> list[Request]:
    """What the courts of this test ask their loudspeakers for; nothing is played."""
    requests: list[Request] = []
    monkeypatch.setattr(loudspeaker, "Loudspeaker", lambda _: Recorder(requests))
    return requests


@pytest.fixture
def keeps_deleted_bytes(monkeypatch: pytest.MonkeyPatch) -> None:
    """As SQLite is built by default; some systems build it so that what is deleted is zeroed."""
    connect = sqlite3.connect

    def connected(*arguments: Any, **options: Any) -> sqlite3.Connection:
        db: sqlite3.Connection = connect(*arguments, **options)
        db.execute("PRAGMA secure_delete = OFF")
        return db

    monkeypatch.setattr(sqlite3, "connect", connected)


@pytest.fixture(autouse=True)
def no_sleep_between_keys(monkeypatch: pytest.MonkeyPatch) -> None:
    """Keys are pressed one upon the other: the pilot waits for what is left to do, not for time."""
    monkeypatch.setattr(textual.app, "wait_for_idle", settled)
    monkeypatch.setattr(textual.pilot, "wait_for_idle", settled)


@pytest.fixture(autouse=True, scope="session")
def remembered_set_up() -> Iterator[None]:
    """What many tests need and none is about is worked out once for all of a process."""
    with pytest.MonkeyPatch.context() as patch:
        remembered.remember(patch)
        yield


@pytest.fixture
def books_from_scratch(monkeypatch: pytest.MonkeyPatch, disk_waited_for: None) -> None:
    """Every book is made and opened by the program, for tests of how it does."""
    monkeypatch.setattr(open_book, "_bring_up", remembered.bring_up)


@pytest.fixture
def disk_waited_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is written is on the disk, for tests of what outlives the program or the machine."""
    monkeypatch.setattr(open_book, "_to_write", remembered.open_to_write)


@pytest.fixture
def every_clip_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every clip and still is cut by ffmpeg, for tests of how it is cut."""
    monkeypatch.setattr(cutting, "_run", remembered.run_ffmpeg)
