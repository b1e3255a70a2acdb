"""The answer to a shell that asks how a line may go on; whatever fails, it is told nothing.

A shell asks by two variables: its name, and the words up to the cursor, each behind a line end
(bash: the line as typed). The first line of the answer says what follows: `words`, or that `files`
or `folders` fit, which a shell knows best. A line that begins with a blank is a note on a word.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from typing import Any

from courtlog.cli.actions import completion
from courtlog.cli.actions.completion.unfinished_line import Asked, asked_for
from courtlog.cli.actions.completion.values import FILES, FOLDERS, values_of
from courtlog.names import folded_name
from courtlog.plain_text import plain

SHELL = "_COURTLOG_COMPLETE"
LINE = "_COURTLOG_WORDS"

_LONGEST = 100
"""Letters of the longest word that is suggested, and of a note."""

_SHELLS_WITH_NOTES = ("zsh", "fish", "powershell")


def give_answer(command: Any) -> None:
    """Print how the line may go on; nothing where that cannot be known."""
    shell, line = os.environ.get(SHELL, ""), os.environ.get(LINE, "")
    try:
        answer = "".join(f"{row}\n" for row in _rows(command, shell, line))
    except Exception:  # noqa: BLE001 - nobody who presses TAB asked for an error
        return
    sys.stdout.write(answer)


def _rows(command: Any, shell: str, line: str) -> Iterator[str]:
    quote, can_go_on = "", True
    if shell == "bash":
        typed = completion.typed_words.typed_words(line)
        words, quote, can_go_on = list(typed.words[1:]), typed.quote, typed.can_go_on
    else:
        words = line.split("\n")[1:]
    *before, begun = words
    asked = asked_for(command, before, begun)
    kind = _kind(asked.parameter)
    if kind in FILES | FOLDERS:
        yield "files" if kind in FILES else "folders"
        return
    yield "words"
    if can_go_on:
        yield from _words(asked, kind, shell, quote)


def _kind(parameter: Any) -> str:
    """What the help calls a value: `player` of `--player <player>`, and of an argument `player`."""
    if parameter is None:
        return ""
    return str(parameter.metavar or parameter.name).strip("<>")


def _words(asked: Asked, kind: str, shell: str, quote: str) -> Iterator[str]:
    if asked.options:
        found = _options(asked)
    elif asked.parameter is None:
        found = list(_commands(asked.command)) or _options(asked)
    else:
        found = [(value, "") for value in values_of(kind, asked.given)]
    for word, note in found:
        if shell != "fish" and not folded_name(word).startswith(folded_name(asked.begun)):
            continue  # fish chooses by rules of its own
        if word[:1] in ("", " ") or len(word) > _LONGEST or plain(word) != word:
            continue  # what has hidden characters is typed by whoever knows them
        if shell == "bash":
            if (text := completion.typed_words.quoted(word, quote)) is not None:
                yield text
        else:
            yield asked.joined + word
            if note and shell in _SHELLS_WITH_NOTES:
                yield f" {note[:_LONGEST]}"


def _commands(group: Any) -> Iterator[tuple[str, str]]:
    for name, command in getattr(group, "commands", {}).items():
        if not command.hidden:
            yield name, command.get_short_help_str(_LONGEST)


def _options(asked: Asked) -> list[tuple[str, str]]:
    given = asked.given
    found = [
        (name, option.help or "")
        for option in asked.command.params
        if option.param_type_name == "option" and not option.hidden
        if option.multiple or option.opts[0] not in given
        for name in (*option.opts, *option.secondary_opts)
    ]
    return [*found, ("--help", "Show this message and exit.")]
