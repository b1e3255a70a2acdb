"""Backups at the court: made beside the keys when it opens and when a day begins."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from datetime import timedelta
from pathlib import Path

from courtlog.courtside.app.court_app import CourtlogApp, MakeBackup
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.file import backups
from tests.court import again, desk_in, feed
from tests.courtside.screen import shown


def court(desk: Desk, keep_copy: MakeBackup, keys: Sequence[str] = ()) -> str:
    """The screen after these keys, when every backup is through."""

    async def run() -> str:
        app = CourtlogApp(desk, None, "Europe/Lisbon", keep_copy)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.press(*keys)
            await pilot.pause()
            await app.workers.wait_for_complete()
            await pilot.pause()
            return shown(app.screen)

    return asyncio.run(run())


def test_opening_the_court_makes_a_backup(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "__")

    def keep(stopped: object) -> list[str]:
        return backups.make_backups(desk.book.path, "", desk.clock())

    text = court(again(desk), keep)
    assert "backup" not in text, "what went well needs no words"
    (made,) = backups.backup_paths(tmp_path / "backups")
    assert backups.read_backup(made).contents.balls == 2


def test_a_new_day_makes_another(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "__")
    tomorrow = desk.clock() + round(timedelta(days=1).total_seconds() * 1000)
    desk.state.clock = lambda: tomorrow
    days: list[int] = []

    def keep(stopped: object) -> list[str]:
        days.append(desk.view.day.number)
        return []

    court(desk, keep, ["enter"])
    assert len(days) == 2, "once when the court opened"
    assert days[-1] == 2


def test_a_backup_that_fails_is_said_and_stops_nobody(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    (tmp_path / "backups").write_text("in the way")

    def keep(stopped: object) -> list[str]:
        return backups.make_backups(desk.book.path, "", desk.clock())

    text = court(desk, keep)
    assert "No backup could be made" in text
    text = court(again(desk), keep, ["space"])
    assert "1 of 1" in text
