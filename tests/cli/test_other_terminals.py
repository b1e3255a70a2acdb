"""A terminal of another encoding shows every page, with letters where it lacks a sign."""

from __future__ import annotations

import ast
import shutil
from pathlib import Path

import pytest

import courtlog
from courtlog.plain_text import is_seen
from courtlog.reports.layout.signs import nearest_letters
from tests.cli.program import PROGRAM, Home, home_with
from tests.faults.words import commands, usual_words
from tests.terminal.console import Console, environment

ENCODINGS = ["latin-1", "koi8-r", "shift_jis"]
SHEET = """\
clinic "Łódź 木村 ’25"  zone UTC
roster "Jürgen Weiß"
roster "Ñandú"
day 2026-05-12  court "№ 1"  coach "Inés"
player "Jürgen Weiß"  drill forehand/hand-feed  cues turn spacing finish  time 09:00-09:10
222 210 012 200 221 222
note "the feet … 5° → better"
"""


@pytest.fixture(scope="module")
def anywhere(tmp_path_factory: pytest.TempPathFactory) -> Home:
    """A home whose names have letters of several scripts, and rounds enough for charts."""
    folder = tmp_path_factory.mktemp("anywhere")
    (folder / "sheet.txt").write_text(SHEET, encoding="utf-8")
    days = [SHEET.partition("day ")[2].replace("05-12", f"05-{day}") for day in range(13, 18)]
    with (folder / "sheet.txt").open("a", encoding="utf-8") as file:
        file.writelines(f"day {day}" for day in days)
    return home_with(folder, folder / "sheet.txt")


@pytest.mark.parametrize("encoding", ENCODINGS)
def test_every_command_speaks_on_a_terminal_of_any_encoding(
    anywhere: Home, tmp_path: Path, encoding: str, long_run: bool
) -> None:
    """Every command at one encoding or another; in the long run each at all of them."""
    here = Home(shutil.copytree(anywhere.folder, tmp_path / "home"))
    turn = ENCODINGS.index(encoding)
    for path, command in list(commands())[
        0 if long_run else turn :: 1 if long_run else len(ENCODINGS)
    ]:
        words = ["Jürgen" if word == "Maren" else word for word in usual_words(path, command)]
        said = here.run(*words, terminal=encoding)
        assert said.code in (0, 1, 2), said.err
        assert (said.out + said.err).strip()


PAGES = (
    ("day",), ("day", "--plain"), ("trend", "Jür"), ("player", "Jür"), ("takehome", "Jür"),
    ("plan",), ("roster", "list"), ("roster", "list", "Jür"), ("clinic", "show"), ("history",),
    ("sheet", "out"), ("agree",), ("views",), ("version",), ("settings",), ("drills", "list"),
    ("drills", "show", "forehand/hand-feed"), ("restore",), ("doctor",), ("trend", "Nobody"),
    ("clinic", "show", "--clinic", "Łódź"), ("day", "--date", "木"), ("day", "--木"),
)  # fmt: skip


@pytest.mark.parametrize("encoding", ["ascii", "cp437"])
@pytest.mark.parametrize("page", PAGES, ids=" ".join)
def test_a_page_says_the_same_in_letters(
    anywhere: Home, encoding: str, page: tuple[str, ...]
) -> None:
    full, said = anywhere.run(*page), anywhere.run(*page, terminal=encoding)
    assert said.code == full.code
    for whole, lacking in ((full.out, said.out), (full.err, said.err)):
        assert nearest_letters(lacking) == nearest_letters(whole)


def test_letters_stand_for_the_signs_of_every_text_of_the_program() -> None:
    """Read from the source: each sign outside ASCII that courtlog itself writes has a letter."""
    lacking = set()
    read_not_written = "large_letters.py"  # its table has the signs that names may hold
    for file in Path(courtlog.__file__).parent.rglob("*.py"):
        if file.name == read_not_written:
            continue
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                lacking |= {sign for sign in node.value if "?" in nearest_letters(sign)}
    assert set(filter(is_seen, lacking)) == {"?", "␡"}


@pytest.mark.terminal
@pytest.mark.parametrize(
    "how",
    [
        {"PYTHONIOENCODING": "latin-1"},
        {"PYTHONIOENCODING": "ascii"},
        {"LC_ALL": "C", "PYTHONCOERCECLOCALE": "0", "PYTHONUTF8": "0"},
    ],
    ids=["Latin-1", "ASCII", "C"],
)
def test_the_day_on_a_real_terminal_of_another_encoding(
    anywhere: Home, how: dict[str, str]
) -> None:
    env = environment(anywhere.folder, **how)
    with Console([*PROGRAM, "day"], env, 80, 60) as console:
        assert console.read_to_end() == 0
        assert b"Traceback" not in console.sent
        assert b"Jurgen Wei" in console.sent.replace(b"\xfc", b"u")
