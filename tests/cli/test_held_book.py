"""Commands beside an open court screen: what adds comes in, what takes away waits, all by name."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import asdict, replace

import pytest
import typer
from typer.core import TyperGroup

from courtlog.cli.actions import agree
from courtlog.cli.commands.app import app
from courtlog.logbook.file.writer_lock import LockOwner, WriterLock
from tests.cli.filmed_yardsticks import filmed
from tests.cli.program import Home
from tests.court import START, desk_in, feed
from tests.film.balls import needs_ffmpeg
from tests.film.built import mvhd, track, video

INES = LockOwner.here("Ines", START)
AFAR = replace(INES, host="clubhouse")

ALONE = {
    "history back": "7",
    "history forward": "7",
    "erase": "Maren --yes",
    "doctor": "--mend",
    "gather": "other/book.db",
    "import": "out",
    "restore": "copy.db --yes",
}
"""What takes away, changes what was fed, or replaces the book."""

BESIDE = {
    "clinic new": "Hill-Week",
    "clinic edit": "--days 4",
    "roster add": "Cleo",
    "roster edit": "Tove --hand left",
    "roster import": "players.csv",
    "plan keep": "",
    "plan set": "1 --balls 12",
    "plan move": "1 2",
    "plan drop": "1",
    "plan add": "Tove --drill forehand/hand-feed --purpose practice",
    "plan forget": "",
    "courts": "2 --in stick",
    "heat": "--temperature 31C --humidity 60",
    "sheet in": "sheet.txt",
    "agree in": "again.txt --coach Bo",
    "film add": "20260512-083000.mp4",
    "film hit": "20260512-083000.mp4 --later 0.3",
}
"""What adds to the book, or changes what is only planned."""

ON_A_SCREEN = {"agree rate", "paper in", "demo"}
"""Rate or type on a screen of their own, beside the court; play in a scratch book."""

NEEDS_FILMS = {"film blind": "Maren --films phone --to blind"}
"""Adds a page to the book, as what adds beside the court does, once two days are on film."""

READS = {
    *("day", "trend", "player", "takehome", "clinic show", "roster list", "plan", "drills list"),
    *("drills show", "drills check", "sheet out", "history", "agree", "export", "views"),
    *("backup", "settings", "version", "manual", "evening", "film", "film chapters", "film pair"),
    *("academy add", "academy ask", "academy questions", "academy season"),
    *("paper", "paper court", "paper cues", "paper form", "paper home"),
}


@pytest.fixture
def played(home: Home, monkeypatch: pytest.MonkeyPatch) -> Home:
    """A book that each of these commands would change, on the day it was played."""
    for folder in (home.folder, home.folder / "other"):
        folder.mkdir(exist_ok=True)
        desk = desk_in(folder)
        feed(desk, "222")
        desk.clock.pass_seconds(9)  # type: ignore[attr-defined]
        feed(desk, "0-1!/")
        desk.book.close()
    for path in ("cli.common.now", "cli.actions.heat.now", "cli.actions.plan.now"):
        monkeypatch.setattr(f"courtlog.{path}", lambda: START)
    home.run("backup", "copy.db").lines  # noqa: B018 - went well
    home.run("export", "out").lines  # noqa: B018 - went well
    texts = {
        "players.csv": "name\nAda\n",
        "sheet.txt": "clinic Bay  zone UTC\nroster Jorun\n",
        "again.txt": "08:30:00 Maren 212\n",
    }
    film = video(mvhd(0, 1000, 600_000), track())
    (home.folder / "20260512-083000.mp4").write_bytes(film)
    for name, text in texts.items():
        (home.folder / name).write_text(text, encoding="utf-8")
    return home


def test_every_command_is_in_one_of_these_lists() -> None:
    every = set(names())
    lists = [set(ALONE), set(BESIDE), ON_A_SCREEN, set(NEEDS_FILMS), READS]
    assert every == set().union(*lists)
    assert sum(map(len, lists)) == len(every)


def names() -> Iterator[str]:
    """Every command that does something, as it is typed."""
    waiting = [("", typer.main.get_command(app))]
    while waiting:
        before, command = waiting.pop()
        if not isinstance(command, TyperGroup):
            yield before
            continue
        if command.invoke_without_command and before:
            yield before
        waiting += [(f"{before} {name}".strip(), one) for name, one in command.commands.items()]


def files(home: Home) -> dict[str, bytes]:
    """Every file but those that SQLite makes to read the book."""
    return {
        name: held for name, held in home.files().items() if not name.endswith(("-wal", "-shm"))
    }


def rows(home: Home) -> list[str]:
    """Everything in the book."""
    with closing(sqlite3.connect(home.book)) as db:
        return list(db.iterdump())


@pytest.mark.parametrize("command", ALONE)
def test_what_takes_away_waits_until_the_court_is_closed(played: Home, command: str) -> None:
    words = [*command.split(), *ALONE[command].split()]
    claim = WriterLock(played.book, INES)
    assert claim.take()
    before = files(played)
    run = played.run(*words)
    assert (run.code, run.out) == (1, "")
    assert f"{INES.words()} writes in this book." in run.err
    assert files(played) == before
    claim.release()
    run = played.run(*words, *(["--same", "Harbour Week"] if command == "gather" else []))
    assert "writes in this book" not in run.err


@pytest.mark.parametrize("command", BESIDE)
def test_what_adds_comes_in_beside_the_court(played: Home, command: str) -> None:
    if command.startswith("plan ") and command != "plan keep":
        assert played.run("plan", "keep").lines
    if command == "film hit":
        assert played.run("film", "add", *BESIDE["film add"].split()).lines
    claim = WriterLock(played.book, INES)
    assert claim.take()
    before = rows(played)
    assert played.run(*command.split(), *BESIDE[command].split()).lines
    assert rows(played) != before
    assert claim.path.exists(), "the court has the book as before"
    claim.release()


@needs_ffmpeg
def test_what_is_made_of_films_is_made_beside_the_court(home: Home) -> None:
    filmed(home)
    claim = WriterLock(home.book, INES)
    assert claim.take()
    before = rows(home)
    assert home.run("film", "pair", "Maren", "--films", "phone").lines
    assert rows(home) == before
    assert home.run("film", "blind", *NEEDS_FILMS["film blind"].split()).lines
    assert len(rows(home)) > len(before)
    assert claim.path.exists(), "the court has the book as before"
    claim.release()


@pytest.mark.parametrize("command", [*ALONE, *BESIDE, *NEEDS_FILMS, "agree rate"])
def test_nothing_is_written_while_another_computer_may_have_the_book(
    played: Home, command: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(agree, "has_terminal", lambda: True)
    WriterLock(played.book, INES).path.write_text(json.dumps(asdict(AFAR)), encoding="utf-8")
    before = files(played)
    words = (ALONE | BESIDE | NEEDS_FILMS | {"agree rate": "--coach Bo"})[command]
    run = played.run(*command.split(), *words.split())
    assert (run.code, run.out) == (1, "")
    assert "was not closed by Ines on clubhouse" in run.err
    assert files(played) == before
