"""The whole program loaded once, so that a command or a court in a child starts at once."""

from __future__ import annotations

import importlib
import pkgutil
from types import ModuleType

import courtlog


def load(*packages: ModuleType) -> None:
    """Load every module of these packages, or of the program where none is named."""
    for package in packages or (courtlog,):
        for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            if not module.name.endswith("__main__"):
                importlib.import_module(module.name)
