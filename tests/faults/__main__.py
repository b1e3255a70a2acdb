"""The report: `python -m tests.faults` (`--long` for the long versions); exit code 1 at a loss."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

import pytest

from tests import doses, remembered
from tests.faults.figures import HEAD
from tests.faults.list import FAULTS


def main(arguments: list[str]) -> int:
    """Try every fault, and print a line for each as it is done."""
    doses.take_the_whole("--long" in arguments)
    remembered.remember(pytest.MonkeyPatch())
    print(HEAD, flush=True)
    figures = []
    for fault in FAULTS:
        with tempfile.TemporaryDirectory(prefix="courtlog-faults-") as folder:
            figure = fault(Path(folder), "--long" in arguments)
        figures.append(figure)
        print(figure.line(), *figure.troubles, sep="\n    ", flush=True)
    tried = sum(figure.tried for figure in figures)
    lost, left = (sum(getattr(f, name) for f in figures) for name in ("lost", "left_behind"))
    print(f"{tried} trials, {lost} ratings lost, {left} files left behind")
    return int(not all(figure.good for figure in figures))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
