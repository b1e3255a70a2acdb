"""All checks in one command: `python -m tests` (`--long` takes the long versions of tests)."""

from __future__ import annotations

import subprocess
import sys
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
    failed = []
    for name, (tool, *rest) in CHECKS.items():
        print(f"== {name}", flush=True)
        command = [str(Path(sys.executable).with_name(tool)), *rest]
        if name == "tests":
            command += arguments
        if subprocess.run(command, cwd=ROOT, check=False).returncode:
            failed.append(name)
    print(f"== {'failed: ' + ', '.join(failed) if failed else 'all checks passed'}")
    return len(failed)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
