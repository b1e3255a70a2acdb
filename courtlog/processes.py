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
    import ctypes
    from ctypes import wintypes

    _LOOK = 0x1000
    """`PROCESS_QUERY_LIMITED_INFORMATION`: the least that tells whether a process has ended."""

    _NO_SUCH_PROCESS = 87
    """`ERROR_INVALID_PARAMETER` of OpenProcess; any other error is of a process that is there."""

    _STILL_RUNS = 259
    """`STILL_ACTIVE` of GetExitCodeProcess (learn.microsoft.com, processthreadsapi)."""

    def runs(process: int) -> bool:
        """Whether another process of this number is there. `os.kill` would end it on Windows."""
        if process <= 0 or process == os.getpid():
            return False
        kernel = ctypes.WinDLL("kernel32", use_last_error=True)
        kernel.OpenProcess.restype = wintypes.HANDLE
        handle = kernel.OpenProcess(_LOOK, False, process)
        if not handle:
            return ctypes.get_last_error() != _NO_SUCH_PROCESS
        code = wintypes.DWORD(_STILL_RUNS)
        kernel.GetExitCodeProcess(wintypes.HANDLE(handle), ctypes.byref(code))
        kernel.CloseHandle(wintypes.HANDLE(handle))
        return code.value == _STILL_RUNS

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
