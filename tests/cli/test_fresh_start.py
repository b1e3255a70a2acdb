"""A command starts fast because it imports only what it needs: looked at in a fresh interpreter."""

from __future__ import annotations

import json
import sys
from functools import cache

import pytest

from tests.cli.program import Home

LOOK = """
import json, sys
sys.argv = ["courtlog", *sys.argv[1:]]
from courtlog.cli.start import main
try:
    main()
except SystemExit as end:
    assert not end.code, end.code
print("\\n" + json.dumps(sorted(sys.modules)))
"""


@cache
def imported(home: Home, *args: str) -> set[str]:
    """The modules that this command has loaded by its end; of one home it is asked once."""
    lines = home.run(*args, program=(sys.executable, "-c", LOOK)).lines
    return set(json.loads(lines[-1]))


@pytest.mark.parametrize("args", [["--help"], ["day", "--help"], ["version"]], ids=" ".join)
def test_help_loads_nothing_slow(home: Home, args: list[str]) -> None:
    slow = {"textual", "numpy", "sqlite_utils", "plotext", "rich", "sqlite3"}
    assert imported(home, *args) & slow == set()


def test_help_loads_no_pydantic(home: Home) -> None:
    assert "pydantic" not in imported(home, "--help")


def test_help_reads_no_settings_where_the_terminal_lacks_no_sign(home: Home) -> None:
    assert imported(home, "--help") & {"courtlog.settings", "tempfile"} == set()


@pytest.mark.parametrize("args", [["trend", "Tove"], ["sheet", "out"]], ids=" ".join)
def test_what_needs_no_measure_loads_no_numpy(harbour: Home, args: list[str]) -> None:
    assert imported(harbour, *args) & {"numpy", "pandas"} == set()


@pytest.mark.parametrize(
    "args",
    [["day"], ["trend", "Tove"], ["player", "Tove"], ["sheet", "out"], ["manual", "keys"]],
    ids=" ".join,
)
def test_printing_never_loads_the_court_screen(harbour: Home, args: list[str]) -> None:
    loaded = imported(harbour, *args)
    assert loaded & {"textual", "pandas"} == set()
    assert {name for name in loaded if name.startswith("courtlog.courtside")} == set()


@pytest.mark.parametrize(
    "args", [["day"], ["trend", "Tove"], ["player", "Tove"], ["plan"]], ids=" ".join
)
def test_a_book_of_today_is_not_migrated(harbour: Home, args: list[str]) -> None:
    assert "sqlite_utils" not in imported(harbour, *args)


def test_json_loads_no_charts(harbour: Home) -> None:
    assert imported(harbour, "day", "--json") & {"plotext", "rich"} == set()
