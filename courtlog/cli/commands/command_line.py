"""The one way in for typed words: a `CommandLine` takes only text that can be written down.

A text in another encoding than the terminal's is refused and not guessed at. Its bytes are `ö` in
one encoding and `ř` in another; a wrong guess would be a second player in the book. The name of a
file is left as it is, since its bytes are what the disk knows it by.
"""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Callable
from typing import Any, TypeVar

import typer
from typer.core import TyperCommand, TyperGroup
from typer.main import get_command

from courtlog.cli import actions
from courtlog.cli.commands.groups import groups
from courtlog.errors import CourtlogError
from courtlog.plain_text import brief, plain

Function = TypeVar("Function", bound=Callable[..., Any])

_SURROGATE = re.compile(r"[\ud800-\udfff]")
"""Surrogates: what Python puts where it could not decode a byte."""

_RANGE = re.compile(r"\[([\d.]+)<=x<=([\d.]+)\]")
"""Typer's way to say which numbers an option takes."""

_REQUIRED = re.compile(r"  \[required\]$")
"""What typer adds to each argument; the usage line says it by its brackets."""

_TYPE = re.compile(r"(?<=\w)(\.{3})? <[^>]*>$")
"""Python's word for what an argument is; an option has a plain one in its place."""

_FIRST = ("--player", "--date")
_LAST = (
    *("--why", "--figures", "--charts", "--full", "--html", "--plain", "--json"),
    *("--clinic", "--book", "--install-completion", "--show-completion", "--help"),
)
"""Options that many commands have. Of whom and when comes first, then the command's own; then how
much of it in which form, and of which clinic and book."""

COMMAND_OR_NONE = "[COMMAND [ARGS]...]"
"""In a usage line: the group does something without a command too."""

_WHOLE = 1000
"""More letters than any command's first sentence has."""

_ParserError: type[Exception] = typer.BadParameter.mro()[2]
"""The base of the option parser's errors; newer versions of typer bring their own parser."""


_IN_PLAIN_WORDS = {
    ", unable to parse string as an integer": "",
    ", unable to parse string as a number": "",
    "Input should be a valid integer": "it takes a whole number",
    "Input should be a valid number": "it takes a number",
    "Input should be": "it should be",
}
"""Words of newer typer versions for a wrong number, and plainer ones."""


class _SoundText:
    """Checks every typed value once the option parser has split the line."""

    params: list[Any]
    get_params: Callable[[Any], list[Any]]

    def parse_args(self, context: Any, words: list[str]) -> list[str]:
        rest: list[str] = super().parse_args(context, words)  # type: ignore[misc]
        for param in self.params:
            value = context.params.get(param.name)
            for text in value if isinstance(value, (list, tuple)) else [value]:
                if isinstance(text, str) and _SURROGATE.search(text):
                    raise CourtlogError(
                        f"What was typed for {_name_of(param)} is in another encoding: {text}.",
                        "Set the terminal to UTF-8 and type it again; nothing was written.",
                    )
        return rest

    def takes(self, context: Any) -> dict[str, list[tuple[str, str]]]:
        """Arguments and options, name and help, those that many commands have in the same order."""
        told: dict[str, list[tuple[str, str]]] = {"Arguments": [], "Options": []}
        for parameter in sorted(self.get_params(context), key=_place):
            if (record := parameter.get_help_record(context)) is None:
                continue
            name, words = record
            words = _RANGE.sub(r"(\1 to \2)", words)
            if parameter.param_type_name == "argument":
                told["Arguments"].append((_TYPE.sub("", name), _REQUIRED.sub("", words)))
            else:
                told["Options"].append((name, words))
        return told

    def format_options(self, context: Any, formatter: Any) -> None:
        """Write arguments and options."""
        for title, rows in self.takes(context).items():
            if rows:
                with formatter.section(title):
                    formatter.write_dl(rows)


class _Command(_SoundText, TyperCommand):
    """A command that takes only sound text."""


class _Group(_SoundText, TyperGroup):
    """A group of such commands."""

    def format_options(self, context: Any, formatter: Any) -> None:
        """Write the options, then the commands: all of courtlog's by when one needs them."""
        super().format_options(context, formatter)
        parts = groups(self.commands) if context.parent is None else [("Commands", self.commands)]
        column = max(map(len, self.commands))
        for title, commands in parts:
            with formatter.section(title):
                formatter.write_dl(
                    [
                        (name.ljust(column), command.get_short_help_str(_WHOLE))
                        for name, command in commands.items()
                    ]
                )


class CommandLine(typer.Typer):
    """A typer app all of whose commands take only sound text."""

    def __init__(self, **more: Any) -> None:
        if more.get("invoke_without_command"):
            more["subcommand_metavar"] = COMMAND_OR_NONE
        super().__init__(cls=_Group, **more)

    def command(self, *names: Any, **more: Any) -> Callable[[Function], Function]:
        """The decorator of a command."""
        return super().command(*names, cls=_Command, **more)


def run(app: typer.Typer) -> None:
    """Run the command that was typed. Raises CourtlogError; leaves with 2 if none can be meant."""
    if "_COURTLOG_COMPLETE" in os.environ:  # a shell asks how a line may go on
        actions.completion.answer.give_answer(get_command(app))
        return
    try:
        code = app(standalone_mode=False)
    except _ParserError as error:
        _print_usage(error)
        sys.exit(2)
    except typer.Abort:
        raise CourtlogError(
            "No answer came, so the command stopped.", "Give it again and type an answer."
        ) from None
    if code:
        sys.exit(code)


def _place(parameter: Any) -> int:
    """Where an option stands in the help: those of one place stay as they are declared."""
    name = parameter.opts[0]
    if name in _FIRST:
        return _FIRST.index(name) - len(_FIRST)
    return _LAST.index(name) + 1 if name in _LAST else 0


def _name_of(param: Any) -> str:
    """`--coach`, or `NAME` of an argument."""
    return str(param.opts[0] if param.param_type_name == "option" else param.name.upper())


def _print_usage(error: Any) -> None:
    """Print how the command is used, and on one line what was wrong."""
    if type(error).__name__ == "NoArgsIsHelpError":
        print(error.format_message(), file=sys.stderr)
        return
    if error.ctx is not None:
        print(error.ctx.get_usage(), file=sys.stderr)
        print(f"Try '{error.ctx.command_path} --help' for help.\n", file=sys.stderr)
    words = plain(error.format_message())
    for machine, person in _IN_PLAIN_WORDS.items():
        words = words.replace(machine, person)
    print(f"Error: {brief(words)}", file=sys.stderr)
