"""Every help text is read whole: no line of a list is cut, no sentence is long."""

from __future__ import annotations

import re

import pytest

from courtlog.cli.commands.groups import GROUPS
from tests.cli.program import Home
from tests.faults.words import commands

COMMANDS = dict(commands())
PATHS = list(COMMANDS)
ORDER = [
    *("--player", "--date", "--why", "--figures", "--full", "--plain", "--json"),
    *("--clinic", "--book", "--help"),
]
MACHINE_WORDS = re.compile(r"<(?:str|int|float|path|list)\b|list\[|<=|…|\w\.\.\.$", re.MULTILINE)


@pytest.mark.parametrize("path", PATHS, ids=" ".join)
def test_no_help_is_cut_short_or_long_winded(home: Home, path: tuple[str, ...]) -> None:
    page = "\n".join(home.run(*path, "--help", COLUMNS="80").lines)
    assert not MACHINE_WORDS.search(page), page
    assert all(len(line) < 80 for line in page.splitlines()), page
    for paragraph in re.split(r"\n\s*\n|\n {2,}(?=\S+ )|  +", page):
        for sentence in re.split(r"(?<=[.:;]) ", paragraph):
            assert len(sentence.split()) <= 25, sentence


def test_every_command_is_in_one_group_and_listed_there(home: Home) -> None:
    grouped = [name for names in GROUPS.values() for name in names]
    assert sorted(grouped) == sorted(COMMANDS[()].commands)
    parts = "\n".join(home.run("--help").lines).split("\n\n")
    listed = {
        title: tuple(re.findall(r"^  (\w+)", rows, re.MULTILINE))
        for title, _, rows in (part.partition(":\n") for part in parts)
        if title in GROUPS
    }
    assert list(listed.items()) == list(GROUPS.items())


@pytest.mark.parametrize("path", PATHS, ids=" ".join)
def test_options_of_many_commands_stand_in_one_order(home: Home, path: tuple[str, ...]) -> None:
    page = "\n".join(home.run(*path, "--help").lines)
    options = re.findall(r"^  (--[\w-]+)", page, re.MULTILINE)
    assert [name for name in options if name in ORDER] == [
        name for name in ORDER if name in options
    ]
    assert options[-1] == "--help"
