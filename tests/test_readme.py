"""The README can be followed: its keys are played, its links lead somewhere, it stays short."""

from __future__ import annotations

import re
import shutil
import subprocess
import tomllib
from pathlib import Path
from typing import Any

import pytest
import typer
from textual.pilot import Pilot
from typer.main import get_command

from courtlog import manual
from courtlog.cli.commands.app import app
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.commands.table import COMMANDS
from courtlog.courtside.desk.desk import Desk
from courtlog.settings import Settings
from tests.court import LIBRARY, Clock, again, open_book, written
from tests.courtside.screen import on_court
from tests.kit.systems import SYSTEMS
from tests.manual.prose import length, links, sentences
from tests.pictures.scenes import FOLDER, SCENES

ROOT = Path(__file__).parents[1]
README = ROOT / "README.md"
TEXT = README.read_text(encoding="utf-8")
FEWER_LINES_THAN = 160
MOST_WORDS = 25
"""In a sentence; the first paragraph tells of the job at its own length."""

PLAYED = {
    "`o`": "Ada |2--",
    "`k`": "Ada |21-",
    "`.`": "Ada 212",
    "`Space`": "Ada 212 222",
    "`m` `Space`": "Ada 212 222 220",
    "`Enter`": "Ada 212 222 220 .",
    "`Backspace`": "Ada 212 222 220",
    "`t` `Space`": "Ada 212 222 220 222!",
    "`z`": "Ada 212 222 220 222!",
    "`Tab`": "Bo",
}
"""By step of the first round: who is on court after it, and the balls as a sheet writes them."""


def steps() -> list[str]:
    """The keys of each numbered step, as they are written."""
    return re.findall(r"^\d+\. (`.*?`): ", TEXT, re.MULTILINE)


def pressed(step: str) -> list[str]:
    """The keys of a step, as the terminal sends them."""
    keys = re.findall(r"`([^`]+)`", step)
    return ["full_stop" if key == "." else key.lower() for key in keys]


def on_court_now(desk: Desk) -> str:
    """Who is on court with which balls, from the book alone."""
    live = again(desk).view.live
    assert live is not None
    return f"{live.player.name} {written(live.feeding)}".strip()


def topic_lines() -> str:
    """The list of the manual's pages, as they name themselves."""
    return "\n".join(
        f"* [{topic.title}](courtlog/manual/{topic.name}.md): {topic.about}"
        for topic in manual.topics()
    )


def code_lines() -> list[str]:
    """What is to be typed in a shell."""
    return re.findall(r"^ {4}(\S.*)$", TEXT, re.MULTILINE)


def test_the_ten_keys_do_what_is_said(tmp_path: Path) -> None:
    desk = Desk(open_book(tmp_path), lambda: LIBRARY, Settings(), Clock())
    seen: dict[str, str] = {}

    async def play(pilot: Pilot[None], _: CourtlogApp) -> None:
        for step in steps():
            await pilot.press(*pressed(step))
            seen[step] = on_court_now(desk)

    begin = [*"Bay", "enter", *"Ada, Bo", *["enter"] * 3, *"Cy", *["enter"] * 3]
    on_court(desk, begin, then=play)
    assert seen == PLAYED


def test_the_pictures_are_shown_once_each_with_words_for_them() -> None:
    shown = re.findall(r"^!\[(.{40,})\]\((.*)\)$", TEXT, re.MULTILINE)
    assert sorted(place for _, place in shown) == sorted(
        (FOLDER / f"{name}.svg").relative_to(ROOT).as_posix() for name in SCENES
    )


def test_it_is_short() -> None:
    assert len(TEXT.splitlines()) < FEWER_LINES_THAN
    rest = TEXT.split("\n\n", 2)[2]
    assert [one for one in sentences(rest) if length(one) > MOST_WORDS] == []


def test_every_link_leads_somewhere_and_to_every_page_of_the_manual() -> None:
    places = [place for _, place in links(TEXT)]
    assert [place for place in places if not (ROOT / place).is_file()] == []
    assert f"<!-- topics -->\n{topic_lines()}\n<!-- /topics -->" in TEXT


def test_eight_words_have_a_line_each() -> None:
    section = TEXT.partition("## Eight words\n\n")[2].partition("\n\n")[0]
    lines = [re.fullmatch(r"\* \*\*[a-z ]+\*\*: .+\.", line) for line in section.splitlines()]
    assert len(lines) == 8
    assert all(lines)


def test_the_two_commands_stand_there_once() -> None:
    """The build runs the one that its script finds here."""
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    wanted = re.search(r"grep -o '(.*)' README\.md", script)
    assert wanted is not None
    assert len(re.findall(wanted[1], TEXT, re.MULTILINE)) == 1
    assert sum(line.endswith(".venv/bin/courtlog demo") for line in code_lines()) == 1


def test_the_install_lines_name_the_right_python_and_every_tool() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert f"Python {project['requires-python'].removeprefix('>=')} or later" in TEXT
    assert "courtlog" in project["scripts"]
    installing = [line for line in code_lines() if "install" in line]
    assert [
        tool
        for tool in ("uv tool install", "pipx install", "/pip install")
        if not any(tool in x for x in installing)
    ] == []


def test_the_file_to_double_click_is_the_one_in_the_zip() -> None:
    assert [system.name for system in SYSTEMS if f"`{system.starter}` (" not in TEXT] == []


@pytest.mark.skipif(shutil.which("sh") is None, reason="a POSIX shell reads the lines")
def test_a_shell_can_read_every_line() -> None:
    done = subprocess.run(["sh", "-n"], input="\n".join(code_lines()), text=True, check=False)
    assert done.returncode == 0


def test_every_command_and_key_that_is_named_is_there() -> None:
    commands: Any = get_command(app)
    assert isinstance(commands, typer.core.TyperGroup)
    typed = {words.split()[0] for words in re.findall(r"`courtlog ([a-z].*?)`", TEXT)}
    assert typed - set(commands.commands) == set()
    shown = {key for command in COMMANDS for key in command.all_shown()}
    named = set(re.findall(r"`?(Esc [a-z]|Ctrl\+[A-Z])\b", TEXT))
    assert named
    assert named - shown == set()


if __name__ == "__main__":
    drawn = f"<!-- topics -->\n{topic_lines()}\n<!-- /topics -->"
    pattern = r"<!-- topics -->.*?<!-- /topics -->"
    README.write_text(re.sub(pattern, lambda _: drawn, TEXT, flags=re.DOTALL), encoding="utf-8")
