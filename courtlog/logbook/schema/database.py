"""sqlite-utils, loaded without the numpy and pandas it would bring along for types no book holds.

They cost a tenth of a second and more at every start. Everything in the logbook that needs
sqlite-utils takes it from here.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def _absent(*modules: str) -> Iterator[None]:
    """Let an optional import of these fail, unless they are loaded already."""
    hidden = [name for name in modules if name not in sys.modules]
    sys.modules.update(dict.fromkeys(hidden))  # type: ignore[arg-type] # None means: not there
    try:
        yield
    finally:
        for name in hidden:
            del sys.modules[name]


with _absent("numpy", "pandas"):
    from sqlite_utils import Database
    from sqlite_utils.migrations import Migrations

__all__ = ["Database", "Migrations"]
