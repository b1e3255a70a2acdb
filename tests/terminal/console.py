"""A program on a real pseudo-terminal: keys in, and the screen a coach would see.

Waiting is by what arrives, and for what no screen tells by looking again. HANG only bounds a
program that has stopped answering.
"""

from __future__ import annotations

import contextlib
import fcntl
import os
import select
import struct
import termios
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from types import TracebackType

import pyte

from tests.terminal import starts
from tests.terminal.starts import PROGRAM, ROOT

start = starts.start_python
"""How a program is started; tests put a quicker way in its place."""

HANG = 60.0
"""Seconds without the awaited sight before a test gives up."""

LOOK_AGAIN = 0.05
"""Seconds between two looks at what is awaited while nothing arrives."""

FRAME_BEGINS, FRAME_ENDS = b"\x1b[?2026h", b"\x1b[?2026l"
ASKS_FOR_FRAMES, HAS_FRAMES = b"\x1b[?2026$p", b"\x1b[?2026;2$y"
"""Synchronized output: the program asks for it, and then marks where a frame begins and ends."""

CTRL_Q = b"\x11"


def environment(home: Path, **more: str) -> dict[str, str]:
    """What the program may know of this machine: a folder of its own, and nothing else.

    Its settings ask for the close look, whose words most tests read; a test may write others.
    """
    settings = home / "settings.json"
    if home.is_dir() and not settings.exists():
        settings.write_text('{"look": "close"}')
    return {
        "PATH": os.environ.get("PATH", os.defpath),
        "PYTHONPATH": str(ROOT),
        "LANG": "C.UTF-8",
        "TERM": "xterm-256color",
        "PAGER": "cat",  # plain printing, where a test says nothing else
        "TZ": "UTC",
        "HOME": str(home),
        "COURTLOG_BOOK": str(home / "book.db"),
        "COURTLOG_SETTINGS": str(home / "settings.json"),
        "COURTLOG_DRILLS": str(home / "drills"),
        "COURTLOG_ERRORS": str(home / "errors.txt"),
        "COURTLOG_SOUNDS": "",  # the bell alone, where a test says nothing else
        "COURTLOG_HELD_KEYS": "count",  # keys of tests come faster than a finger
        **more,
    }


def command(*words: str) -> list[str]:
    """A command of the program under test."""
    return [*PROGRAM, *words]


def court(book: Path) -> list[str]:
    """The command that opens this book at the court screen."""
    return command("--book", str(book))


