"""The whole program loaded once, so that a command or a court in a child starts at once."""

from __future__ import annotations

import importlib
import pkgutil
from types import ModuleType

import courtlog

_OPTIONAL = "pyspark"
"""What the tests need not have: one engine of the academy, which no court loads."""


def load(*packages: ModuleType) -> None:
    """Load every module of these packages, or of the program where none is named."""
    for package in packages or (courtlog,):
        for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            if not module.name.endswith("__main__"):
                _load(module.name)


def _load(name: str) -> None:
    try:
        importlib.import_module(name)
    except ModuleNotFoundError as missing:
        if (missing.name or "").partition(".")[0] != _OPTIONAL:
            raise
