"""The program's branches for Windows, forced on POSIX: `python -m pytest -p tests.as_windows`.

From here on the program finds itself on `win32`, without the modules that Windows lacks. Python's
own library and the others are loaded before, since they would look for Windows itself. An open file
can still be removed, paths and the console stay POSIX's, and SQLite locks as it does here.
"""

from __future__ import annotations

import ctypes
import errno
import importlib
import io
import os
import sys
from collections.abc import Sequence
from importlib.machinery import ModuleSpec
from types import ModuleType, SimpleNamespace
from typing import Any

LACKING = ("fcntl", "termios", "tty", "pty", "pwd", "grp", "resource", "syslog")
"""Modules that Windows has not (docs.python.org, "Availability: Unix")."""

LIBRARIES = (
    *("asyncio", "getpass", "importlib.resources", "multiprocessing", "pdb", "platform"),
    *("selectors", "subprocess", "tempfile", "zoneinfo", "webbrowser", "xdist"),
    *("hypothesis", "numpy", "pandas", "platformdirs", "plotext", "pydantic", "pyte", "rich"),
    *("sqlite_utils", "textual.app", "textual.drivers.linux_driver", "textual.pilot"),
    *("textual.widgets", "typer", "typer.testing", "tzlocal.windows_tz", "tzlocal.utils"),
    *("pyarrow.parquet", "duckdb", "scipy.stats", "sklearn.metrics"),
    *("statsmodels.stats.contingency_tables", "statsmodels.stats.inter_rater"),
)
"""What is loaded as it is here. A library of ours that is not listed may fail to load later."""


class _Lacking:
    """Refuses the modules that Windows lacks, by whomever they are asked for."""

    def find_spec(
        self, name: str, path: Sequence[str] | None = None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        if name in LACKING:
            raise ModuleNotFoundError(f"No module named {name!r} on Windows", name=name)
        return None


def _locks() -> ModuleType:
    """The lock of Windows, by that of this system: refused with EACCES while another has it."""
    fcntl: Any = importlib.import_module("fcntl")

    def locking(file: int, _mode: int, _bytes: int) -> None:
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as error:
            raise OSError(errno.EACCES, os.strerror(errno.EACCES)) from error

    module = ModuleType("msvcrt")
    vars(module).update(locking=locking, LK_NBLCK=2)
    return module


def _silence() -> ModuleType:
    """The sounds of Windows, which are not heard here."""
    module = ModuleType("winsound")
    vars(module).update(PlaySound=lambda _name, _flags: None, SND_FILENAME=1, SND_NODEFAULT=2)
    return module


_replacing_rename = os.rename


def _rename(source: str, target: str, **folders: int) -> None:
    """Windows renames nothing over what is there."""
    if os.path.lexists(target):
        raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(target))
    _replacing_rename(source, target, **folders)


def _processes() -> SimpleNamespace:
    """The three calls of kernel32 that tell whether a process has ended."""
    kill = os.kill

    class OpenProcess:
        restype: object = None

        def __call__(self, _rights: int, _inherit: bool, process: int) -> int | None:
            try:
                kill(process, 0)
            except ProcessLookupError:
                return None
            except OSError:
                pass
            return process

    def exit_code(_handle: object, _into: object) -> int:
        return 1  # it is left as the caller set it: still running

    return SimpleNamespace(
        OpenProcess=OpenProcess(),
        GetExitCodeProcess=exit_code,
        CloseHandle=lambda _handle: 1,
    )


def force() -> None:
    """Make every module that is loaded from here on one on Windows."""
    for name in LIBRARIES:
        importlib.import_module(name)
    loaded = sorted(name for name in sys.modules if name.split(".")[0] == "courtlog")
    assert not loaded, f"loaded as on this system already: {loaded}"
    sys.modules |= {"msvcrt": _locks(), "winsound": _silence()}
    kernel = _processes()
    vars(io)["_WindowsConsoleIO"] = type("_WindowsConsoleIO", (), {})  # pytest looks for it
    vars(ctypes).update(WinDLL=lambda *_, **__: kernel, get_last_error=lambda: 87)
    vars(os)["rename"] = _rename
    for name in LACKING:
        sys.modules.pop(name, None)
    sys.meta_path.insert(0, _Lacking())
    sys.platform = "win32"


force()
