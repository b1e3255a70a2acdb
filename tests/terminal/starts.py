"""Starts a program on a terminal: as a new Python, or as a child of one that is loaded already.

A new Python takes half a second of the processor to load the program, at every start.
"""

from __future__ import annotations

import atexit
import ctypes
import fcntl
import json
import os
import select
import signal
import socket
import subprocess
import sys
import termios
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Protocol

import courtlog

ROOT = Path(courtlog.__file__).resolve().parents[1]
"""Where the program under test lies: the same code that the tests import."""

PROGRAM = (sys.executable, "-m", "courtlog")

LARGEST = 1 << 17
"""Bytes of a message to the server of the loaded program."""

_AT_LOAD = {"PYTHONPATH": str(ROOT), "LANG": "C.UTF-8", "TERM": "xterm-256color"}
"""What Python and the libraries may read while they are loaded; any other value needs a start."""

_READ_LATER = ("PATH", "TZ", "HOME", "TMPDIR", "NO_COLOR", "PAGER")
"""What is read when the program runs, as are its own variables."""

_SET_BY_THE_START = {"OPENBLAS_NUM_THREADS": "1", "TEXTUAL_FPS": "240"}
"""As `courtlog.cli.start` sets them before anything is loaded that reads them."""

_TAKES_ORPHANS = 36
"""`PR_SET_CHILD_SUBREAPER` of prctl(2): the server's children become this process's own."""


class Process(Protocol):
    """A program that was started."""

    @property
    def pid(self) -> int:
        """Its number."""

    def poll(self) -> int | None:
        """Its exit code; None while it runs."""

    def wait(self, timeout: float | None = None) -> int:
        """Wait for its exit code. Raises subprocess.TimeoutExpired."""

    def send_signal(self, sig: int) -> None:
        """Send it a signal."""

    def kill(self) -> None:
        """End it at once."""


def start_python(
    argv: Sequence[str], env: Mapping[str, str], terminal: int, hang_up: bool
) -> Process:
    """A new process. With `hang_up` the terminal is its own, so that it hears of a new size."""
    return subprocess.Popen(
        list(argv),
        stdin=terminal,
        stdout=terminal,
        stderr=terminal,
        env=dict(env),
        start_new_session=True,
        preexec_fn=_own_terminal if hang_up else None,
    )


def start_loaded(
    argv: Sequence[str], env: Mapping[str, str], terminal: int, hang_up: bool
) -> Process:
    """The same from a loaded program, for all starts that ask for nothing of Python's own."""
    if sys.platform == "linux" and tuple(argv[:3]) == PROGRAM and _is_plain(env):
        return _server().child(argv[3:], env, terminal, hang_up)
    return start_python(argv, env, terminal, hang_up)


def _own_terminal() -> None:
    """Make standard input the child's controlling terminal, so that it hears of a new size."""
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)


def _is_plain(env: Mapping[str, str]) -> bool:
    """Whether the loaded program was loaded in the same environment, as far as that matters."""
    at_load = {
        name: value
        for name, value in env.items()
        if name not in _READ_LATER and not name.startswith("COURTLOG_")
    }
    return at_load == _AT_LOAD


class _Server:
    """The loaded program, which starts children that are this process's own to wait for."""

    def __init__(self) -> None:
        ctypes.CDLL(None).prctl(_TAKES_ORPHANS, 1, 0, 0, 0)
        self._socket, theirs = socket.socketpair(socket.AF_UNIX, socket.SOCK_SEQPACKET)
        with theirs:
            self._process = subprocess.Popen(
                [sys.executable, "-m", "tests.terminal.program_server", str(theirs.fileno())],
                env={**_AT_LOAD, **_SET_BY_THE_START, "PATH": os.environ.get("PATH", os.defpath)},
                pass_fds=[theirs.fileno()],
                start_new_session=True,
            )
        assert self._socket.recv(LARGEST) == b"ready"
        atexit.register(self._end)

    def child(
        self, words: Sequence[str], env: Mapping[str, str], terminal: int, hang_up: bool
    ) -> _Child:
        """A child that has become the program with these words."""
        job = {
            "words": list(words),
            "environment": dict(env),
            "folder": str(Path.cwd()),
            "hang_up": hang_up,
        }
        socket.send_fds(self._socket, [json.dumps(job).encode()], [terminal])
        return _Child(int(self._socket.recv(LARGEST)))

    def _end(self) -> None:
        self._socket.close()
        self._process.wait()


@cache
def _server() -> _Server:
    return _Server()


@dataclass(slots=True)
class _Child:
    """A program that the server started."""

    pid: int
    code: int | None = None

    def poll(self) -> int | None:
        if self.code is None:
            ended, status = os.waitpid(self.pid, os.WNOHANG)
            if ended:
                self.code = os.waitstatus_to_exitcode(status)
        return self.code

    def wait(self, timeout: float | None = None) -> int:
        if self.code is None:
            if sys.platform != "linux":  # where every program is a new Python
                raise NotImplementedError
            process = os.pidfd_open(self.pid)
            try:
                select.select([process], [], [], timeout)
            finally:
                os.close(process)
        if (code := self.poll()) is None:
            raise subprocess.TimeoutExpired("courtlog", timeout or 0)
        return code

    def send_signal(self, sig: int) -> None:
        if self.poll() is None:
            os.kill(self.pid, sig)

    def kill(self) -> None:
        self.send_signal(signal.SIGKILL)
