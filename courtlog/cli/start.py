"""Where the program starts: streams, refusals, and the shortest way to the court screen."""

from __future__ import annotations

import gc
import os
import signal
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TextIO

from courtlog import finished_steps
from courtlog.cli import ctrl_c, streams
from courtlog.errors import CourtlogError, LibraryError
from courtlog.plain_text import brief, plain


def main() -> None:
    """Run a command; a refusal is one sentence on standard error and exit code 1.

    What was done before the refusal is said too.
    """
    ctrl_c.leave_at_once()
    # A command ends before collecting garbage pays; a screen turns it on again.
    gc.disable()
    # One thread is as fast on arrays this small, and leaves the battery alone.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    # A key that comes right after the clock was painted waits 4 ms for the next frame, not 17.
    os.environ.setdefault("TEXTUAL_FPS", "240")
    streams.make_ready()
    _leave_in_order()
    finished_steps.begin()
    try:
        try:
            ctrl_c.leave_in_order(_command(sys.argv[1:]))
        except CourtlogError as error:
            _refuse(error)
            sys.exit(1)
        finally:
            gc.freeze()  # the interpreter need not search what is left
            sys.stdout.flush()
    except BrokenPipeError:
        # The reader of a pipe has gone: without this Python would report it at exit.
        _swallow(sys.stdout)
        sys.exit(1)
    except OSError as error:
        if error.filename is None:
            _swallow(sys.stdout)
            _refuse(CourtlogError(f"The page could not be written ({error.strerror})."))
        else:
            what = f"The file {error.filename} could not be used ({error.strerror})."
            _refuse(CourtlogError(what, "Check its name and place."))
        sys.exit(1)


def _refuse(error: CourtlogError) -> None:
    """Say what happened, and what was done for good before it."""
    problems = error.problems if isinstance(error, LibraryError) else ()
    words = [*map(str, problems), f"courtlog: {error} {finished_steps.in_words()}".rstrip()]
    try:
        for line in words:
            print(brief(plain(line)), file=sys.stderr)
    except OSError:
        _swallow(sys.stderr)  # nobody can be told; the exit code says it


def _command(words: list[str]) -> Callable[[], None]:
    """The command that was asked for, loaded but not begun.

    The court screen needs none of the commands, and does not wait for them to be loaded.
    """
    match words:
        case [] | ["--book", _] if "_COURTLOG_COMPLETE" not in os.environ:
            from courtlog.cli.opening import open_court  # only one of the two ways is loaded

            return partial(open_court, Path(words[1]) if words else None)
        case _:
            # The court screen does not wait for typer and the commands.
            from courtlog.cli.commands.app import app
            from courtlog.cli.commands.command_line import run

            return partial(run, app)


def _leave_in_order() -> None:
    """Let a command that is told to end, or lost its terminal, remove what is half written."""

    def leave(number: int, _frame: object) -> None:
        signal.signal(number, signal.SIG_IGN)  # once is enough: the command is tidying up
        sys.exit(128 + number)

    for name in ("SIGTERM", "SIGHUP"):
        number = getattr(signal, name, None)  # Windows has no second one
        if number is not None and signal.getsignal(number) is signal.SIG_DFL:
            signal.signal(number, leave)


def _swallow(stream: TextIO) -> None:
    """Drop what is still buffered for a closed output, so that no second error follows."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
