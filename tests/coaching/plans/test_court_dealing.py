"""Players are dealt to courts by name, by hand or by level, and those who are named go there."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.court_dealing import DealBy, Level, deal
from courtlog.errors import CourtlogError

NAMES = ("Tove", "Maren", "Ruben", "Aino", "Jorun", "Berit", "Nils", "Odd")
ROSTER = [
    Player(at, name, "left" if name in ("Odd", "Tove", "Nils") else "right")
    for at, name in enumerate(NAMES, 1)
]


def dealt(
    by: DealBy,
    levels: dict[str, Level] | None = None,
    courts: Sequence[str] = ("1", "2"),
    **named: str,
) -> dict[str, str]:
    """The players of each court as one line of names; `c2="Maren Tove"` names them for court 2."""
    people = {player.name: player for player in ROSTER}
    groups = deal(
        ROSTER,
        courts,
        by,
        {people[name].id: level for name, level in (levels or {}).items()},
        {court[1:]: [people[name] for name in names.split()] for court, names in named.items()},
    )
    return {group.court: " ".join(player.name for player in group.players) for group in groups}


def test_by_name_each_court_has_a_stretch_of_the_alphabet() -> None:
    assert dealt(DealBy.NAME) == {"1": "Maren Aino Jorun Berit", "2": "Tove Ruben Nils Odd"}


def test_by_hand_left_handers_are_together() -> None:
    assert dealt(DealBy.HAND, courts=("1", "2", "3")) == {
        "1": "Tove Nils Odd",
        "2": "Aino Jorun Berit",
        "3": "Maren Ruben",
    }


def test_by_level_every_court_is_as_strong_and_ties_go_by_name() -> None:
    """Rungs first, then the share made; Nils and Odd are unknown and come last."""
    levels = {
        "Tove": Level(6, 9, 10),
        "Maren": Level(6, 8, 10),
        "Ruben": Level(5, 5, 5),
        "Aino": Level(5, 4, 5),
        "Jorun": Level(4, 1, 2),
        "Berit": Level(4, 2, 4),
    }
    # Ranks 8 Tove, 7 Maren, 6 Ruben, 5 Aino, 4 Berit, 3 Jorun, 2 Nils, 1 Odd: 18 each.
    assert dealt(DealBy.LEVEL, levels) == {
        "1": "Tove Aino Berit Odd",
        "2": "Maren Ruben Jorun Nils",
    }


def test_who_is_named_goes_there_and_the_others_fill_up() -> None:
    assert dealt(DealBy.NAME, c2="Aino Berit Maren") == {
        "1": "Ruben Jorun Nils Odd",
        "2": "Tove Maren Aino Berit",
    }
    full = dealt(DealBy.NAME, c2="Tove Maren Ruben Aino Jorun Berit")
    assert full == {"1": "Nils Odd", "2": "Tove Maren Ruben Aino Jorun Berit"}


def test_a_court_that_is_not_there_and_a_player_named_twice_are_refused() -> None:
    with pytest.raises(CourtlogError, match="There is no court 3"):
        dealt(DealBy.NAME, c3="Tove")
    with pytest.raises(CourtlogError, match="Tove is named for court 1 and for court 2"):
        dealt(DealBy.NAME, c1="Tove", c2="Tove")


@given(
    count=st.integers(0, 30),
    courts=st.integers(1, 15),
    by=st.sampled_from(DealBy),
    levels=st.dictionaries(
        st.integers(1, 30), st.builds(Level, st.integers(1, 9), st.integers(0, 5), st.just(5))
    ),
    data=st.data(),
)
def test_everybody_is_on_one_court_and_courts_are_even(
    count: int, courts: int, by: DealBy, levels: dict[int, Level], data: st.DataObject
) -> None:
    roster = [Player(at, f"P{at % 7}", ("", "left", "right")[at % 3]) for at in range(1, count + 1)]
    names = [str(number) for number in range(1, courts + 1)]
    some = data.draw(st.lists(st.sampled_from(roster), unique=True)) if roster else []
    named: dict[str, list[Player]] = {}
    for player in some:
        named.setdefault(data.draw(st.sampled_from(names)), []).append(player)
    groups = deal(roster, names, by, levels, named)
    assert [group.court for group in groups] == names
    assert sorted(p.id for group in groups for p in group.players) == [p.id for p in roster]
    for group in groups:
        assert {p.id for p in named.get(group.court, ())} <= {p.id for p in group.players}
    sizes = [len(group.players) for group in groups]
    free = [
        len(group.players)
        for group in groups
        if len(group.players) > len(named.get(group.court, ()))
    ]
    assert not free or max(free) <= min(sizes) + 1
    assert deal(roster, names, by, levels, named) == groups
