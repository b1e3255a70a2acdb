"""Nothing ever asks for the network: every command and an evening at court, with sockets watched.

The watch is Python's own audit hook (PEP 578); its events for sockets are listed in the standard
library's table of audit events.
"""

from __future__ import annotations

import json
import os
import sys
from typing import Any

import pytest
import typer
from typer.main import get_command

from courtlog.cli.commands.app import app
from tests.cli.program import Home, Said

pytestmark = pytest.mark.skipif(
    os.name != "posix", reason="elsewhere Python's own event loop wakes itself over a socket"
)

WATCH = """
import os, socket, sys

def watch(event, args):
    if not event.startswith("socket.") or event in ("socket.gethostname", "socket.sethostname"):
        return
    family = args[1] if event == "socket.__new__" else getattr(args[0], "family", socket.AF_INET)
    if family not in (socket.AF_INET, socket.AF_INET6):
        return
    with open(os.environ["CALLS"], "a") as calls:
        calls.write(event + "\\\\n")
    raise OSError("no network here: " + event)

sys.addaudithook(watch)
"""

COURT = """
import asyncio
from pathlib import Path
from courtlog.courtside.app.court_app import CourtlogApp
from tests.court import desk_in

KEYS = [*"uio", "space", "q", "escape", "tab", "k", "n", *"late", "enter", "f5", "escape",
        "f6", *"left", "enter", "w", "s", "question_mark", "escape", "ctrl+l", "ctrl+l",
        "z", "f9", "escape", "ctrl+q"]

async def evening(desk):
    async with CourtlogApp(desk, Path("settings.json"), "UTC").run_test() as pilot:
        await pilot.press(*KEYS)

desk = desk_in(Path("court"))
asyncio.run(evening(desk))
print(desk.book.db.execute("SELECT count(*) FROM journal").fetchone()[0])
"""

COMMANDS = """
import json, sys
from pathlib import Path
from tests.cli.program import Home

home = Home(Path.cwd())
said = [home.run(*words) for words in json.loads(sys.argv[1])]
print(json.dumps([[each.code, each.out, each.err] for each in said]))
"""
"""Every command in one watched process: what it imports, it imports under the watch."""

WORDS = {
    "drills list": ["forehand"],
    "drills show": ["forehand/live"],
    "drills check": [],
    "sheet in": ["sheet.txt"],
    "settings": ["pad", "left"],
}
"""What a command is given; any other gets a player's name for each word that it needs."""


PAGES = {
    "day",
    "agree",
    "trend Maren",
    "player Maren",
    "takehome Maren",
    "demo",
    "drills list forehand",
}
"""Commands that must have gone well to have shown anything."""


def commands() -> list[list[str]]:
    """Every command with its words."""
    found: list[list[str]] = []
    waiting: list[tuple[list[str], Any]] = [([], get_command(app))]
    for names, command in waiting:
        if isinstance(command, typer.core.TyperGroup):
            found.append(names)
            waiting += [([*names, name], sub) for name, sub in command.commands.items()]
            continue
        needed = [p for p in command.params if p.param_type_name == "argument" and p.required]
        found.append([*names, *WORDS.get(" ".join(names), ["Maren"] * len(needed))])
    return found


def watched(home: Home) -> dict[str, str]:
    """An environment in which every Python that starts watches its sockets."""
    site = home.folder / "site"
    site.mkdir(exist_ok=True)
    (site / "sitecustomize.py").write_text(WATCH.replace("\\\\n", "\\n"), encoding="utf-8")
    paths = os.pathsep.join([str(site), home.environment()["PYTHONPATH"]])
    return {"PYTHONPATH": paths, "CALLS": str(home.folder / "calls.txt")}


def calls(home: Home) -> str:
    """What was asked of the network."""
    path = home.folder / "calls.txt"
    return path.read_text(encoding="utf-8") if path.exists() else ""


@pytest.fixture
def own(home: Home, harbour: Home) -> Home:
    """A home with the five-day sample, to be changed at will."""
    home.book.write_bytes(harbour.book.read_bytes())
    (home.folder / "sheet.txt").write_text("clinic Two  zone UTC\n", encoding="utf-8")
    return home


@pytest.mark.parametrize(
    "deed",
    [
        "socket.socket()",
        "socket.getaddrinfo('localhost', 80)",
        "import urllib.request; urllib.request.urlopen('http://127.0.0.1:9/')",
    ],
)
def test_the_watch_sees_what_it_must(home: Home, deed: str) -> None:
    said = home.run("-c", f"import socket; {deed}", program=(sys.executable,), **watched(home))
    assert "no network here" in said.err
    assert calls(home).startswith("socket.")


def test_no_command_asks_for_the_network(own: Home) -> None:
    env, found = watched(own), commands()
    assert {" ".join(words) for words in found} >= PAGES
    ran = own.run("-c", COMMANDS, json.dumps(found), program=(sys.executable,), **env)
    (line,) = ran.lines
    for words, said in zip(found, (Said(*each) for each in json.loads(line)), strict=True):
        assert "Traceback" not in said.err, words
        if " ".join(words) in PAGES:
            assert said.lines, words
    assert calls(own) == ""


def test_an_evening_at_court_asks_for_no_network(own: Home) -> None:
    said = own.run("-c", COURT, program=(sys.executable,), **watched(own))
    assert said.lines == ["8"], "keys that changed a ball"
    assert calls(own) == ""
