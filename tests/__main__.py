"""All checks in one command: `python -m tests` (`--long` takes the long versions of tests)."""

from __future__ import annotations

import compileall
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).parents[1]

CHECKS = {
    "style": ["ruff", "check", "."],
    "layout": ["ruff", "format", "--check", "."],
    "types": ["mypy"],
    "imports": ["lint-imports"],
    "tests": ["pytest", "-n", "auto", "--dist", "worksteal"],
}


def main(arguments: list[str]) -> int:
    """Run every check, even after one has failed; 0 when all pass."""
    # The tests start the program some hundred times, and it need not be compiled every time.
    compileall.compile_dir(ROOT / "courtlog", quiet=1)
    beside = {"types": _start("types", subprocess.PIPE)}  # takes one core, and speaks at the end
    failed = []
    for name in sorted(CHECKS, key=beside.__contains__):
        print(f"== {name}", flush=True)
        check = beside.get(name) or _start(name, None, arguments if name == "tests" else ())
        said, _ = check.communicate()
        print((said or b"").decode(), end="", flush=True)
        if check.returncode:
            failed.append(name)
    print(f"== {'failed: ' + ', '.join(failed) if failed else 'all checks passed'}")
    return len(failed)


def _start(
    check: str, output: int | None, arguments: Sequence[str] = ()
) -> subprocess.Popen[bytes]:
    tool, *rest = CHECKS[check]
    command = [str(Path(sys.executable).with_name(tool)), *rest, *arguments]
    return subprocess.Popen(command, cwd=ROOT, stdout=output)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
