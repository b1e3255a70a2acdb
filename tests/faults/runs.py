"""One command after another in children of one loaded program, each with its own fault."""

from __future__ import annotations

import atexit
import json
import os
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import TracebackType

from tests.cli.program import PROJECT, Home


@dataclass(frozen=True, slots=True)
class Ended:
    """How a command ended (minus a signal), what it said, and its calls on files of the trial.

    `struck` is the call that was struck and its path; empty when the run never came that far.
    """

    code: int
    out: str
    err: str
    calls: tuple[str, ...]
    struck: str


FORKED = (sys.executable, "-m", "tests.faults.forked")


class NotStartedError(Exception):
    """The loaded program could not be started."""


class Runs:
    """Commands in children of a loaded program; leave the block to end it."""

    def __init__(self, argv: Sequence[str] = FORKED, **env: str) -> None:
        """Start the program, by other programs where `argv` names some."""
        kept = {name: os.environ[name] for name in ("PATH",) if name in os.environ}
        self._program = subprocess.Popen(
            argv,
            cwd=PROJECT,
            env=kept | {"OPENBLAS_NUM_THREADS": "1", "TZ": "UTC"} | env,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        if self._answer() != "ready":
            self.__exit__(None, None, None)
            raise NotStartedError

    @classmethod
    @contextmanager
    def under(cls, library: Path) -> Iterator[Runs]:
        """Commands whose calls of the system can be struck."""
        yield shared(LD_PRELOAD=str(library))

    def __enter__(self) -> Runs:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        assert self._program.stdin is not None
        assert self._program.stdout is not None
        self._program.stdin.close()
        self._program.stdout.close()
        self._program.wait()

    def run(self, home: Home, words: Sequence[str], strike: str = "") -> Ended:
        """Run a command in this home; `strike` as in failing.c, without it all calls are noted.

        What it says goes to files beside the home, so that saying it can fail too.
        """
        (ended,) = self.run_together(home, [words], strike)
        return ended

    def run_together(
        self, home: Home, every: Sequence[Sequence[str]], strike: str = ""
    ) -> list[Ended]:
        """The same of several commands that are begun at once."""
        places = [_Said(home.folder.parent, number) for number in range(len(every))]
        jobs = [
            _job(home, words, place, strike) for words, place in zip(every, places, strict=True)
        ]
        assert self._program.stdin is not None
        self._program.stdin.write(json.dumps(jobs) + "\n")
        self._program.stdin.flush()
        codes = json.loads(self._answer())
        return [place.ended(code) for place, code in zip(places, codes, strict=True)]

    def _answer(self) -> str:
        assert self._program.stdout is not None
        return self._program.stdout.readline().strip()


@cache
def shared(argv: tuple[str, ...] = FORKED, **env: str) -> Runs:
    """One loaded program for all who ask, until this process ends: the loading takes longest."""
    runs = Runs(argv, **env)
    atexit.register(runs.__exit__, None, None, None)
    return runs


@dataclass(frozen=True, slots=True)
class _Said:
    """Where one run leaves its words and the record of its calls: in files yet to be made."""

    folder: Path
    number: int

    def __post_init__(self) -> None:
        for what in ("said-out", "said-err", "calls", "struck"):
            self.path(what).unlink(missing_ok=True)

    def path(self, what: str) -> Path:
        """The file for this."""
        return self.folder / f"{what}-{self.number}"

    def ended(self, code: int) -> Ended:
        """What these files say."""
        calls = (line.partition(" ")[0] for line in self._text("calls").splitlines())
        out, err, struck = map(self._text, ("said-out", "said-err", "struck"))
        return Ended(code, out, err, tuple(calls), struck.strip())

    def _text(self, what: str) -> str:
        path = self.path(what)
        return path.read_text(encoding="utf-8", errors="replace") if path.exists() else ""


def _job(home: Home, words: Sequence[str], said: _Said, strike: str) -> dict[str, object]:
    """What the loaded program is asked to do."""
    watched = {
        "COURTLOG_STRIKE_UNDER": f"{said.folder.resolve()}/",
        "COURTLOG_STRUCK": str(said.path("struck")),
    }
    if strike:
        watched["COURTLOG_STRIKE"] = strike
    else:
        watched["COURTLOG_CALLS"] = str(said.path("calls"))
    return {
        "folder": str(home.folder),
        "environment": home.environment(TMPDIR=str(home.folder / "tmp")),
        "words": list(words),
        "out": str(said.path("said-out")),
        "err": str(said.path("said-err")),
        "strike": watched,
    }
