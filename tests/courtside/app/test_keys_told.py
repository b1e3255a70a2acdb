"""Every key that a sentence tells comes from the table of commands, as plain as there is one."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import courtlog
from courtlog.coaching.on_court.next_act import Act
from courtlog.coaching.plans.rotation import Presence
from courtlog.courtside.commands.table import ACT_KEYS, COMMANDS
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.view import HELP_KEY
from courtlog.settings import Settings
from tests.court import LIBRARY, Clock, desk_in, feed, open_book, player
from tests.courtside.screen import flat, on_court

FUNCTION_KEY = re.compile(r"\bF\d{1,2}\b")
ROOT = Path(courtlog.__file__).parent


def texts_of(path: Path) -> Iterator[tuple[int, str]]:
    """Every text of a module with its line, those written between values too."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.lineno, node.value


def test_no_text_names_a_function_key() -> None:
    """But the table itself: how a command writes the key that it has."""
    modules = sorted(ROOT.rglob("*.py"))
    assert len(modules) > 200
    table = {command.shown for command in COMMANDS}
    assert any(map(FUNCTION_KEY.fullmatch, table)), "the table has some, or this test sees nothing"
    named = [
        f"{path.relative_to(ROOT)}:{line}: {text}"
        for path in modules
        for line, text in texts_of(path)
        if FUNCTION_KEY.search(text)
        and not (path.parent == ROOT / "courtside" / "commands" and text in table)
    ]
    assert named == []


def test_every_key_that_can_be_told_is_plain() -> None:
    for act in set(Act) - {Act.LEAVE, Act.SHOW_DAY}:
        assert re.fullmatch(r"Tab|Enter|Backspace|[a-z]|Esc [a-z0-9]", ACT_KEYS[act]), act
    assert all(not FUNCTION_KEY.search(key) for key in ACT_KEYS.values())
    assert HELP_KEY in {command.shown for command in COMMANDS}


@pytest.mark.parametrize(
    ("keys", "sentence"),
    [
        (["space"] * 10, "10 balls: the round is full. Tove next: Tab. Or feed on."),
        (["space", "z", "space"], "No round is open. Tove next: Tab; Maren again: Enter; back in"),
        (["é"], "é is not on this pad (right hand): Esc 6 changes it, ? helps."),
    ],
)
def test_a_message_tells_the_next_act_in_its_own_words(
    tmp_path: Path, keys: list[str], sentence: str
) -> None:
    assert sentence in flat(on_court(desk_in(tmp_path), keys))


def test_an_empty_basket_says_so_with_its_key(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_" * 59)
    text = flat(on_court(desk, ["space"], size=(120, 40)))
    assert "The basket is empty. Pick up, then: b." in text


def test_a_full_round_of_choosing_leads_to_the_cues(tmp_path: Path) -> None:
    desk = Desk(open_book(tmp_path), lambda: LIBRARY, Settings(), Clock())
    keys = [*"week", "enter", *"maren,tove", "enter", *["enter"] * 6]
    on_court(desk, keys)
    on_court(desk, ["space"] * 10)
    assert desk.view.message.startswith("10 balls seen. Pick the cues: ")
    assert "Tab" not in desk.view.message


def test_a_key_that_the_pad_has_taken_is_told_behind_escape(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=Settings(pad="left-azerty", clicker=("b", "pageup")))
    feed(desk, "_" * 59)
    on_court(desk, ["space"])
    assert "Pick up, then: Esc b." in desk.view.message


def test_who_has_left_is_told_with_the_key_that_brings_back(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    desk.rotation.attend(player(desk, "Maren"), Presence.LEFT)
    on_court(desk, ["y", *"maren", "enter"])
    assert desk.view.message == "Maren has left for today: Esc e says who is back."
