"""A command run in a child of this process: it can be ended, and its memory is known.

All of the program is loaded already, so that a run costs some hundredths of a second.
"""

from __future__ import annotations

import io
import os
import resource
import sys
import tempfile
import time
import traceback
from collections.abc import Mapping
from contextlib import redirect_stdout
from dataclasses import dataclass
from pathlib import Path

from courtlog.cli.commands import app
from courtlog.cli.start import main
from tests import loaded_program

SECONDS = 10
"""Of the processor: what else the machine does costs a command nothing."""

PATIENCE = 6 * SECONDS
"""By the clock on the wall, for a command that waits and does nothing."""

MOST_BYTES = 300 << 20
LOADED = 60 << 20
"""What the program by itself takes; what this process has loaded beside it does not count."""

_BROKEN = 99


@dataclass(frozen=True, slots=True)
class Run:
    """How a command ended; None for the code of one that had to be killed."""

    code: int | None
    said: str
    most_bytes: int

    @property
    def trouble(self) -> str:
        """What no command may do, whatever it is given; nothing where all went well."""
        if self.code is None:
            return f"not over after {SECONDS} s: {self.said[-500:]}"
        if self.code not in (0, 1, 2) or "Traceback" in self.said:
            return f"ended with {self.code}: {self.said[-1500:]}"
        if self.most_bytes > MOST_BYTES:
            return f"took {self.most_bytes >> 20} MB"
        return ""


def load_everything() -> None:
    """Every module of the program, so that no child has to."""
    loaded_program.load()
    with redirect_stdout(io.StringIO()):
        app.app(["version"], standalone_mode=False)


def run(folder: Path, env: Mapping[str, str], *words: str | Path) -> Run:
    """Run a command in that folder, both its streams being one file."""
    with tempfile.TemporaryFile() as said:
        child = os.fork()
        if not child:
            _be_the_command(folder, env, [str(word) for word in words], said.fileno())
        code, most = _ended(child)
        said.seek(0)
        return Run(code, said.read().decode(errors="replace"), most)


def _be_the_command(folder: Path, env: Mapping[str, str], words: list[str], said: int) -> None:
    code = _BROKEN
    try:
        nowhere = os.open(os.devnull, os.O_RDONLY)
        for stream, number in ((nowhere, 0), (said, 1), (said, 2)):
            os.dup2(stream, number)
        sys.stdin = os.fdopen(0, closefd=False)
        sys.stdout = os.fdopen(1, "w", closefd=False)
        sys.stderr = os.fdopen(2, "w", closefd=False)
        os.chdir(folder)
        os.environ.clear()
        os.environ.update(env)
        sys.argv = ["courtlog", *words]
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
        main()
        code = 0
    except SystemExit as end:
        code = end.code if isinstance(end.code, int) else int(end.code is not None)
    except BaseException:  # noqa: BLE001 - the child ends here, whatever happened
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)


def _ended(child: int) -> tuple[int | None, int]:
    """The child's exit code and the most memory it took; it is killed when its time is over."""
    until = time.monotonic() + PATIENCE
    shared = _pages_in_memory() * resource.getpagesize() - LOADED
    while True:
        done, status, used = os.wait4(child, os.WNOHANG)
        if done:
            code = os.waitstatus_to_exitcode(status)
            return None if code < 0 else code, used.ru_maxrss * 1024 - shared
        if time.monotonic() > until:
            os.kill(child, 9)
            _, _, used = os.wait4(child, 0)
            return None, used.ru_maxrss * 1024 - shared
        time.sleep(0.002)


def _pages_in_memory() -> int:
    return int(Path("/proc/self/statm").read_text().split()[1])
