"""One command after another in children of one loaded program, each with its own fault."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
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


class Runs:
    """Commands in children of a program under the failing library; leave the block to end it."""

    def __init__(self, library: Path) -> None:
        kept = {name: os.environ[name] for name in ("PATH",) if name in os.environ}
        self._program = subprocess.Popen(
            [sys.executable, "-m", "tests.faults.forked"],
            cwd=PROJECT,
            env=kept | {"LD_PRELOAD": str(library), "OPENBLAS_NUM_THREADS": "1", "TZ": "UTC"},
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        assert self._answer() == "ready"

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
        beside = home.folder.parent
        out, err, calls, struck = (
            beside / name for name in ("said-out", "said-err", "calls", "struck")
        )
        for path in (out, err, calls, struck):
            path.unlink(missing_ok=True)
        watched = {"COURTLOG_STRIKE_UNDER": f"{beside.resolve()}/", "COURTLOG_STRUCK": str(struck)}
        watched |= {"COURTLOG_STRIKE": strike} if strike else {"COURTLOG_CALLS": str(calls)}
        code = self._ask(
            {
                "folder": str(home.folder),
                "environment": home.environment(TMPDIR=str(home.folder / "tmp")),
                "words": list(words),
                "out": str(out),
                "err": str(err),
                "strike": watched,
            }
        )
        return Ended(
            code,
            _text(out),
            _text(err),
            tuple(line.partition(" ")[0] for line in _text(calls).splitlines()),
            _text(struck).strip(),
        )

    def _ask(self, job: Mapping[str, object]) -> int:
        assert self._program.stdin is not None
        self._program.stdin.write(json.dumps(job) + "\n")
        self._program.stdin.flush()
        return int(self._answer())

    def _answer(self) -> str:
        assert self._program.stdout is not None
        return self._program.stdout.readline().strip()


def _text(path: Path) -> str:
    return path.read_text(encoding="utf-8", errors="replace") if path.exists() else ""
