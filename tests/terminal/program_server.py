"""A program that has everything loaded and becomes a court or a command in a child, on request.

A request is one message: the words, the environment and the folder, and as an open file the
terminal. The answer is the child's process number, once the child has a session of its own. The
child's parent ends at once, so that the system gives it to the process that wants to wait for it.
"""

from __future__ import annotations

import fcntl
import gc
import json
import os
import socket
import sys
import termios
import time
from pathlib import Path
from typing import Any

import courtlog
from courtlog.cli.entry import main
from tests import loaded_program
from tests.terminal.starts import LARGEST


def load() -> None:
    """Load every module of the program; what is loaded is left in place by the first sweep."""
    loaded_program.load()
    gc.collect()
    gc.freeze()


def serve(requests: socket.socket) -> dict[str, Any] | None:
    """Start children; returns in a child what it has to become, and None when all is over."""
    requests.send(b"ready")
    while True:
        message, terminals, _, _ = socket.recv_fds(requests, LARGEST, 1)
        if not message:
            return None
        between = os.fork()
        if not between:
            if os.fork():
                os._exit(0)
            job: dict[str, Any] = json.loads(message)
            _stand_alone(terminals[0], job["hang_up"])
            requests.send(str(os.getpid()).encode())
            return job
        os.waitpid(between, 0)
        os.close(terminals[0])


def become(job: dict[str, Any]) -> None:
    """Make this child the program as it was asked for."""
    os.chdir(job["folder"])
    os.environ.clear()
    os.environ.update(job["environment"])
    time.tzset()
    sys.argv = [str(Path(courtlog.__file__).with_name("__main__.py")), *job["words"]]
    for number, name, mode in ((0, "stdin", "r"), (1, "stdout", "w"), (2, "stderr", "w")):
        usual = getattr(sys, name)
        stream = os.fdopen(
            number, mode, encoding=usual.encoding, errors=usual.errors, closefd=False
        )
        setattr(sys, name, stream)
        setattr(sys, f"__{name}__", stream)


def _stand_alone(terminal: int, hang_up: bool) -> None:
    os.setsid()
    for stream in range(3):
        os.dup2(terminal, stream)
    os.close(terminal)
    if hang_up:
        fcntl.ioctl(0, termios.TIOCSCTTY, 0)


if __name__ == "__main__":
    load()
    with socket.socket(fileno=int(sys.argv[1])) as given:
        asked = serve(given)
    if asked is not None:
        become(asked)
        main()
