"""Other programs of this computer: does one still run, and which computer is this."""

from __future__ import annotations

import os
import platform
import sys
import zlib


def computer() -> str:
    """Eight hexadecimal digits that stand for this computer's name."""
    return f"{zlib.crc32(platform.node().encode(errors='replace')):08x}"


if sys.platform == "win32":

    def runs(process: int) -> bool:
        """Whether the process may run. On Windows it counts as running: asking would end it."""
        return process > 0

else:

    def runs(process: int) -> bool:
        """Whether another process of this number is there, whoever it belongs to."""
        if process <= 0 or process == os.getpid():
            return False
        try:
            os.kill(process, 0)
        except ProcessLookupError:
            return False
        except OSError:
            return True
        return True
