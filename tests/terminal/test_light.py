"""The court screen stands without what it does not need, however it was opened."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.terminal.books import prepare
from tests.terminal.console import CTRL_Q, Console, environment

LOOK = """
import json, os, pathlib, sys
sys.argv = ["courtlog", *sys.argv[1:]]
from courtlog.cli.start import main
main()
pathlib.Path(os.environ["LOADED"]).write_text(json.dumps(sorted(sys.modules)))
"""

LOOK_AT_ANY_END = """
import sys
sys.argv = ["courtlog", *sys.argv[1:]]
from courtlog.cli.start import main
try:
    main()
finally:
    print(sorted(name for name in sys.modules if ".sound." in name), file=sys.stderr)
"""

SOUND = "courtlog.courtside.sound."
FOR_SOUNDS = {f"{SOUND}loudspeaker", f"{SOUND}programs", f"{SOUND}waves", "wave"}

HEAVY = {
    "typer",
    "click",
    "pydantic",
    "pydantic_core",
    "sqlite_utils",
    "numpy",
    "plotext",
    "pandas",
    "markdown_it",
    "textual.widgets._markdown",
}


@pytest.mark.parametrize("named", [False, True], ids=["the usual book", "a book by its name"])
def test_the_court_screen_loads_nothing_heavy(tmp_path: Path, named: bool) -> None:
    book = tmp_path / ("another.db" if named else "book.db")
    prepare(book)
    loaded = tmp_path / "loaded.json"
    env = environment(tmp_path, LOADED=str(loaded))
    words = ["--book", str(book)] if named else []
    with Console([sys.executable, "-c", LOOK, *words], env) as console:
        console.wait_for("next up")
        for key in (b"u", b"k", b".", b"\t"):
            console.press(key)
        console.wait_for("w why")
        console.press(CTRL_Q)
        assert console.read_to_end() == 0
    assert set(json.loads(loaded.read_text())) & HEAVY == set()


@pytest.mark.parametrize("key", [b"u", b"%"], ids=["a grade", "a key that is refused"])
def test_what_plays_sounds_is_loaded_with_the_first_one(tmp_path: Path, key: bytes) -> None:
    book = tmp_path / "book.db"
    prepare(book)
    loaded = tmp_path / "loaded.json"
    with Console(
        [sys.executable, "-c", LOOK], environment(tmp_path, LOADED=str(loaded))
    ) as console:
        console.wait_for("next up")
        console.press(key)
        console.press(CTRL_Q)
        assert console.read_to_end() == 0
    assert FOR_SOUNDS & set(json.loads(loaded.read_text())) == (
        FOR_SOUNDS if key == b"%" else set()
    )


@pytest.mark.parametrize("words", [["--help"], ["settings"], ["settings", "--help"], ["day"]])
def test_no_printed_page_loads_what_plays_sounds(tmp_path: Path, words: list[str]) -> None:
    prepare(tmp_path / "book.db")
    done = subprocess.run(
        [sys.executable, "-c", LOOK_AT_ANY_END, *words],
        env=environment(tmp_path),
        capture_output=True,
        check=False,
        text=True,
    )
    assert done.stderr.splitlines()[-1] == "[]"
