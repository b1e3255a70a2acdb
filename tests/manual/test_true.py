"""What the manual's sentences name is in the program: commands, options, keys, settings, limits."""

from __future__ import annotations

import re
import shlex

import pytest

from courtlog import manual
from courtlog.coaching.care.arm_care import AMBER_ABOVE, RED_ABOVE, RISE
from courtlog.coaching.care.heat_care import EMERGENCY
from courtlog.coaching.game.clinic_record import Sign
from courtlog.courtside.commands.table import BY_LIST_WAY
from courtlog.courtside.desk.idle_time import LONGEST
from courtlog.logbook.file.backups import KEPT
from courtlog.measures.court_day.heat_index import FULL_SUN_ADDS_F, HOTTEST_F
from courtlog.measures.shares.power import clear_chance
from courtlog.settings import Settings, changed, descriptions
from tests.manual import prose
from tests.manual.drawn import PROGRAM

WRITTEN = [name for name in manual.TOPICS if name != "commands"]
"""The pages that somebody wrote."""

ESCAPE_WAYS = {command.list_way_shown() for command in BY_LIST_WAY.values()}


def code_in(page: str) -> list[str]:
    """Each piece of code in a sentence, and each line to be typed."""
    found: list[str] = []
    for token in prose.tokens(page):
        if token.type in ("code_block", "fence"):
            found += token.content.splitlines()
        found += [
            x.content.replace("\n", " ") for x in token.children or () if x.type == "code_inline"
        ]
    return found


def told(name: str) -> str:
    """A page on one line."""
    return " ".join(manual.page(name).split())


def options_of(typed: str) -> tuple[set[str], set[str]]:
    """The options that are typed, and those that the command has."""
    words = shlex.split(typed)[1:]
    if words[:1] == ["--book"]:
        words = words[2:]
    path = max((p for p in PROGRAM if tuple(words[: len(p)]) == p), key=len)
    assert path or not words, typed
    has = {option for parameter in PROGRAM[path].params for option in parameter.opts}
    return {word for word in words if word.startswith("--")}, has | {"--help"}


@pytest.mark.parametrize("name", WRITTEN)
def test_every_command_and_option_can_be_typed(name: str) -> None:
    every = {o for command in PROGRAM.values() for x in command.params for o in x.opts}
    for code in code_in(manual.page(name)):
        if code.startswith("courtlog "):
            typed, has = options_of(code)
            assert typed <= has, code
        elif code.startswith("--") and name != "numbers":
            assert set(re.findall(r"--[\w-]+", code)) <= every, code


@pytest.mark.parametrize("name", WRITTEN)
def test_every_setting_can_be_set(name: str) -> None:
    for code in code_in(manual.page(name)):
        match code.split():
            case ["courtlog", "settings", setting, value]:
                assert setting in descriptions()
                assert changed(Settings(), **{setting: value})


@pytest.mark.parametrize("name", WRITTEN)
def test_every_way_over_escape_leads_to_a_command(name: str) -> None:
    ways = [code for code in code_in(manual.page(name)) if code.startswith("Esc ")]
    assert [w for w in ways if not any(f"{w} ".startswith(f"{way} ") for way in ESCAPE_WAYS)] == []


def test_the_cautions_are_the_programs() -> None:
    page = told("care")
    assert f"| pain above {AMBER_ABOVE} | amber |" in page
    assert f"| pain above {RED_ABOVE} | red |" in page
    assert f"| {RISE} points more than at arrival | amber |" in page
    assert all(sign.words.removeprefix("visible ") in page for sign in Sign)
    assert f"up to {FULL_SUN_ADDS_F:.0f} F" in page
    assert f"above {HOTTEST_F:.0f} F" in page
    assert EMERGENCY.partition(" is ")[0] in page


def test_its_other_figures_are_the_programs() -> None:
    assert f"{KEPT} are kept" in told("data")
    assert LONGEST == 20 * 60_000
    assert "Twenty minutes without a key" in told("rounds")
    few, many = (clear_chance(7 / 20, 14 / 20, balls, balls).up for balls in (20, 40))
    assert f"is found {10 * few:.0f} times in 10" in told("plan")
    assert f"With 40 each time it is found {10 * many:.0f} times in 10" in told("plan")
