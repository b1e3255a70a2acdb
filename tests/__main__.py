"""All checks in one command: `python -m tests`.

`--slow` takes the slow tests too, as CI does, and `--long` the long versions of all.
"""

from __future__ import annotations

import compileall
import subprocess
import sys
from collections.abc import Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).parents[1]

_POSIX_ONLY = r"^tests/(terminal|faults)/"
"""What is never collected on Windows. Where another test imports it, its errors are not told."""

CHECKS = {
    "style": ["ruff", "check", "."],
    "layout": ["ruff", "format", "--check", "."],
    "types": ["mypy"],
    "types on Windows": [
        *("mypy", "--platform", "win32", "--cache-dir", ".mypy_cache/win32"),
        *("--exclude", _POSIX_ONLY, "--follow-imports", "silent"),
    ],
    "types on macOS": ["mypy", "--platform", "darwin", "--cache-dir", ".mypy_cache/darwin"],
    "imports": ["lint-imports"],
    "tests": ["pytest", "-n", "auto", "--dist", "worksteal"],
}

BESIDE = [name for name in CHECKS if name.startswith("types")]
"""Each takes one core: they run one after the other beside the rest, and speak at the end."""


def main(arguments: list[str]) -> int:
    """Run every check, even after one has failed; 0 when all pass."""
    if not {"--slow", "--long"} & set(arguments):
        arguments = [*arguments, "--quick"]
    arguments = [option for option in arguments if option != "--slow"]
    # The tests start the program some hundred times, and it need not be compiled every time.
    compileall.compile_dir(ROOT / "courtlog", quiet=1)
    failed = []
    with ThreadPoolExecutor(max_workers=1) as one_core:
        beside = {name: one_core.submit(_run, name, (), True) for name in BESIDE}
        for name in sorted(CHECKS, key=BESIDE.__contains__):
            print(f"== {name}", flush=True)
            extra = arguments if name == "tests" else ()
            if not _passed(beside.get(name), name, extra):
                failed.append(name)
    print(f"== {'failed: ' + ', '.join(failed) if failed else 'all checks passed'}")
    return len(failed)


def _passed(
    beside: Future[subprocess.CompletedProcess[bytes]] | None, name: str, extra: Sequence[str]
) -> bool:
    check = _run(name, extra, False) if beside is None else beside.result()
    print((check.stdout or b"").decode(), end="", flush=True)
    return check.returncode == 0


def _run(check: str, extra: Sequence[str], quietly: bool) -> subprocess.CompletedProcess[bytes]:
    tool, *rest = CHECKS[check]
    command = [str(Path(sys.executable).with_name(tool)), *rest, *extra]
    return subprocess.run(
        command, cwd=ROOT, stdout=subprocess.PIPE if quietly else None, check=False
    )


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
