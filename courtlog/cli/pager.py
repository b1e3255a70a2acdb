"""A page longer than the terminal goes through the reader's own pager, where there is one.

What it gets was made safe as everything printed is.
"""

from __future__ import annotations

import os
import shlex
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import cast

from rich.cells import cell_len

from courtlog.cli.streams import LETTERS, SafeStream

USUAL = ("less", "more")
"""Tried where PAGER names none; Windows has the second one."""

NO_PAGER = ("", "cat")
"""Values of PAGER that ask for plain printing."""


def pager_for(text: str) -> list[str]:
    """The pager's command line for this text; empty where it fits, or where no pager is to be had.

    The pager writes where this program writes, so that must be a terminal.
    """
    try:
        on_terminal = sys.stdout.isatty() and sys.stdout.fileno() == 1
    except OSError:
        on_terminal = False
    if not on_terminal or os.environ.get("TERM") == "dumb" or _fits(text):
        return []
    wished = os.environ.get("PAGER")
    candidates = USUAL if wished is None else () if wished in NO_PAGER else (wished,)
    return next(filter(None, map(_command_line, candidates)), [])


def _command_line(typed: str) -> list[str]:
    """The program with its place, and its options; empty where there is no such program."""
    try:
        words = shlex.split(typed, posix=os.name != "nt")
    except ValueError:  # an open quote
        return []
    program = shutil.which(words[0]) if words else None
    return [program, *words[1:]] if program else []


def _fits(text: str) -> bool:
    """Whether the screen holds it, with a line left for the shell's prompt."""
    size = shutil.get_terminal_size()
    columns = max(1, size.columns)
    lines = (max(1, -(-cell_len(line) // columns)) for line in text.splitlines())
    return sum(lines) < size.lines


def page_through(command: list[str], text: str) -> bool:
    """Show the text in the pager until the reader closes it; False if it could not be started."""
    sys.stdout.flush()
    with _ctrl_c_is_the_pagers():
        try:
            pager = subprocess.Popen(
                command, stdin=subprocess.PIPE, encoding=_encoding(), errors=LETTERS
            )
        except OSError:
            return False
        out = cast(SafeStream, sys.stdout)
        pager.communicate(out.shown(text))  # a pager closed halfway is no error
    return True


def _encoding() -> str:
    """What a pager reads: on Windows the console's code page (of its `more`, from memory)."""
    spoken = os.device_encoding(1) if sys.platform == "win32" else None
    return spoken or sys.stdout.encoding


@contextmanager
def _ctrl_c_is_the_pagers() -> Iterator[None]:
    """Leave Ctrl+C to the pager. A handler does that; SIG_IGN would be inherited."""
    before = signal.getsignal(signal.SIGINT)
    if before is not signal.SIG_IGN:
        signal.signal(signal.SIGINT, lambda *_: None)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
