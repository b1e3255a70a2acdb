"""The terminal hangs up, vanishes without a word, is stopped and goes on, becomes tiny."""

from __future__ import annotations

import signal
from collections.abc import Callable
from pathlib import Path

from tests.faults.figures import Figure, lost
from tests.terminal import books, sights
from tests.terminal.console import Console, court, environment
from tests.terminal.mixed import moment, press_and_see

CTRL_Z = b"\x1a"
SHELL = "[1]+  Stopped                 courtlog\r\n$ ls\r\nbook.db  backups\r\n$ fg\r\n" * 5


def ends(folder: Path, _long: bool) -> Figure:
    """However the terminal goes: the program leaves, the book is whole and nobody holds it."""
    figure = Figure("terminal gone: hang-up, told to end, vanished unsaid")
    ways: dict[str, tuple[bool, Callable[[Console], int]]] = {
        "window closed": (True, Console.vanish),
        "vanished without a signal": (False, Console.vanish),
        "hang-up signal": (True, lambda console: _signalled(console, signal.SIGHUP)),
        "told to end": (True, lambda console: _signalled(console, signal.SIGTERM)),
    }
    for number, (name, (hang_up, way)) in enumerate(ways.items()):
        home = folder / f"gone-{number}"
        home.mkdir()
        path = home / "book.db"
        books.prepare(path)
        with (
            figure.trial(name),
            Console(court(path), environment(home), 80, 24, True, hang_up) as console,
        ):
            with books.reading(path) as book:
                console.wait_until_none(lambda: sights.differences(console.lines, book))
                for key in (b" ", b"u", b"k"):
                    press_and_see(console, book, key)
                seen = moment(book)[1].feeding
            assert way(console) == 0
            kept = books.on_court(path)[1].feeding
            figure.lost += lost(seen, kept)
            assert kept == seen
            assert [file.name for file in home.glob("book.db*")] == ["book.db"]
            assert books.tallies_differ(path) == []
    return figure


def stops(folder: Path, _long: bool) -> Figure:
    """After every stop the whole court is on the screen again, and each key is taken once."""
    figure = Figure("stopped and continued: Ctrl-Z, from outside, unasked")
    path = folder / "book.db"
    books.prepare(path)
    ways: dict[str, Callable[[Console], None]] = {
        "Ctrl-Z": lambda console: console.press(CTRL_Z),
        "stopped by the shell": lambda console: console.signal(signal.SIGTSTP),
        "stopped outright": lambda console: console.signal(signal.SIGSTOP),
    }
    with (
        Console(court(path), environment(folder), 80, 24, True) as console,
        books.reading(path) as book,
    ):
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        for name, stop in ways.items():
            with figure.trial(name):
                press_and_see(console, book, b" ")
                stop(console)
                console.wait_until_stopped()
                console.draw_over(SHELL)
                console.signal(signal.SIGCONT)
                console.wait_until_none(lambda: sights.differences(console.lines, book))
                assert "Stopped" not in console.text
                press_and_see(console, book, b"t")
                press_and_see(console, book, b"\r")
        with figure.trial("continued without a stop"):
            before = len(moment(book)[1].feeding.taken)
            console.signal(signal.SIGCONT)
            console.press(b"ojmul.ik," * 20)  # a key taken twice or out of place shows
            console.wait_for(lambda: len(moment(book)[1].feeding.taken) >= before + 60)
            balls = [ball.token().rstrip("!") for ball in moment(book)[1].feeding.taken[before:]]
            assert balls == ["200", "022", "111"] * 20, balls
            console.wait_until_none(lambda: sights.differences(console.lines, book))
    return figure


def sizes(folder: Path, _long: bool) -> Figure:
    """Every key typed on a tiny window is kept, and the court is whole again on a usual one."""
    figure = Figure("window made 20 by 5 and large again, a key in between")
    path = folder / "book.db"
    books.prepare(path)
    # A variable of Python's own: the court starts in a new Python, as a coach starts it.
    env = environment(folder, PYTHONDONTWRITEBYTECODE="1")
    with (
        Console(court(path), env, 80, 24, True) as console,
        books.reading(path) as book,
    ):
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        for columns, lines in ((20, 5), (1, 1), (300, 90), (20, 5)):
            with figure.trial(f"{columns} by {lines}"):
                before = moment(book)
                console.resize(columns, lines)
                console.press(b" ")
                console.wait_for(lambda: moment(book) != before)  # noqa: B023
                console.resize(80, 24)
                console.wait_until_none(lambda: sights.differences(console.lines, book))
                press_and_see(console, book, b"t")
                press_and_see(console, book, b"\r")
    return figure


def _signalled(console: Console, number: int) -> int:
    console.signal(number)
    return console.read_to_end()
