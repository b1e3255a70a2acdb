"""TAB: what a line may go on with, quoted as the shell needs it; and whatever fails, nothing."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import shellingham
from typer.main import get_command

from courtlog.cli.actions.completion.typed_words import quoted, typed_words
from courtlog.cli.actions.completion.unfinished_line import asked_for
from courtlog.cli.commands.app import app
from courtlog.logbook.file.open_book import create_or_open
from tests.cli.program import PROGRAM, Home
from tests.cli.test_fresh_start import LOOK

BASH = shutil.which("bash") or ""
NAMES = ["Anna O'Hara", 'Eva "Evi" de la $x', "Back\\slash `x` $(x)", "Öde Ümit;&|*?~#", "a:b=c"]
SCRIPT = Path(__file__).parents[2] / "courtlog/cli/actions/completion/shells/completion.bash"


def rows(home: Home, line: str, shell: str = "bash") -> list[str]:
    """What a shell is told; bash hands over a line, others words behind line ends."""
    typed = f"courtlog {line}" if shell == "bash" else "\n" + line.replace(" ", "\n")
    return home.run(_COURTLOG_COMPLETE=shell, _COURTLOG_WORDS=typed).lines


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("pl", ["player", "plan"]),
        ("drills s", ["show"]),
        ("player to", ["Tove"]),
        ("day --player r", ["Ruben"]),
        ("day --player=r", ["Ruben"]),
        ("day --json --date 2026-05-1", [f"2026-05-1{day}" for day in range(1, 6)]),
        ('day --clinic "har', ["Harbour Week"]),
        ("day --clinic har", ["Harbour\\ Week"]),
        ("plan set 3 --drill forehand/hand", ["forehand/hand-feed"]),
        ("roster add X --hand l", ["left"]),
        ("academy season --engine d", ["duckdb"]),
        ("settings pa", ["pad"]),
        ("plan set 3 --purp", ["--purpose"]),
        ("--bo", ["--book"]),
        ("player Tove T", []),
        ("day --date 2026-05-12 --dat", []),
        ("roster add --mi", ["--minor"]),
        ("player -- to", ["Tove"]),
        ("no-such-command to", []),
        ("--clinic nowhere player Z", []),
    ],
)
def test_a_line_goes_on(harbour: Home, line: str, wanted: list[str]) -> None:
    before = harbour.files()
    assert rows(harbour, line) == ["words", *wanted]
    assert harbour.files() == before


@pytest.mark.parametrize(
    ("line", "kind"),
    [("sheet in ", "files"), ("day --book ", "files"), ("evening ", "folders")],
)
def test_files_are_left_to_the_shell(home: Home, line: str, kind: str) -> None:
    assert rows(home, line) == [kind]


def test_notes_go_to_shells_that_show_them(home: Home) -> None:
    row, note = "doctor", " Say what is wrong with the book, and what this laptop lacks."
    assert rows(home, "doc", "zsh") == ["words", row, note]
    assert rows(home, "doc") == ["words", row]


def test_the_book_that_stands_earlier_on_the_line_is_asked(harbour: Home, tmp_path: Path) -> None:
    other = tmp_path / "other book.db"
    harbour.run("clinic", "new", "Elsewhere", "--book", other)
    harbour.run("roster", "add", "Zoë", "--book", other)
    assert rows(harbour, f"--book '{other}' player z") == ["words", "Zoë"]
    assert rows(harbour, f"player --book '{other}' zo") == ["words", "Zoë"]


def test_a_name_that_a_terminal_would_obey_is_not_suggested(home: Home) -> None:
    home.run("clinic", "new", "Weird")
    book = create_or_open(home.book, 1)
    with book.writing() as db:
        for place, name in enumerate(["good", "ba\x1b[2Jd", "to\nwo", "‮rtl"], start=1):
            db.execute("INSERT INTO player (id, name) VALUES (?, ?)", [place, name])
            clinic = db.execute("SELECT id FROM clinic").fetchone()[0]
            db.execute(
                "INSERT INTO roster (clinic_id, player_id, place) VALUES (?, ?, ?)",
                [clinic, place, place],
            )
    assert rows(home, "player ") == ["words", "good"]  # while the book is open beside it
    book.close()
    assert rows(home, "player ") == ["words", "good"]


@pytest.mark.parametrize("damage", ["none", "empty", "text", "cut", "log", "folder", "schema"])
def test_where_the_book_fails_nothing_is_said_or_written(home: Home, damage: str) -> None:
    assert rows(home, "--book nowhere.db player to") == []
    home.run("clinic", "new", "Weird")
    home.run("roster", "add", "Tove")
    whole = home.book.read_bytes()
    match damage:
        case "none":
            home.book.unlink()
        case "empty":
            home.book.write_bytes(b"")
        case "text":
            home.book.write_text("a shopping list")
        case "cut":
            home.book.write_bytes(whole[: len(whole) // 3])
        case "log":
            home.book.with_name("book.db-wal").write_bytes(b"x" * 5000)
        case "folder":
            home.book.unlink()
            home.book.mkdir()
        case "schema":
            home.book.write_bytes(whole.replace(b"CREATE TABLE player", b"CREATE TABLE plaxer"))
    before = home.files()
    assert rows(home, "player ") == []
    assert home.files() == before


@pytest.mark.skipif(not BASH, reason="bash reads back what was quoted")
def test_bash_reads_a_quoted_name_as_that_name() -> None:
    lines = []
    for name in NAMES:
        written = [
            f"{quote}{word}{quote}" for quote in ("", "'", '"') if (word := quoted(name, quote))
        ]
        assert len(written) == 3
        lines += [f"printf '%s\\n' {word}" for word in written]
        assert [typed_words(f"courtlog {word}").words[-1] for word in written] == [name] * 3
    done = subprocess.run(
        [BASH, "-c", "\n".join(lines)], capture_output=True, text=True, check=True, encoding="utf-8"
    )
    assert done.stdout.splitlines() == [name for name in NAMES for _ in range(3)]


def test_an_exclamation_mark_is_not_suggested_where_bash_takes_it_for_history() -> None:
    assert quoted("Zoë!", '"') is None
    assert quoted("Zoë!", "") == "Zoë\\!"


@pytest.mark.parametrize(
    "line", ["courtlog player a:", "courtlog player An'na", "courtlog x --a=b="]
)
def test_a_word_that_bash_would_not_replace_as_a_whole_is_left(line: str) -> None:
    assert not typed_words(line).can_go_on


def test_words_of_an_unfinished_line() -> None:
    typed = typed_words("courtlog --book 'my book.db' player  Anna\\ O\\'H")
    assert typed.words == ("courtlog", "--book", "my book.db", "player", "Anna O'H")
    asked = asked_for(get_command(app), typed.words[1:-1], typed.words[-1])
    assert (asked.parameter.name, asked.given) == ("player", {"--book": "my book.db"})


@pytest.mark.skipif(not BASH, reason="the script of bash is run by bash")
def test_the_script_of_bash_fills_in_a_name(home: Home) -> None:
    home.run("clinic", "new", "Weird")
    home.run("roster", "add", "Anna O'Hara")
    program = home.folder / "courtlog"
    program.write_text(f'#!/bin/sh\nexec {" ".join(PROGRAM)} "$@"\n')
    program.chmod(0o755)
    asked = f"""source {SCRIPT}
