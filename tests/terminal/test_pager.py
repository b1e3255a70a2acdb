"""A page longer than the terminal goes through the pager, and none is lost by what that does."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from courtlog import locations
from tests.cli.program import Home
from tests.terminal import books
from tests.terminal.console import Console, command, environment

pytestmark = pytest.mark.terminal

NAME = "x \x1b[31m y"
SHOWN = "x ␛[31m y"
CTRL_C = b"\x03"

STAND_IN = """
import pathlib, signal, sys, tty
signal.signal(signal.SIGINT, signal.SIG_IGN)  # as pagers do
text = sys.stdin.buffer.read() if "closed" not in sys.argv else b""
pathlib.Path(__file__).with_name("got.txt").write_bytes(text)
if "closed" in sys.argv:
    sys.exit(0)
keys = open("/dev/tty", "rb", buffering=0)
tty.setcbreak(keys.fileno(), tty.TCSANOW)
print("A PAGE OF", text.count(b"\\n"), "LINES", flush=True)
while keys.read(1) not in (b"q", b""):
    print("still open", flush=True)
"""


@pytest.fixture
def home(tmp_path: Path) -> Home:
    """A home with a clinic of a hostile name, and a stand-in pager that keeps what it got."""
    books.prepare(tmp_path / "book.db", players=(NAME, "Tove"))
    books.rate(tmp_path / "book.db", "222 210 012")
    (tmp_path / "stand_in.py").write_text(STAND_IN, encoding="utf-8")
    return Home(tmp_path)


def stand_in(home: Home, *words: str) -> str:
    """The command line of the stand-in."""
    return " ".join([sys.executable, str(home.folder / "stand_in.py"), *words])


def on_terminal(home: Home, *words: str, pager: str, lines: int = 24) -> Console:
    """The program on a terminal of 80 columns, with this pager."""
    return Console(command(*words), environment(home.folder, PAGER=pager), 80, lines)


def test_a_long_page_goes_through_the_pager_safe_to_show_and_whole(home: Home) -> None:
    with on_terminal(home, "day", pager=stand_in(home), lines=5) as console:
        console.wait_for("A PAGE OF")
        console.press(CTRL_C)
        console.press(b"x")
        console.wait_for("still open")
        console.press(b"q")
        assert console.read_to_end() == 0
        assert "Traceback" not in console.text
    got = (home.folder / "got.txt").read_text(encoding="utf-8")
    assert got.splitlines() == home.run("day").lines
    assert SHOWN in got


def test_a_pager_that_is_closed_at_once_ends_the_command_well(home: Home) -> None:
    words = ("drills", "show", "forehand/hand-feed")
    for page in (("day",), words):
        with on_terminal(home, *page, pager=stand_in(home, "closed"), lines=5) as console:
            assert console.read_to_end() == 0
            assert "Traceback" not in console.text


@pytest.mark.parametrize("pager", ["no-such-pager-here --x", "'open quote", "", "cat"])
def test_without_a_pager_the_page_is_printed(home: Home, pager: str) -> None:
    with on_terminal(home, "day", pager=pager, lines=60) as tall:
        assert tall.read_to_end() == 0
    with on_terminal(home, "day", pager=pager, lines=5) as console:
        assert console.read_to_end() == 0
        assert console.sent == tall.sent
        assert b"\x1b" not in console.sent


def test_what_fits_and_what_a_program_reads_is_never_paged(home: Home) -> None:
    with on_terminal(home, "day", pager=stand_in(home), lines=200) as console:
        assert console.read_to_end() == 0
        assert SHOWN in console.text
    with on_terminal(home, "day", "--json", pager=stand_in(home), lines=5) as console:
        assert console.read_to_end() == 0
    piped = subprocess.run(
        command("day"),
        env=environment(home.folder, PAGER=stand_in(home), LINES="5"),
        capture_output=True,
        check=True,
    )
    assert SHOWN in piped.stdout.decode()
    assert not (home.folder / "got.txt").exists()


@pytest.mark.parametrize("program", ["less", "more"])
def test_usual_pagers_show_the_page_and_leave_at_q(tmp_path: Path, program: str) -> None:
    if shutil.which(program) is None:
        pytest.skip(f"{program} is not on this machine")
    home = Home(tmp_path)
    home.run("sheet", "in", locations.shipped_samples() / "harbour-week.txt")
    with on_terminal(home, "trend", "Maren", pager=program) as console:
        console.wait_for("Harbour Week")
        console.press(b"q")
        assert console.read_to_end() == 0
        assert "Traceback" not in console.text
