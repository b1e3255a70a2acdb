"""Where the coach may not read or write, the program says so and leaves everything as it is."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.cli.program import HARBOUR, Home, Said
from tests.faults.runs import FORKED, shared

if sys.platform == "win32":
    pytest.skip("permission bits are POSIX's", allow_module_level=True)


@contextmanager
def mode(path: Path, bits: int) -> Iterator[None]:
    """The path with these permission bits, for a while."""
    before = path.stat().st_mode & 0o777
    path.chmod(bits)
    try:
        yield
    finally:
        path.chmod(before)


def run(home: Home, *args: str | Path) -> Said:
    """Run as somebody who has to keep to permission bits, also when the tests run as root."""
    if os.geteuid() != 0:
        return home.run(*args)
    setpriv = shutil.which("setpriv")
    if setpriv is None:
        pytest.skip("root overrules permission bits, and setpriv is not here to take that away")
    bound = (setpriv, "--bounding-set=-dac_override,-dac_read_search")
    ended = shared((*bound, *FORKED)).run(home, [str(arg) for arg in args])
    return Said(ended.code, ended.out, ended.err)


def refused(home: Home, *args: str | Path) -> str:
    said = run(home, *args)
    assert "Traceback" not in said.err
    assert (said.code, said.out) == (1, "")
    assert said.err.count("\n") == 1
    return said.err


@pytest.fixture
def kept(home: Home, harbour: Home) -> Home:
    shutil.copy(harbour.book, home.book)
    return home


@pytest.mark.parametrize("bits", [0o000, 0o200])
def test_a_book_that_may_not_be_read(kept: Home, bits: int) -> None:
    before = kept.files()
    with mode(kept.book, bits):
        said = refused(kept, "day")
    assert f"{kept.book} cannot be read" in said
    assert kept.files() == before


READERS = (
    ["day"],
    ["trend", "Maren"],
    ["player", "Maren"],
    ["takehome", "Maren"],
    ["sheet", "out"],
)


@pytest.mark.parametrize("args", READERS, ids=" ".join)
def test_a_book_that_may_only_be_read_prints_the_same(kept: Home, args: list[str]) -> None:
    usual, before = kept.run(*args).lines, kept.files()
    with mode(kept.book, 0o400):
        assert run(kept, *args).lines == usual
        assert kept.files() == before
        with mode(kept.folder, 0o500):
            assert run(kept, *args).lines == usual
    assert kept.files() == before


def test_a_book_that_may_not_be_written_takes_no_sheet(kept: Home) -> None:
    before = kept.files()
    with mode(kept.book, 0o400):
        said = refused(kept, "sheet", "in", HARBOUR)
    assert f"{kept.book} cannot be written to" in said
    assert "--book" in said
    assert kept.files() == before


def test_a_folder_that_may_not_be_written(kept: Home, harbour: Home) -> None:
    before = kept.files()
    with mode(kept.folder, 0o500):
        assert "cannot be written to" in refused(kept, "sheet", "in", HARBOUR)
        assert "cannot be made here" in refused(kept, "sheet", "in", HARBOUR, "--book", "new.db")
        assert "cannot be written" in refused(kept, "settings", "pad", "left")
        out = ("sheet", "out", "--to", "out.txt", "--book", harbour.book)
        assert "cannot be written" in refused(kept, *out)
    assert kept.files() == before


def test_settings_that_may_not_be_read(home: Home) -> None:
    home.settings.write_text("{}", encoding="utf-8")
    with mode(home.settings, 0):
        assert "Permission denied" in refused(home, "settings")


def test_a_sheet_that_may_not_be_read(home: Home) -> None:
    sheet = home.folder / "sheet.txt"
    sheet.write_text("clinic X", encoding="utf-8")
    with mode(sheet, 0):
        said = run(home, "sheet", "in", sheet)
    assert (said.code in (1, 2), said.out) == (True, "")
    assert "Traceback" not in said.err
    assert "sheet.txt" in said.err


def test_a_new_book_is_nobody_elses_to_read(home: Home) -> None:
    assert home.run("sheet", "in", HARBOUR, "--book", "deep/er/book.db").lines
    assert (home.folder / "deep/er/book.db").stat().st_mode & 0o777 == 0o600
    assert (home.folder / "deep/er").stat().st_mode & 0o777 == 0o700
