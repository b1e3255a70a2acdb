"""A book cut short, with wrong bytes, of a later time, or with a log that is not its own.

Never a traceback, never a byte changed: a page that can be trusted, or a sentence with what to do.
"""

from __future__ import annotations

import contextlib
import io
import os
import random
import shutil
import signal
import sqlite3
from pathlib import Path
from unittest.mock import patch

import pytest

from courtlog import locations
from courtlog.cli.commands import app
from courtlog.errors import CourtlogError
from tests.faults.figures import Figure
from tests.terminal import books, sights
from tests.terminal.console import Console, court, environment
from tests.terminal.mixed import press_and_see

SAMPLE = locations.shipped_samples() / "harbour-week.txt"
PAGES = (["day"], ["trend", "Maren"], ["player", "Maren"], ["takehome", "Maren"], ["sheet", "out"])
DAMAGES, DAMAGES_LONG = 15, 2000
ON_COURT, ON_COURT_LONG = 2, 60
HEADER = 100
"""Bytes of a database's header (sqlite.org/fileformat2.html, section 1.3)."""


def damages(folder: Path, long: bool) -> Figure:
    """Cuts and wrong bytes at drawn places, read by every command that prints."""
    figure = Figure("book cut short or with wrong bytes, printed")
    path = _sample(folder)
    whole, dice = path.read_bytes(), random.Random(4)
    for number in range(DAMAGES_LONG if long else DAMAGES):
        damaged = _damaged(whole, dice)
        path.write_bytes(damaged)
        words = PAGES[number % len(PAGES)]
        with figure.trial(f"damage {number}, {words[0]}"):
            with contextlib.suppress(CourtlogError):
                _run(*words, "--book", str(path))
            assert path.read_bytes() == damaged, "the file was changed"
    return figure


def damages_on_court(folder: Path, long: bool) -> Figure:
    """The same with the court screen: it comes up, or it leaves with a sentence."""
    figure = Figure("book cut short or with wrong bytes, court screen")
    path = folder / "book.db"
    books.prepare(path)
    books.rate(path, "222 210 012 222! 122")
    whole, dice = path.read_bytes(), random.Random(5)
    for number in range(ON_COURT_LONG if long else ON_COURT):
        for beside in folder.glob("book.db-*"):
            beside.unlink()
        path.write_bytes(_damaged(whole, dice))
        with (
            figure.trial(f"damage {number}"),
            Console(court(path), environment(folder), 80, 24) as console,
        ):
            console.wait_for(lambda: "next up" in console.text or "courtlog: " in console.text)
            if "courtlog: " in console.text:
                assert console.read_to_end() == 1
            else:
                console.press(b" u\r")
                assert console.quit() == 0
            assert "Traceback" not in console.text, console.text
    return figure


def refused(folder: Path, _long: bool) -> Figure:
    """What is no book of our time is left as it is, by every command and the court screen."""
    figure = Figure("a later book, another database, no database")
    path = _sample(folder)
    other = sqlite3.connect(folder / "other.db")
    other.execute("CREATE TABLE shopping (item TEXT)")
    other.close()
    with contextlib.closing(sqlite3.connect(path)) as later:
        later.execute("PRAGMA user_version = 99")
    (folder / "list.db").write_bytes(b"balls, towels, water\n")
    (folder / "zeros.db").write_bytes(bytes(8192))
    for name in ("book.db", "other.db", "list.db", "zeros.db"):
        file = folder / name
        before = file.read_bytes()
        for words in PAGES:
            with figure.trial(f"{name} {words[0]}"):
                with pytest.raises(CourtlogError) as refusal:
                    _run(*words, "--book", str(file))
                assert refusal.value.next_step, refusal.value
                assert file.read_bytes() == before, "the file was changed"
        with (
            figure.trial(f"{name} on court"),
            Console(court(file), environment(folder), 100, 24) as console,
        ):
            assert console.read_to_end() == 1
            assert "courtlog: " in console.text
            assert "Traceback" not in console.text
            assert file.read_bytes() == before, "the file was changed"
    return figure


def logs(folder: Path, _long: bool) -> Figure:
    """What a killed program left in the log is read; the log of another book is not."""
    figure = Figure("a log left behind: alone, with its index, of another book")
    home = folder / "home"
    home.mkdir()
    path = home / "book.db"
    books.prepare(path)
    kept = folder / "kept"
    with (
        Console(court(path), environment(home), 80, 24, True) as console,
        books.reading(path) as book,
    ):
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        for key in (b" ", b"u", b"k", b".", b" "):
            press_and_see(console, book, key)
        console.signal(signal.SIGSTOP)  # as it stands in the middle of a round
        shutil.copytree(home, kept)
    for name, beside in (("alone", ["-wal"]), ("with its index", ["-wal", "-shm"])):
        with figure.trial(name):
            here = folder / name
            here.mkdir()
            for ending in ("", *beside):
                shutil.copyfile(kept / f"book.db{ending}", here / f"book.db{ending}")
            balls = books.on_court(here / "book.db")[1].feeding.taken
            figure.lost += 9 - sum(grade is not None for ball in balls for grade in ball.grades)
            assert [ball.token().rstrip("!") for ball in balls] == ["222", "012", "222"]
    for name in ("another clinic's", "one like it"):
        with figure.trial(name):
            here = folder / name
            here.mkdir()
            path = here / "book.db"
            if name == "one like it":
                books.prepare(path)
            else:
                _run("sheet", "in", str(SAMPLE), "--book", str(path))
            shutil.copyfile(kept / "book.db-wal", here / "book.db-wal")
            before = path.read_bytes(), (here / "book.db-wal").read_bytes()
            with pytest.raises(CourtlogError, match="does not belong"):
                _run("day", "--book", str(path))
            with Console(court(path), environment(here), 100, 24) as console:
                assert console.read_to_end() == 1
                assert "does not belong" in console.text
            assert before == (path.read_bytes(), (here / "book.db-wal").read_bytes())
    return figure


def _sample(folder: Path) -> Path:
    path = folder / "book.db"
    _run("sheet", "in", str(SAMPLE), "--book", str(path))
    return path


def _run(*words: str) -> str:
    """What a command prints. Raises CourtlogError, and whatever else goes wrong in it."""
    out = io.StringIO()
    nothing = str(SAMPLE.with_name("nothing"))
    nobody = {"COURTLOG_SETTINGS": nothing, "COURTLOG_DRILLS": nothing}
    with contextlib.redirect_stdout(out), patch.dict(os.environ, nobody):
        app.app(list(words), standalone_mode=False)
    return out.getvalue()


def _damaged(whole: bytes, dice: random.Random) -> bytes:
    """Cut short, or with a few wrong bits in the header, or wrong bytes anywhere else."""
    kind = dice.choice(("cut", "header", "bytes", "run"))
    if kind == "cut":
        return whole[: dice.randrange(1, len(whole))]
    changed = bytearray(whole)
    if kind == "header":
        for _ in range(dice.randint(1, 4)):
            changed[dice.randrange(HEADER)] ^= 1 << dice.randrange(8)
    elif kind == "bytes":
        for _ in range(dice.choice((1, 20, 500))):
            changed[dice.randrange(HEADER, len(changed))] = dice.randrange(256)
    else:
        start = dice.randrange(HEADER, len(changed) - 64)
        changed[start : start + 64] = dice.randbytes(64)
    return bytes(changed)
