"""Without POSIX terminals the faults are left out."""

from __future__ import annotations

import sys

collect_ignore_glob = ["*.py"] if sys.platform == "win32" else []