COMP_LINE="courtlog player anna"; COMP_POINT=20
_courtlog_completion {program}
printf '%s|' "${{COMPREPLY[@]}}"
"""
    done = home.run("-c", asked, program=[BASH])
    assert (done.out, done.err) == ("Anna\\ O\\'Hara|", "")


@pytest.mark.parametrize(
    ("shell", "start_file", "ours"),
    [("bash", ".bashrc", "courtlog/completion.bash"), ("zsh", ".zshrc", "courtlog/completion.zsh")],
)
def test_installing_adds_one_line_once(
    home: Home, monkeypatch: pytest.MonkeyPatch, shell: str, start_file: str, ours: str
) -> None:
    monkeypatch.setattr(shellingham, "detect_shell", lambda: (shell, f"/bin/{shell}"))
    data = home.folder / "my data"
    before = "alias ll='ls -l'"
    (home.folder / start_file).write_text(before)
    for _ in range(2):
        said = home.run("--install-completion", XDG_DATA_HOME=str(data)).lines
        assert str(data / ours) in said[0]
    assert (home.folder / start_file).read_text() == f"{before}\nsource '{data / ours}'\n"
    assert (data / ours).read_text() == "\n".join(home.run("--show-completion").lines) + "\n"


def test_powershell_is_told_what_to_do(home: Home, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shellingham, "detect_shell", lambda: ("pwsh", "/bin/pwsh"))
    said = home.run("--install-completion")
    assert (said.code, home.files()) == (1, {})
    assert "$PROFILE" in said.err
    assert "Register-ArgumentCompleter" in home.run("--show-completion").out


def test_an_unknown_shell_is_refused(home: Home, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shellingham, "detect_shell", lambda: ("ash", "/bin/ash"))
    assert home.run("--install-completion").code == 1
    assert home.files() == {}


def test_a_shell_waits_for_nothing_heavy(harbour: Home) -> None:
    look = (sys.executable, "-c", LOOK)
    said = harbour.run(program=look, _COURTLOG_COMPLETE="zsh", _COURTLOG_WORDS="\nplayer\nto").lines
    assert said[:2] == ["words", "Tove"]
    heavy = {"textual", "numpy", "sqlite_utils", "plotext", "rich", "pandas"}
    assert heavy & set(json.loads(said[-1])) == set()
