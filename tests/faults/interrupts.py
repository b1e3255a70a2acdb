"""Ctrl+C at any moment of any command: one sentence or none, exit code 130, and a sound book.

The moment is drawn among all calls of functions that the run makes, which a profile function
counts: no clock is in it. It begins with the program's first own call; a Ctrl+C while Python itself
is being loaded is Python's.
"""

from __future__ import annotations

import contextlib
import random
import shutil
import subprocess
import sys
import termios
from pathlib import Path

from courtlog.cli.ctrl_c import INTERRUPTED
from courtlog.logbook.file import doctor
from tests.cli.program import Home
from tests.faults.figures import Figure
from tests.faults.words import commands, small_home, usual_words
from tests.terminal import books
from tests.terminal.console import CTRL_Q, Console, environment

RUN = """
import atexit, os, pathlib, signal, sys
moment, counted = int(os.environ["MOMENT"]), 0
def count(*_):
    global counted
    counted += 1
    if counted == moment:
        os.kill(os.getpid(), signal.SIGINT)
from courtlog.cli import ctrl_c, entry
ctrl_c.leave_at_once()
if "COUNTED" in os.environ:
    atexit.register(lambda: pathlib.Path(os.environ["COUNTED"]).write_text(str(counted)))
sys.argv = ["courtlog", *sys.argv[1:]]
sys.setprofile(count)
entry.main()
"""

SENTENCE = "courtlog: stopped by Ctrl+C before it was done."


def interrupts(folder: Path, long: bool) -> Figure:
    """Commands drawn from the program itself, each stopped at moments that are drawn."""
    figure = Figure("Ctrl+C at any call of any command")
    dice = random.Random(13)
    lines = [usual_words(path, command) for path, command in commands() if path]
    small_home(folder / "whole")
    for words in lines if long else dice.sample(lines, 2):
        home = _anew(folder)
        calls = _calls(home, words)
        whole = home.files().keys()
        for _ in range(5 if long else 2):
            moment = dice.randrange(calls)
            with figure.trial(f"{' '.join(words)} at call {moment} of {calls}"):
                home = _anew(folder)
                _stopped(home, words, moment)
                figure.left_behind += len(home.files().keys() - whole)
                assert home.files().keys() <= whole, home.files().keys() - whole
                said = home.run("doctor")
                assert said.code == 0, said.out
    return figure


def court_interrupts(folder: Path, long: bool) -> Figure:
    """The court screen, stopped from outside while it opens; the terminal is as it was."""
    figure = Figure("Ctrl+C while the court screen opens")
    dice = random.Random(17)
    path = folder / "book.db"
    books.prepare(path)
    argv = [sys.executable, "-c", RUN, "--book", str(path)]
    counted = folder / "calls"
    with Console(argv, environment(folder, MOMENT="0", COUNTED=str(counted))) as console:
        console.wait_for("next up")
        console.press(CTRL_Q)
        assert console.read_to_end() == 0
    for _ in range(60 if long else 4):
        moment = dice.randrange(int(counted.read_text()))
        with (
            figure.trial(f"at call {moment}"),
            Console(argv, environment(folder, MOMENT=str(moment))) as console,
        ):
            before = termios.tcgetattr(console.fileno())
            with contextlib.suppress(AssertionError):  # it may have ended, or be over the moment
                console.wait_for("next up")
                console.press(CTRL_Q)
            assert console.read_to_end() in (0, INTERRUPTED)
            sent = bytes(console.sent)
            assert b"Traceback" not in sent, console.text
            assert b"Error" not in sent, console.text
            assert sent.count(b"\x1b[?1049h") <= sent.count(b"\x1b[?1049l"), "the screen was kept"
            assert termios.tcgetattr(console.fileno()) == before, "the terminal was left raw"
            with books.reading(path) as book:
                assert doctor.findings(book) == []
    return figure


def _stopped(home: Home, words: tuple[str, ...], moment: int) -> None:
    done = _run(home, words, MOMENT=str(moment))
    assert "Traceback" not in done.stderr, done.stderr
    assert done.returncode in (0, 1, 2, INTERRUPTED), done.stderr
    if done.returncode == INTERRUPTED:
        assert not done.stderr or done.stderr.startswith(SENTENCE), done.stderr
        assert done.stderr.count("\n") <= 1, done.stderr


def _calls(home: Home, words: tuple[str, ...]) -> int:
    """How many calls the whole command makes."""
    counted = home.folder.with_name("calls")
    _run(home, words, MOMENT="0", COUNTED=str(counted))
    return int(counted.read_text())


def _run(home: Home, words: tuple[str, ...], **env: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", RUN, *words],
        cwd=home.folder,
        env=home.environment(**env),
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )


def _anew(folder: Path) -> Home:
    shutil.rmtree(folder / "home", ignore_errors=True)
    shutil.copytree(folder / "whole", folder / "home")
    return Home(folder / "home")
