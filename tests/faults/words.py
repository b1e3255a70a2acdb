"""Hostile words: every command and option of the program, walked from the program itself.

What is demanded of each: an exit code of the program's own, no traceback, nothing on the terminal
that it could obey, and not one changed or new file when the words were refused.
"""

from __future__ import annotations

import ast
import os
import random
import re
import shutil
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from typer.main import get_command

import courtlog
from courtlog.cli.commands.app import app
from tests.cli.program import PROGRAM, Home, Said, home_with
from tests.faults.figures import Figure

SHEET = """\
clinic "Two Days"  zone UTC
roster Maren
roster Tove
day 2026-05-12  court 1  coach Ines
player Maren  drill forehand/hand-feed  cues turn spacing finish  time 09:00-09:10
222 210 012 200 221 222
note watch the feet
day 2026-05-13  court 1  coach Ines
player Tove  drill forehand/hand-feed  cues turn spacing finish  time 09:00-09:10
222 210 012 200 221 222
"""

USUAL = {
    "drill": "forehand/hand-feed",
    "file": "sheet.txt",
    "folder": "folder",
    "number": "1",
    "place": "1",
    "to": "2",
    "others": "other.db",
    "stroke": "forehand",
    "date": "2026-05-12",
    "clinic": "Two Days",
    "purpose": "practice",
}
"""What a coach would write for a parameter of this name; `Maren` for any other."""

TEXTS = (
    *("Bj\udcf6rn", "\udcff", "\ud83d", "a\ud800b"),
    *("\x1b[2J\x1b]0;x\x07", "\x9b31m", "a\nb", "a\r\nb", "a\rb", "\t", "\x7f\x08", "a\x0cb"),
    *("a\u2028b", "a\u2029b", "\x85", "\u202eabc\u2066", "\u200b", "\ufeffa", "\xad"),
    *("\ufffe", "\U0010ffff", "\ue000", "\U000e0041", "\u0378"),
    *("x" * 10_000, "木" * 5_000, "e" + "\u0301" * 500, "a b " * 2_500, "../" * 50 + "x"),
    *("[bold red]x[/]", "[/]", "{0}{x}%s%n", "<b>&amp;", "=1+1", "'; DROP TABLE ball; --"),
    *("", " ", "-", "--", "-1", "--help", "--nonsense", "--book=", "@x", "~", "..", "*"),
    *("nan", "NaN", "inf", "-inf", "1e999", "-0", "0", "0.0", "1e-999", "1_0", "+1", " 1 "),
    *("9" * 400, "-" + "9" * 400, "9223372036854775808", "4294967296", "0x10", "1e3", "1,5"),
    *("٣", "½", "²", "１２", "Ⅷ", "true", "null"),
    *("2026-02-30", "0001-01-01", "9999-12-31", "2026-W20", "20260512", "99999-01-01", "24:00"),
    *("Europe/../UTC", "/etc/passwd", "UTC\x1b", "GMT+99", "localtime", "posixrules"),
)


@dataclass(frozen=True, slots=True)
class Case:
    """A command line: the words, and which of them is the hostile one."""

    words: tuple[str, ...]
    hostile: str
    variable: str = ""
    """The variable of the environment that is hostile instead of a word."""

    @property
    def only_at_the_start(self) -> bool:
        """Whether only a new program sees the variable."""
        return self.variable.startswith(("TZ", "LC_"))

    def __str__(self) -> str:
        about = f"{self.variable}={self.hostile[:60]!a} " if self.variable else ""
        return about + " ".join(ascii(word[:60]) for word in self.words)


def commands() -> Iterator[tuple[tuple[str, ...], Any]]:
    """Every command and group there is, with the words that call it."""
    waiting: list[tuple[tuple[str, ...], Any]] = [((), get_command(app))]
    while waiting:
        path, command = waiting.pop()
        yield path, command
        waiting += [((*path, name), sub) for name, sub in getattr(command, "commands", {}).items()]


def cases(dice: random.Random) -> Iterator[Case]:
    """Every text in every parameter's place, and in a place where the command has none."""
    for path, command in commands():
        needed = [param for param in command.params if _is_argument(param) and param.required]
        for text in TEXTS:
            yield Case((*path, text), text)
            yield Case((*path, *map(_usual, needed), text), text)
            yield Case((*path, f"--{text}"), text)
            for param in command.params:
                others = [other for other in needed if other is not param]
                more = [
                    other
                    for other in command.params
                    if not _is_argument(other) and other is not param and dice.random() < 0.2
                ]
                yield Case((*path, *_written(param, text, others, more)), text)


def usual_words(path: tuple[str, ...], command: Any) -> tuple[str, ...]:
    """The command as a coach would type it, with what it needs and no more."""
    return (*path, *(_usual(one) for one in command.params if _is_argument(one) and one.required))


def _written(param: Any, text: str, others: list[Any], more: list[Any]) -> Iterator[str]:
    """The usual words of the other parameters, and the hostile one of this."""
    for other in more:
        yield from _option(other, _usual(other))
    if _is_argument(param):
        yield from map(_usual, others)
        yield text
    else:
        yield from _option(param, text)
        yield from map(_usual, others)


def _option(param: Any, value: str) -> tuple[str, ...]:
    return (param.opts[0],) if getattr(param, "is_flag", False) else (param.opts[0], value)


