"""What is no ordinary file is read by no command, wherever a file may be named."""

from __future__ import annotations

import os
import socket
import stat
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.cli.program import HARBOUR, Home, home_with

READERS: dict[str, list[str]] = {
    "the book of a page": ["day", "--book", "{}"],
    "the book of a sheet": ["sheet", "in", str(HARBOUR), "--book", "{}"],
    "the book of an import": ["import", "out", "--book", "{}"],
    "the book of a doctor": ["doctor", "--book", "{}"],
    "the book of a doctor that mends": ["doctor", "--mend", "--book", "{}"],
    "the book of a list of backups": ["restore", "--book", "{}"],
    "a backup": ["restore", "{}", "--yes"],
    "another book": ["gather", "{}"],
    "a sheet": ["sheet", "in", "{}"],
    "a roster": ["roster", "import", "{}"],
    "second ratings": ["agree", "in", "{}", "--coach", "Bo"],
}
KINDS = ("full", "null", "zero", "pipe", "socket", "folder", ":memory:", "a link to /dev/zero")


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Home]:
    """A home with a sample, the same afterwards as before."""
    filled = home_with(tmp_path_factory.mktemp("home"), HARBOUR)
    before = filled.files()
    yield filled
    assert filled.files() == before


def special(folder: Path, kind: str) -> Path:
    """A path to what is no file."""
    if kind in ("full", "null", "zero"):
        return Path("/dev") / kind
    if sys.platform == "win32":
        pytest.skip("Windows has no devices among its files")
    path = folder / ("x" if kind.startswith("a ") else kind)
    if kind == "pipe":
        os.mkfifo(path)
    elif kind == "folder":
        path.mkdir()
    elif kind.startswith("a "):
        path.symlink_to("/dev/zero")
    elif kind == "socket":
        path = Path(os.path.relpath(path))  # no longer than a socket's name may be
        with socket.socket(socket.AF_UNIX) as one:
            one.bind(str(path))
        path = path.resolve()
    return path


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no such devices")
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("reader", READERS)
def test_it_is_refused_as_what_it_is(home: Home, tmp_path: Path, reader: str, kind: str) -> None:
    path = special(tmp_path, kind)
    named = kind if kind == ":memory:" else str(path)
    mode = path.stat().st_mode if path.exists() else None
    said = home.run(*(word.format(named) for word in READERS[reader]))
    assert said.code == 1, said.out
    assert "Traceback" not in said.err
    assert said.err.startswith(f"courtlog: {named} is ")
    assert mode is None or stat.S_IMODE(path.stat().st_mode) == stat.S_IMODE(mode)


@pytest.mark.parametrize("reader", READERS)
def test_a_name_that_is_too_long_is_refused_too(home: Home, reader: str) -> None:
    said = home.run(*(word.format("x" * 5000) for word in READERS[reader]))
    assert said.code == 1
    assert "File name too long" in said.err
    assert len(said.err) < 1000
