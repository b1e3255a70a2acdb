"""A word as it is typed in this system's shell, for the commands that texts name."""

from __future__ import annotations

import re
import shlex
import sys

_PLAIN = re.compile(r"[\w./\\:+-]+")
"""What the shells of Windows take as it stands."""


def quoted(word: str) -> str:
    """The word in quotes where the shell would not take it as one: double ones on Windows.

    There the rules are those of Microsoft's C library, which `subprocess.list2cmdline` states.
    """
    if sys.platform != "win32":
        return shlex.quote(word)
    if _PLAIN.fullmatch(word):
        return word
    inner = re.sub(r'(\\*)("|$)', lambda end: end[1] * 2 + '\\"' * bool(end[2]), word)
    return f'"{inner}"'
