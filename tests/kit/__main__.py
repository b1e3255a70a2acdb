"""Builds what a laptop without a network is given, into dist/kit: `python -m tests.kit`.

A zip of wheels for each system, and a program without Python for the system it runs on. `zips` or
`program` builds one of the two; `--sizes` tells sizes and starts of what was built.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from tests.kit.program import build_program
from tests.kit.systems import PYTHONS, SYSTEMS
from tests.kit.wheelhouse import ROOT, KitError, build_wheel, build_zip

OUT = ROOT / "dist" / "kit"


def main(words: Sequence[str]) -> int:
    """Build, and say what is where; 1 where something could not be built."""
    if list(words) == ["--sizes"]:
        from tests.kit import sizes  # POSIX terminals

        print(sizes.table(OUT))
        return 0
    if words not in ([], ["zips"], ["program"]):
        print(__doc__, file=sys.stderr)
        return 2
    try:
        wheel = build_wheel(OUT)
        if words != ["program"]:
            for system in SYSTEMS:
                _tell(build_zip(system, PYTHONS, wheel, OUT))
        if words != ["zips"]:
            _tell(build_program(wheel, OUT))
    except KitError as error:
        print(error, file=sys.stderr)
        return 1
    return 0


def _tell(made: Path) -> None:
    print(f"{made.relative_to(ROOT)}  {made.stat().st_size / 1e6:.0f} MB", flush=True)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
