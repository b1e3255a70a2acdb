"""The private names of Textual that the court uses: all of them, each with what it is used for.

A minor version of Textual may change any of them, so that pyproject.toml takes only one. Whoever
takes the next one begins here.
"""

from __future__ import annotations

import ast
import importlib
import inspect
import pkgutil
import re
import sys
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from types import ModuleType

import pytest
import textual
from textual._xterm_parser import XTermParser
from textual.app import App
from textual.dom import DOMNode
from textual.driver import Driver
from textual.drivers.linux_driver import LinuxDriver
from textual.message_pump import MessagePump
from textual.screen import Screen
from textual.timer import Timer

import courtlog
from courtlog import courtside
from courtlog.courtside.app import terminal

if sys.platform == "win32":
    pytest.skip("another driver is used there", allow_module_level=True)

PARTS: tuple[type, ...] = (
    *(App, DOMNode, Driver, LinuxDriver, MessagePump, Screen, Timer, XTermParser),
)

USED = {
    "textual._compositor.ChopsUpdate": "a partial update, which is cut to the changed cells",
    "textual._compositor.CompositorUpdate": "any update, painted in the signs of a plain console",
    "textual._styles_cache.StylesCache": "its cache of colours is emptied when a screen goes",
    "textual._xterm_parser.BRACKETED_PASTE_END": "where pasted text ends",
    "textual._xterm_parser.BRACKETED_PASTE_START": "where pasted text begins",
    "textual._xterm_parser.XTermParser": "bytes of the terminal become keys",
    "MessagePump._close_messages_no_wait": "ends the application after an error",
    "App._display": "the way to the terminal, on which updates are cut",
    "App._exception": "the error that ended the application",
    "App._exception_event": "tells the pilot of tests of that error",
    "App._handle_exception": "every error of a handler comes here",
    "App._return_code": "the exit code after an error",
    "DOMNode._get_component_classes": "a block of the manual has no styles of its own",
    "LinuxDriver._file": "the stream to the terminal, wrapped so that a failed write is no end",
    "Driver._app": "the application that the driver serves",
    "Driver._loop": "the event loop, from the thread that reads",
    "LinuxDriver._must_signal_resume": "whether Textual itself stopped the program",
    "LinuxDriver._sigcont_application": "the program goes on after a stop",
    "Screen._callbacks": "calls that wait for the next frame of a screen",
    "Screen._dirty_widgets": "what is painted with the next frame",
    "Screen._on_timer_update": "paints at once, without waiting for the next frame",
    "Timer._skip": "a late call is made, not left out",
    "XTermParser._sequence_to_key_events": "the keys of a sequence of bytes",
}


@cache
def rooms() -> list[ModuleType]:
    """Every module of the court."""
    names = (
        found.name for found in pkgutil.walk_packages(courtside.__path__, "courtlog.courtside.")
    )
    return [importlib.import_module(name) for name in names]


def is_private(name: str) -> bool:
    return name.startswith("_") and not name.startswith("__")


@cache
def names_of(owner: type) -> frozenset[str]:
    """The private names that a class of Textual defines, or gives to itself."""
    tree = ast.parse(inspect.cleandoc("\n" + inspect.getsource(owner)))
    methods = (node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef))
    given = (
        node.attr
        for node in ast.walk(tree)
        if isinstance(node, ast.Attribute)
        and isinstance(node.ctx, ast.Store)
        and isinstance(node.value, ast.Name)
        and node.value.id == "self"
    )
    return frozenset(filter(is_private, [*methods, *given, *vars(owner)]))


def of_textual(owner: type) -> list[type]:
    """The classes of Textual that this one is made of, the nearest first."""
    return [part for part in owner.__mro__ if part.__module__.split(".")[0] == "textual"]


def holder(owner: type, name: str) -> str | None:
    """`App._exception` where a class of Textual under this one has the name."""
    parts = [part for part in of_textual(owner) if name in names_of(part)]
    return f"{parts[-1].__name__}.{name}" if parts else None


def own_classes() -> Iterator[type]:
    """The court's classes that are made of Textual's, the driver of the terminal among them."""
    for room in rooms():
        for value in vars(room).values():
            if inspect.isclass(value) and value.__module__ == room.__name__:
                yield value
    if (driver := terminal.driver()) is not None:
        yield driver


def imported() -> Iterator[str]:
    """Names from Textual's private modules."""
    for room in rooms():
        for node in ast.walk(ast.parse(inspect.getsource(room))):
            if isinstance(node, ast.ImportFrom) and re.match(r"textual\..*\b_", node.module or ""):
                yield from (f"{node.module}.{name.name}" for name in node.names)


def inherited() -> Iterator[str]:
    """Names that a class of ours uses or replaces, on purpose or not, and one of Textual's has."""
    for owner in own_classes():
        if of_textual(owner):
            for node in ast.walk(ast.parse(inspect.cleandoc("\n" + inspect.getsource(owner)))):
                name = getattr(node, "attr", None) or getattr(node, "name", None) or ""
                if is_private(str(name)) and (held := holder(owner, str(name))):
                    yield held


def of_others() -> Iterator[str]:
    """Names of an application, a screen or a timer of Textual, asked from outside."""
    for room in rooms():
        for node in ast.walk(ast.parse(inspect.getsource(room))):
            if isinstance(node, ast.Attribute) and is_private(node.attr):
                by = ast.unparse(node.value)
                if by not in ("self", "cls", "os", "asyncio.get_running_loop()"):
                    held = (holder(owner, node.attr) for owner in (App, Screen, Timer))
                    yield from list(filter(None, held))[:1]


def test_the_list_has_every_private_name_that_is_used() -> None:
    found = {*imported(), *inherited(), *of_others()}
    assert found == {*USED}


@pytest.mark.parametrize("name", USED)
def test_this_textual_has_it(name: str) -> None:
    owner, _, last = name.rpartition(".")
    if owner.startswith("textual."):
        assert hasattr(importlib.import_module(owner), last)
    else:
        assert last in names_of(next(part for part in PARTS if part.__name__ == owner))


def test_only_a_minor_version_that_was_looked_at_is_taken() -> None:
    text = (Path(courtlog.__file__).parents[1] / "pyproject.toml").read_text(encoding="utf-8")
    (wanted,) = (
        need
        for need in tomllib.loads(text)["project"]["dependencies"]
        if need.startswith("textual")
    )
    major, minor, *_ = (int(part) for part in textual.__version__.split("."))
    assert wanted == f"textual>={major}.{minor},<{major}.{minor + 1}"
