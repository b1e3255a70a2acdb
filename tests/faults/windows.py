"""Two windows on one book, and a command that writes in it while the court screen is open."""

from __future__ import annotations

import subprocess
from pathlib import Path

from courtlog import locations
from tests.faults.figures import Figure, lost
from tests.terminal import books, sights
from tests.terminal.console import Console, command, court, environment
from tests.terminal.mixed import moment, press_and_see

SHEETS = ("harbour-week", "two-court-weekend")
WRITES = (b"u", b" ", b"\r", b"t", b"\x7f", b"\t", b"b", b"p", b"z")


def two_windows(folder: Path, _long: bool) -> Figure:
    """The second changes nothing and follows; it takes over when the first is closed or killed."""
    figure = Figure("two windows: refused, follows, takes over")
    for end in ("closed", "killed"):
        home = folder / end
        home.mkdir()
        path = home / "book.db"
        books.prepare(path)
        env = environment(home)
        with (
            figure.trial(f"first {end}"),
            Console(court(path), env, 80, 24, True) as first,
            books.reading(path) as book,
        ):
            first.wait_until_none(lambda: sights.differences(first.lines, book))
            press_and_see(first, book, b" ")
            with Console(court(path), env, 80, 24, True) as second:
                second.wait_for("READ ONLY")
                second.wait_for("writes in this book")
                before = moment(book)
                for key in WRITES:
                    second.press(key)
                second.press(b"?")  # the last key: once the help shows, all before it are done
                second.wait_for("Pad: right hand")
                second.press(b"\x1b")
                assert moment(book) == before, "the second window wrote"
                press_and_see(first, book, b" ")
                second.wait_until_none(lambda: sights.differences(second.lines, book))
                seen = moment(book)[1].feeding
                if end == "closed":
                    assert first.quit() == 0
                else:
                    first.kill()
                second.press(b"u")
                second.wait_for("Press the key again")
                figure.lost += lost(seen, moment(book)[1].feeding)
                assert moment(book)[1].feeding == seen
                press_and_see(second, book, b"u")
                assert "READ ONLY" not in second.text
                assert second.quit() == 0
            assert books.tallies_differ(path) == []
    return figure


def commands(folder: Path, _long: bool) -> Figure:
    """A whole sheet comes in between two keys; both are in the book, and the screen is as it."""
    figure = Figure("a sheet read in while the court screen is open")
    path = folder / "book.db"
    books.prepare(path)
    env = environment(folder)
    samples = [locations.shipped_samples() / f"{name}.txt" for name in SHEETS]
    with (
        Console(court(path), env, 80, 24, True) as console,
        books.reading(path) as book,
    ):
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        for sheet in samples:
            with figure.trial(sheet.name):
                press_and_see(console, book, b" ")
                seen = moment(book)[1].feeding
                words = command("sheet", "in", str(sheet))
                subprocess.run(words, env=env, check=True, capture_output=True)
                for key in (b"u", b"k", b".", b" "):
                    press_and_see(console, book, key)
                figure.lost += lost(seen, moment(book)[1].feeding)
                assert len(moment(book)[1].feeding.taken) == len(seen.taken) + 2
                assert books.tallies_differ(path) == []
    return figure