def _is_argument(param: Any) -> bool:
    return bool(param.param_type_name == "argument")


def _usual(param: Any) -> str:
    return USUAL.get(param.name, "Maren")


def small_home(folder: Path) -> Home:
    """A home with a small book, and files that the usual words name."""
    folder.mkdir(parents=True)
    (folder / "sheet.txt").write_text(SHEET, encoding="utf-8")
    home = home_with(folder, folder / "sheet.txt")
    shutil.copy(home.book, folder / "other.db")
    return home


def seen(text: str) -> bool:
    """Whether a terminal only draws this: letters, blanks, joiners and line ends."""
    return all(
        character in "\n\u200c\u200d"
        or character.isprintable()
        or unicodedata.category(character) == "Zs"
        for character in text
    )


def check(said: Said, hostile: str) -> None:
    """Raises AssertionError unless this is how the program may end."""
    assert said.code in (0, 1, 2), f"exit code {said.code}: {said.err[-300:]}"
    assert "Traceback" not in said.err, said.err[-1500:]
    words = said.out.replace("\n\f", "\n") + said.err  # in a pipe a printed page begins so
    assert seen(words), ascii(said.out[-300:] + said.err[-300:])
    if said.code:
        assert (said.err + said.out).strip(), "refused without a word"
        assert len(said.err) < 4000, "a flood of words"
    if hostile.strip() and not hostile.isprintable():
        assert hostile not in words


def words(folder: Path, long: bool) -> Figure:
    """Every hostile text in every place of every command; a sample of them in the short dose."""
    figure = Figure("words from outside: arguments")
    dice = random.Random(5)
    every = list(cases(dice))
    _run_all(folder / "here", dice.sample(every, LONG if long else SHORT), figure)
    every = [case for case in every if _can_be_handed_over(case.hostile)]
    _run_all(folder / "apart", dice.sample(every, FEW_LONG if long else FEW), figure, PROGRAM)
    return figure


def surroundings(folder: Path, long: bool) -> Figure:
    """Every hostile text in every variable of the environment that the program looks at."""
    figure = Figure("words from outside: environment")
    every = [
        Case(words, text, name)
        for name in sorted(_variables())
        for text in TEXTS
        if _can_be_handed_over(text)
        for words in PAGES
    ]
    dice = random.Random(7)
    here = [case for case in every if not case.only_at_the_start]
    _run_all(folder / "here", dice.sample(here, 1500 if long else 20), figure)
    apart = [case for case in every if case.only_at_the_start]
    _run_all(folder / "apart", dice.sample(apart, 100 if long else 2), figure)
    return figure


PAGES = (
    *((), ("version",), ("day",), ("day", "--help"), ("settings",), ("backup",), ("restore",)),
    *(("roster", "add", "Zoe"), ("drills", "check"), ("clinic", "new", "Third"), ("doctor",)),
)


def _variables() -> set[str]:
    """Those that the source names, and those that Python and the system look at for it."""
    named = {
        node.value
        for file in Path(courtlog.__file__).parent.rglob("*.py")
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and re.fullmatch("(COURTLOG|TEXTUAL|OPENBLAS|NO)(_[A-Z]+)+", node.value)
    }
    return named | {
        *("HOME", "USER", "LOGNAME", "XDG_DATA_HOME", "XDG_CONFIG_HOME", "_COURTLOG_COMPLETE"),
        *("LANG", "LC_ALL", "TZ", "TERM", "COLUMNS", "LINES"),
    }


def _can_be_handed_over(text: str) -> bool:
    try:
        return len(os.fsencode(text)) < 100_000
    except UnicodeEncodeError:
        return False


SHORT, LONG = 80, 5000
FEW, FEW_LONG = 2, 100
"""Runs in this process, and as programs of their own."""


def _run_all(
    folder: Path, chosen: list[Case], figure: Figure, program: tuple[str, ...] = ()
) -> None:
    small_home(folder / "whole")
    home = Home(folder / "home")
    before = _anew(folder)
    for case in chosen:
        with figure.trial(str(case)):
            try:
                env = {case.variable: case.hostile} if case.variable else {}
                said = home.run(*case.words, program=program, **env)
                check(said, case.hostile)
                after = home.files()
                if said.code:
                    figure.left_behind += len(after.keys() - before.keys())
                    assert after == before, f"changed: {_changed(before, after)}; {said.err[-300:]}"
                elif after != before:
                    demand_a_sound_book(home)
            finally:
                if home.files() != before:
                    before = _anew(folder)


def demand_a_sound_book(home: Home, book: str = "book.db") -> None:
    """What was taken in can be shown and written out, or is refused; and the book is sound."""
    for page in (("day",), ("roster", "list"), ("sheet", "out"), ("backup",), ("doctor",)):
        said = home.run(*page, COURTLOG_BOOK=str(home.folder / book))
        check(said, "")
    assert not said.code, f"the doctor: {said.out[-300:]}"


def _changed(before: dict[str, bytes], after: dict[str, bytes]) -> list[str]:
    return [ascii(name) for name in before | after if before.get(name) != after.get(name)]


def _anew(folder: Path) -> dict[str, bytes]:
    shutil.rmtree(folder / "home", ignore_errors=True)
    shutil.copytree(folder / "whole", folder / "home")
    return Home(folder / "home").files()
