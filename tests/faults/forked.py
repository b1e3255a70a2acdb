"""A program that has everything loaded and starts a command in a child of its own, again and again.

What is asked, one command or several at once, comes as a line of JSON on standard input, and how
they ended goes out as one. A child ends as the program itself does, interpreter and streams
included; one that hangs is ended by its own alarm.
"""

from __future__ import annotations

import io
import json
import os
import signal
import sys
from typing import Any

import courtlog.cli
import courtlog.library
import courtlog.logbook
import courtlog.reports
from tests import loaded_program

HANG = 11.0
"""Seconds after which a command has hung. SQLite waits ten for a lock that nobody lets go of."""


def load() -> None:
    """Load what any command may need, so that no call of the loading is struck."""
    loaded_program.load(courtlog.cli, courtlog.library, courtlog.logbook, courtlog.reports)


def become(job: dict[str, Any]) -> None:
    """Make this child the command that was asked for."""
    os.setsid()
    os.chdir(job["folder"])
    os.environ.clear()
    os.environ.update(job["environment"])
    for stream, path in enumerate(("/dev/null", job["out"], job["err"])):
        opened = os.open(
            path, os.O_RDONLY if not stream else os.O_WRONLY | os.O_CREAT | os.O_APPEND
        )
        os.dup2(opened, stream)
        os.close(opened)
    sys.stdin = _stream(0, "r")
    sys.stdout = _stream(1, "w")
    sys.stderr = _stream(2, "w", write_through=True)
    sys.argv = ["courtlog", *job["words"]]
    signal.signal(signal.SIGINT, signal.default_int_handler)
    signal.setitimer(signal.ITIMER_REAL, HANG)
    os.environ.update(job["strike"])


def _stream(number: int, mode: str, write_through: bool = False) -> io.TextIOWrapper:
    raw = io.FileIO(number, mode, closefd=False)
    buffer: Any = io.BufferedReader(raw) if mode == "r" else io.BufferedWriter(raw)
    return io.TextIOWrapper(
        buffer,
        encoding="utf-8",
        errors="backslashreplace" if write_through else "strict",
        line_buffering=write_through,
        write_through=write_through,
    )


def serve() -> dict[str, Any] | None:
    """Start children for every line; returns what was asked in a child, and None at the end."""
    print("ready", flush=True)
    for line in iter(sys.stdin.readline, ""):
        children = []
        for job in json.loads(line):
            child = os.fork()
            if not child:
                return dict(job)
            children.append(child)
        ends = [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children]
        print(json.dumps(ends), flush=True)
    return None


if __name__ == "__main__":
    load()
    asked = serve()
    if asked is not None:
        become(asked)
        from courtlog.cli.start import main

        main()
