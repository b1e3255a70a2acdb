"""What an unfinished line asks for next: a command, an option, or a value of which kind."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any


@dataclass(slots=True)
class Asked:
    """Where the line has come to."""

    command: Any
    """The command or group that the last word belongs to."""
    given: dict[str, str] = field(default_factory=dict)
    """Values of options so far, those of the groups before too, as `--book`."""
    parameter: Any = None
    """The option or argument whose value comes next; None: a command, or no value fits."""
    begun: str = ""
    """What of the next word is there already; of `--date=2026` it is 2026."""
    joined: str = ""
    """`--date=` where option and value are one word."""
    options: bool = False
    """Whether the next word is an option."""


def asked_for(command: Any, words: Sequence[str], begun: str) -> Asked:
    """What comes in the place of `begun`, after these words behind the program's name."""
    asked = Asked(command, begun=begun)
    arguments, waiting, only_arguments = 0, None, False
    for word in words:
        if waiting is not None:
            asked.given[waiting.opts[0]] = word
            waiting = None
        elif word == "--":
            only_arguments = True
        elif word.startswith("-") and not only_arguments:
            name, has_value, value = word.partition("=")
            option = _option(asked.command, name)
            if option is not None and has_value:
                asked.given[option.opts[0]] = value
            elif option is not None and not option.is_flag:
                waiting = option
        elif word in getattr(asked.command, "commands", {}):
            asked.command, arguments = asked.command.commands[word], 0
        else:
            arguments += 1
    if waiting is not None:
        asked.parameter = waiting
    elif begun.startswith("-") and not only_arguments:
        _ask_for_option(asked)
    else:
        asked.parameter = _argument(asked.command, arguments)
    return asked


def _ask_for_option(asked: Asked) -> None:
    name, has_value, value = asked.begun.partition("=")
    if not has_value:
        asked.options = True
    elif (option := _option(asked.command, name)) is not None and not option.is_flag:
        asked.parameter, asked.begun, asked.joined = option, value, f"{name}="


def _option(command: Any, name: str) -> Any:
    found = (p for p in command.params if name in p.opts and p.param_type_name == "option")
    return next(found, None)


def _argument(command: Any, before: int) -> Any:
    """The argument that comes after so many; the last one may be typed again and again."""
    arguments = [p for p in command.params if p.param_type_name == "argument"]
    if before < len(arguments):
        return arguments[before]
    return arguments[-1] if arguments and arguments[-1].nargs == -1 else None
