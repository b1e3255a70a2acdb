"""`courtlog heat`: what is typed is kept and told; nonsense is one sentence and nothing written."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from tests.cli.program import HARBOUR, Home, home_with

ON = ("--date", "2026-05-13")


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Home:
    """A book with the Harbour Week in it."""
    return home_with(tmp_path_factory.mktemp("heat"), HARBOUR)


def readings(home: Home) -> list[tuple[float, ...]]:
    """The readings in the file."""
    with sqlite3.connect(home.book) as db:
        rows = db.execute("SELECT celsius, humidity, wbgt FROM heat ORDER BY id").fetchall()
    return [tuple(row) for row in rows]


def test_a_reading_is_kept_and_printed_again(home: Home) -> None:
    before = readings(home)
    assert "No heat reading on 2026-05-11. No lines filled in" in " ".join(
        home.run("heat", "--date", "2026-05-11").lines
    )
    typed = ("--temperature", "31C", "--humidity", "60", "--wbgt", "29.5")
    said = home.run("heat", *typed, *ON).lines
    words = " ".join(" ".join(said).split())
    assert "31 C (88 F), humidity 60 %: heat index 35 C (95 F), extreme caution." in words
    assert "WBGT 29.5 C. No lines filled in: take them from your local rule." in words
    assert "ITF events modify play at 30.1 C" in words
    assert max(map(len, said)) <= 80
    assert readings(home) == [*before, (31, 60, 29.5)]
    assert home.run("heat", *ON).lines == said
    day = " ".join(" ".join(home.run("day", *ON).lines).split())
    assert "heat index 35 C (95 F), extreme caution." in day


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        (("--temperature", "31", "--humidity", "101"), "0 to 100 per cent, not '101'"),
        (("--temperature", "warm", "--humidity", "50"), "'warm' is no temperature"),
        (("--temperature", "88", "--humidity", "50"), "Write 88F if it is Fahrenheit"),
        (("--temperature", "31"), "needs temperature and humidity, both"),
        (("--wbgt", "x\x1b[31m"), "is no WBGT"),
    ],
)
def test_nonsense_is_refused(home: Home, typed: tuple[str, ...], words: str) -> None:
    before = readings(home)
    said = home.run("heat", *typed, *ON)
    assert (said.code, said.out) == (1, "")
    assert words in said.err
    assert "\x1b" not in said.err
    assert readings(home) == before


def test_a_date_without_a_day_is_refused(home: Home, tmp_path: Path) -> None:
    said = home.run("heat", "--temperature", "31", "--humidity", "60")
    assert said.code == 1
    assert "has no day on" in said.err