class Console:
    """One run of a program, with the terminal it runs on; leave the `with` block to end it."""

    def __init__(
        self,
        argv: Sequence[str],
        env: Mapping[str, str],
        columns: int = 80,
        lines: int = 24,
        whole_frames: bool = False,
        hang_up: bool = True,
    ) -> None:
        """With `whole_frames` it shows a frame when it is complete, as most terminals do now.

        Without `hang_up` the program is not told when its terminal goes.
        """
        self.sent = bytearray()
        self._whole_frames = whole_frames
        self._held = b""
        self._screen = pyte.Screen(columns, lines)
        self._stream = pyte.ByteStream(self._screen)
        self._fd, inside = os.openpty()
        self._set_size(columns, lines)
        self._process = start(argv, env, inside, hang_up)
        os.close(inside)
        os.set_blocking(self._fd, False)

    def __enter__(self) -> Console:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.kill()

    def fileno(self) -> int:
        """The terminal's own end, for a reader with a clock."""
        return self._fd

    @property
    def process(self) -> int:
        """The program's process number."""
        return self._process.pid

    @property
    def lines(self) -> list[str]:
        """The screen as it stands, line by line, without trailing blanks."""
        return [line.rstrip() for line in self._screen.display]

    @property
    def text(self) -> str:
        """The screen as it stands."""
        return "\n".join(self.lines)

    @property
    def ended(self) -> bool:
        """Whether the program has ended."""
        return self._process.poll() is not None

    def press(self, keys: bytes) -> None:
        """Type these bytes as fast as the terminal takes them, reading what comes meanwhile."""
        while keys:
            readable, writable, _ = select.select([self._fd], [self._fd], [], HANG)
            if readable and not self._read():
                raise AssertionError(f"the program ended while keys were typed\n{self.text}")
            if writable:
                with contextlib.suppress(BlockingIOError):
                    keys = keys[os.write(self._fd, keys) :]

    def wait_for(self, sight: str | Callable[[], bool]) -> None:
        """Read until the text is on the screen, or until this is so.

        A key may change the book and nothing on the screen; then no output tells of it.
        """
        deadline = time.monotonic() + HANG
        answers = True
        while not (sight in self.text if isinstance(sight, str) else sight()):
            if not answers or time.monotonic() >= deadline:
                what = repr(sight) if isinstance(sight, str) else "the awaited sight"
                raise AssertionError(f"{what} never came; the screen is\n{self.text}")
            look = deadline if isinstance(sight, str) else time.monotonic() + LOOK_AGAIN
            if self._await(min(look, deadline)):
                answers = self._read()

    def wait_until_none(self, differences: Callable[[], Sequence[str]]) -> None:
        """Read until nothing differs any more; a test that gives up says what still does."""
        try:
            self.wait_for(lambda: not differences())
        except AssertionError as error:
            found = "\n".join(differences())
            raise AssertionError(f"still different:\n{found}\n{error}") from None

    def read_for(self, seconds: float) -> None:
        """Take in what arrives in this time: the pace of a slow hand, never an assertion."""
        deadline = time.monotonic() + seconds
        while self._await(deadline) and self._read():
            pass

    def frames(self) -> list[list[str]]:
        """The screen after each complete frame so far, without trailing blanks."""
        screen = pyte.Screen(self._screen.columns, self._screen.lines)
        stream = pyte.ByteStream(screen)
        found = []
        for frame in bytes(self.sent).split(FRAME_ENDS)[:-1]:
            stream.feed(frame)
            found.append([line.rstrip() for line in screen.display])
        return found

    def wait_for_output(self) -> None:
        """Read until anything at all arrives."""
        if not self._await(time.monotonic() + HANG) or not self._read():
            raise AssertionError(f"nothing came; the screen is\n{self.text}")

    def resize(self, columns: int, lines: int) -> None:
        """Give the terminal another size; the program hears of it from the system."""
        self._screen.resize(lines, columns)
        self._set_size(columns, lines)

    def read_to_end(self) -> int:
        """Read until the program has ended; its exit code."""
        deadline = time.monotonic() + HANG
        while self._await(deadline) and self._read():
            pass
        return self._process.wait(HANG)

    def signal(self, number: int) -> None:
        """Send the program a signal."""
        self._process.send_signal(number)

    def wait_until_stopped(self) -> None:
        """Wait until the program stands still, as after Ctrl-Z; reads what comes meanwhile."""
        deadline = time.monotonic() + HANG
        while os.waitpid(self._process.pid, os.WNOHANG | os.WUNTRACED) == (0, 0):
            assert time.monotonic() < deadline, "the program never stopped"
            self._await(time.monotonic() + 0.01) and self._read()

    def vanish(self) -> int:
        """Close the terminal's own end under the program; its exit code, once it has left."""
        os.close(self._fd)
        self._fd = -1
        return self._process.wait(HANG)

    def draw_over(self, words: str) -> None:
        """Another program writes on the same terminal, from the top of a cleared screen."""
        self._stream.feed(b"\x1b[2J\x1b[H" + words.encode())

    def quit(self) -> int:
        """Leave by the program's own key; its exit code."""
        self.press(CTRL_Q)
        return self.read_to_end()

    def kill(self) -> None:
        """End the program at once (SIGKILL); what it had written still comes to the screen."""
        if self._fd < 0:
            self._process.kill()
            self._process.wait(HANG)
            return
        self._process.kill()
        self.read_to_end()
        self._stream.feed(self._held)
        self._held = b""
        os.close(self._fd)
        self._fd = -1

    def _set_size(self, columns: int, lines: int) -> None:
        fcntl.ioctl(self._fd, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))

    def _await(self, deadline: float) -> bool:
        left = deadline - time.monotonic()
        return left > 0 and bool(select.select([self._fd], [], [], left)[0])

    def _read(self) -> bool:
        """Take in what has arrived; False when the program has closed its end."""
        try:
            data = os.read(self._fd, 65536)
        except BlockingIOError:
            return True
        except OSError:  # Linux says EIO when the last program has left the terminal
            return False
        self.sent += data
        self._stream.feed(self._finished(data) if self._whole_frames else data)
        return bool(data)

    def _finished(self, data: bytes) -> bytes:
        """What may be shown of it: all but a frame that has begun and not ended."""
        if ASKS_FOR_FRAMES in data:
            os.write(self._fd, HAS_FRAMES)
        data = self._held + data
        cut = data.rfind(FRAME_BEGINS)
        if cut <= data.rfind(FRAME_ENDS):
            escape = data.rfind(b"\x1b")
            half_a_mark = escape >= 0 and FRAME_BEGINS.startswith(data[escape:])
            cut = escape if half_a_mark else len(data)
        self._held = data[cut:]
        return data[:cut]
