"""What the manual says of keys, commands and settings is what the program says of them."""

from __future__ import annotations

import re
from dataclasses import fields

import pytest

from courtlog import manual
from courtlog.courtside.commands.table import COMMANDS
from courtlog.courtside.desk.keymap import FEEDING
from courtlog.settings import Settings
from tests.faults.test_table import every
from tests.manual import drawn


@pytest.mark.parametrize("name", drawn.DRAWN)
def test_a_page_is_as_the_program_draws_it(name: str) -> None:
    """`python -m tests.manual` draws it again."""
    assert drawn.with_drawn_parts(name, manual.page(name)) == manual.page(name)


def test_every_command_stands_there_once() -> None:
    headings = re.findall(r"^### (.*)$", manual.page("commands"), re.MULTILINE)
    typed = [" ".join(["courtlog", *words]) for words in every(drawn.PROGRAM[()])]
    assert sorted(headings) == sorted(typed)


def test_every_option_stands_with_its_command() -> None:
    parts = re.split(r"^### ", manual.page("commands"), flags=re.MULTILINE)[1:]
    told = dict(part.split("\n", 1) for part in parts)
    for line in drawn.command_lines().values():
        for name, _ in line.takes:
            assert len(re.findall(rf"`{re.escape(name.split()[0])}[` ]", told[line.words])) >= 1


def test_every_key_stands_there_once() -> None:
    page = manual.page("keys")
    firsts = [row.split(" | ")[0] for row in re.findall(r"^\| (.*) \|$", page, re.MULTILINE)]
    keys = [key.casefold() for first in firsts for key in first.split(", ")]
    assert [key for key in FEEDING if keys.count(key) != 1] == []
    shown = [key.casefold() for command in COMMANDS for key in drawn.shown_keys(command)]
    assert [key for key in shown if keys.count(key) != 1] == []


def test_every_setting_stands_there_once() -> None:
    page = manual.page("settings")
    assert [
        field.name for field in fields(Settings) if page.count(f"| `{field.name}` |") != 1
    ] == []
