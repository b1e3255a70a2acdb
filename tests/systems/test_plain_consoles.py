"""On a plain console every sign is one of its font; published lists say which those are."""

from __future__ import annotations

import ast
import asyncio
from functools import cache
from pathlib import Path

import pytest

import courtlog
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.surface.lettering import cells
from courtlog.plain_text import is_seen, plain
from courtlog.systems import plain_consoles
from courtlog.systems.plain_consoles import LINUX, WINDOWS
from tests.court import desk_in, feed
from tests.courtside.screen import shown
from tests.courtside.surface.test_contrast import BACK_TWICE, SCREENS

BELOW_32 = "☺☻♥♦♣♠•◘○◙♂♀♪♫☼►◄↕‼¶§▬↨↑↓→←∟↔▲▼"
"""The pictures of code page 437 that Python's codec has no place for (cp437.uni of Linux)."""

CP437 = {*(bytes(range(0x20, 0x7F)) + bytes(range(0x80, 0x100))).decode("cp437"), *BELOW_32}

WGL4 = CP437 | {"●"}
for page in ("cp1250", "cp1251", "cp1252", "cp1253", "cp1254", "cp1257"):
    WGL4 |= set(bytes(range(0x20, 0x100)).decode(page, errors="ignore"))
"""WGL4 is made of these code pages, and has U+25CF as well (OpenType 1.5, "WGL4.0 Character Set").

The few that no code page has are not asked for here.
"""


READ_NOT_WRITTEN = ("plain_consoles.py", "large_letters.py", "file_names.py", "cells.py")
"""Their tables have signs that names may hold."""


WITH_PARTS = ("note", "check-in", "drills", "one player's trend", "review")
"""Screens with lines to type in, lists, charts and frames."""


@cache
def own_signs() -> set[str]:
    """Every sign in the program's texts, and the pictures of what is not to be seen."""
    signs = set(map(plain, map(chr, range(0x20))))
    for file in Path(courtlog.__file__).parent.rglob("*.py"):
        if file.name in READ_NOT_WRITTEN:
            continue
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                signs |= set(node.value)
    return {sign for sign in signs if is_seen(sign) and not sign.isalpha()}


@pytest.mark.parametrize(("lacking", "font"), [(WINDOWS, WGL4), (LINUX, CP437)])
def test_what_courtlog_writes_is_in_the_font(lacking: plain_consoles.Signs, font: set[str]) -> None:
    signs = own_signs()
    assert {sign for sign in signs if sign.translate(lacking) not in font} == set()
    assert all(chr(sign) not in font for sign in lacking), "what the font has is not replaced"
    assert all(cells(chr(sign)) == cells(other) == 1 for sign, other in lacking.items())


def test_every_screen_is_in_the_font(tmp_path: Path) -> None:
    """What Textual draws of its own is in it too: frames, lines to type in, bars to scroll by."""
    desk = desk_in(tmp_path)
    feed(desk, "_0_T-1/_")
    app = CourtlogApp(desk, None, "UTC")

    async def look() -> None:
        async with app.run_test(size=(80, 24)) as pilot:
            for name in WITH_PARTS:
                await pilot.press(*SCREENS[name])
                await pilot.pause()
                assert not set(shown(app.screen).translate(WINDOWS)) - WGL4 - {"\n"}, name
                await pilot.press(*["escape"] * (1 + (name in BACK_TWICE)))

    asyncio.run(look())


@pytest.mark.parametrize(
    ("system", "told", "has"),
    [
        ("win32", {}, WINDOWS),
        ("win32", {"WT_SESSION": "1"}, {}),
        ("win32", {"TERM_PROGRAM": "x"}, {}),
        ("linux", {"TERM": "linux"}, LINUX),
        ("linux", {"TERM": "xterm-256color"}, {}),
        ("linux", {}, {}),
    ],
)
def test_which_terminals_are_plain(
    monkeypatch: pytest.MonkeyPatch, system: str, told: dict[str, str], has: plain_consoles.Signs
) -> None:
    monkeypatch.setattr(plain_consoles.sys, "platform", system)  # type: ignore[attr-defined]
    monkeypatch.setattr(plain_consoles.os, "environ", told)  # type: ignore[attr-defined]
    for marks, wanted in (("auto", has), ("letters", has), ("shapes", {})):
        assert plain_consoles.lacking(marks) == wanted
