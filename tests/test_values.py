"""What is taken without pydantic is what pydantic takes, and as the same value."""

from __future__ import annotations

import json
import subprocess
import sys
import tomllib
from dataclasses import asdict, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from courtlog import locations, values
from courtlog.coaching.game.drills import Drill, Ladder, UsedDrill
from courtlog.errors import SettingsError
from courtlog.settings import Settings, changed, descriptions
from courtlog.values import WrongValueError, json_of, take, take_json
from tests.court import SHIPPED
from tests.measures.steady import steady

LADDER, DRILL = SHIPPED.drill("forehand/hand-feed")
USED = UsedDrill.of(LADDER, DRILL)
WHOLE: dict[str, dict[str, Any]] = {
    "settings": json.loads(json_of(Settings(taught=("a", "b"), coach="Ines"))),
    "drill": json.loads(json_of(DRILL)),
    "used": json.loads(json_of(USED)),
}
KINDS: dict[str, type] = {"settings": Settings, "drill": Drill, "used": UsedDrill}

ODD = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-1, 1001),
    st.floats(),
    st.text(max_size=5),
    st.sampled_from(
        [" a ", "", "\x1c", "a\n", "a" * 41, "é" * 81, "\ud800", "yes", "sun", "live", "blocked"]
    ),
    st.lists(st.sampled_from(["a", " ", "", 1]), max_size=13),
    st.dictionaries(st.sampled_from(["key", "name"]), st.text(max_size=3)),
)


def judged(kind: type, table: object) -> object:
    """What pydantic alone makes of it; None when it refuses."""
    try:
        found: object = values._judge(kind).validate_python(table)
    except ValidationError:
        return None
    return found


@pytest.mark.parametrize("name", KINDS)
@given(data=st.data())
@steady
def test_any_value_is_taken_as_pydantic_takes_it(name: str, data: st.DataObject) -> None:
    table = json.loads(json.dumps(WHOLE[name]))
    for _ in range(data.draw(st.integers(0, 2))):
        inner = data.draw(st.sampled_from([table, *(v for v in table.values() if type(v) is dict)]))
        inner[data.draw(st.sampled_from([*inner, "wind"]))] = data.draw(ODD)
    expected = judged(KINDS[name], table)
    if expected is None:
        with pytest.raises(WrongValueError):
            take(KINDS[name], table)
    else:
        assert take(KINDS[name], table) == expected


def test_the_shipped_drills_are_plain_and_pydantic_takes_them_as_the_same() -> None:
    for file in sorted(locations.shipped_drills().glob("*.toml")):
        table = tomllib.loads(file.read_text(encoding="utf-8"))
        table |= {"cues": table.pop("cue"), "drills": table.pop("drill")}
        assert values._reader(Ladder)(table) == judged(Ladder, table)


@given(st.text(max_size=20))
@steady
def test_a_card_is_written_as_pydantic_writes_it(words: str) -> None:
    """Books hold a digest of the card's text: the text must never change."""
    used = replace(USED, drill=replace(DRILL, look=words, kit=(words, "net")))
    assert json_of(used) == TypeAdapter(UsedDrill).dump_json(used).decode()


def test_what_can_be_taken_otherwise_is() -> None:
    assert changed(Settings(), bell="off", basket="40", taught=["q"]) == Settings(
        bell=False, basket=40, taught=("q",)
    )
    assert take(Drill, WHOLE["drill"] | {"name": " Hand feed "}).name == "Hand feed"


def test_every_mistake_is_told_with_its_place() -> None:
    table = WHOLE["drill"] | {"balls": "ten", "feed": "cannon"}
    with pytest.raises(WrongValueError) as wrong:
        take(Drill, table)
    assert [path for path, _ in wrong.value.faults] == [("feed",), ("balls",)]
    with pytest.raises(SettingsError, match="basket: Input should be less than or equal to 999"):
        changed(Settings(), basket=1000)
    with pytest.raises(WrongValueError, match=r"^it is no JSON"):
        take_json(Settings, "{")


def test_every_setting_says_what_it_does() -> None:
    assert descriptions().keys() == asdict(Settings()).keys()


LOADED = """
import sys
from courtlog import locations, settings
from courtlog.library.drill_files import load
from courtlog.values import json_of, take_json
from courtlog.coaching.game.drills import UsedDrill
shelf = load([locations.shipped_drills()])
used = UsedDrill.of(*shelf.drill("forehand/hand-feed"))
assert take_json(UsedDrill, json_of(used)) == used
assert settings.changed(settings.Settings(), theme="night").theme == "night"
print("pydantic" in sys.modules or "pydantic_core" in sys.modules)
"""


def test_pydantic_is_not_loaded_for_what_is_right() -> None:
    done = subprocess.run(
        [sys.executable, "-c", LOADED], capture_output=True, text=True, check=True
    )
    assert done.stdout == "False\n"
