"""The table of commands has every command of the program."""

from __future__ import annotations

from collections.abc import Iterator

import typer.main
from typer._click.core import Command
from typer.core import TyperGroup

from courtlog.cli.commands.app import app
from tests.faults.table import COMMANDS


def every(command: Command, words: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """The words of each command; of a group only where it does something by itself."""
    if isinstance(command, TyperGroup):
        for name, below in command.commands.items():
            yield from every(below, (*words, name))
        if not command.invoke_without_command:
            return
    yield words


def test_the_table_has_every_command() -> None:
    wanted = set(every(typer.main.get_command(app)))
    assert len(wanted) > 30
    tried = {
        max((words for words in wanted if one.words[: len(words)] == words), key=len)
        for one in COMMANDS
    }
    assert wanted - tried == set()
