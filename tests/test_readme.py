"""The README says what the program does: its picture, keys and commands are the program's."""

from __future__ import annotations

import re
from pathlib import Path

import typer
from typer.main import get_command

from courtlog.cli.actions import demo
from courtlog.cli.actions.sheets import put_in
from courtlog.cli.commands.app import app
from courtlog.coaching.game.grades import Grade
from courtlog.courtside.commands.base import Command
from courtlog.courtside.commands.table import COMMANDS
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import PADS
from courtlog.library.sheet_in import read_sheet
from courtlog.locations import shipped_samples
from courtlog.logbook.file.open_book import create_or_open
from courtlog.reports.layout.picture_words import PICTURE_WORDS
from courtlog.settings import Settings
from tests.court import LIBRARY, Clock
from tests.courtside.screen import on_court

README = Path(__file__).parents[1] / "README.md"
TEXT = README.read_text(encoding="utf-8")


def picture(folder: Path) -> str:
    """The court screen of the demo after a ball and a half more."""
    text = (shipped_samples() / demo.SAMPLE).read_text(encoding="utf-8")
    before, round_ = demo.until_mid_round(read_sheet(text, demo.SAMPLE, LIBRARY, "UTC"))
    clock = Clock(round_.started or 0)
    book = create_or_open(folder / "demo.db", clock())
    put_in(book, before, LIBRARY, clock())
    desk = Desk(book, lambda: LIBRARY, Settings(), clock)
    demo.put_on_court(desk, book, before.days[-1], round_, LIBRARY)
    return on_court(desk, ["space", "o", "k", "t"])


def command_rows() -> str:
    """The rows of the README's key table that the commands themselves say."""
    return "\n".join(
        f"| {', '.join(shown_keys(command))} | {command.help()} |" for command in COMMANDS
    )


def shown_keys(command: type[Command]) -> list[str]:
    """A command's keys as a reader writes them."""
    first, *over_escape = command.all_shown()
    also = (key.upper() for key in command.keys if key in ("f1", "+", "#"))
    return [first, *(key for key in also if key != first), *over_escape]


def between(mark: str) -> str:
    """The README's text between two marks."""
    found = re.search(rf"<!-- {mark} -->\n(.*?)\n?<!-- /{mark} -->", TEXT, re.DOTALL)
    assert found is not None
    return found[1]


def test_the_picture_is_the_running_program(tmp_path: Path) -> None:
    assert between("picture") == f"```\n{picture(tmp_path).rstrip()}\n```"


def test_the_key_table_is_the_commands() -> None:
    assert between("commands") == command_rows()


def test_eight_words_have_a_line_each() -> None:
    section = TEXT.partition("## Eight words\n\n")[2].partition("\n\n")[0]
    lines = [re.fullmatch(r"\* \*\*[a-z ]+\*\*: .+\.", line) for line in section.splitlines()]
    assert len(lines) == 8
    assert all(lines)


def test_the_pad_table_is_the_keymap() -> None:
    for pad in PADS.values():
        rows = [" ".join(f"`{keys[grade]}`" for grade in Grade) for keys in pad.rows]
        clean = ", ".join("Space" if key == "space" else f"`{key}`" for key in pad.clean)
        assert f"| {pad.title} | {' | '.join(rows)} | {clean} |" in TEXT


def test_every_command_and_option_is_there() -> None:
    commands = get_command(app)
    assert isinstance(commands, typer.core.TyperGroup)
    for name, command in commands.commands.items():
        if isinstance(command, typer.core.TyperGroup):
            wanted = [f"`courtlog {name} {sub}" for sub in command.commands]
        else:
            wanted = [f"`courtlog {name}"]
        for words in wanted:
            assert words in TEXT
        for parameter in command.params:
            for option in parameter.opts:
                if option.startswith("--") and option != "--help":
                    assert f"`{option}" in TEXT, f"{name} {option}"


def test_the_words_under_pictures_are_those_of_the_pages() -> None:
    told = " ".join(TEXT.replace("\n> ", " ").split())
    assert " ".join(PICTURE_WORDS) in told


if __name__ == "__main__":
    import tempfile

    with tempfile.TemporaryDirectory() as scratch:
        drawn = f"<!-- picture -->\n```\n{picture(Path(scratch)).rstrip()}\n```\n<!-- /picture -->"
    TEXT = re.sub(r"<!-- picture -->.*?<!-- /picture -->", lambda _: drawn, TEXT, flags=re.DOTALL)
    rows = f"<!-- commands -->\n{command_rows()}\n<!-- /commands -->"
    TEXT = re.sub(r"<!-- commands -->.*?<!-- /commands -->", lambda _: rows, TEXT, flags=re.DOTALL)
    README.write_text(TEXT, encoding="utf-8")
