"""Rooms that load a module when it is first asked for, so that a command starts fast (PEP 562)."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from types import ModuleType


def loader(package: str) -> Callable[[str], ModuleType]:
    """The `__getattr__` of a package whose modules load on demand."""

    def load(name: str) -> ModuleType:
        if name.startswith("_"):
            raise AttributeError(f"module {package!r} has no attribute {name!r}")
        try:
            return import_module(f"{package}.{name}")
        except ModuleNotFoundError as error:
            raise AttributeError(f"module {package!r} has no attribute {name!r}") from error

    return load
