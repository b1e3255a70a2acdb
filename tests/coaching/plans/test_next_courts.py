"""Who goes to which court on the next day."""

from __future__ import annotations

import random

import pytest

from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.court_dealing import CourtGroup, Level
from courtlog.coaching.plans.next_courts import next_courts


def people(count: int) -> list[Player]:
    return [Player(number, f"Player {number:02}", "", "") for number in range(1, count + 1)]


def test_groups_stay_together_and_a_newcomer_goes_where_there_is_room() -> None:
    roster = people(5)
    last = [CourtGroup("1", tuple(roster[:2])), CourtGroup("2", tuple(roster[2:4]))]
    dealt = next_courts(roster, ["1", "2"], last, {}, {})
    assert [group.players[:2] for group in dealt.groups] == [group.players for group in last]
    assert dealt.moves == ()


def test_whoever_had_the_fewest_balls_leaves_the_fuller_court() -> None:
    roster = people(6)
    last = [CourtGroup("1", tuple(roster[:5])), CourtGroup("2", tuple(roster[5:]))]
    balls = {1: 50, 2: 40, 3: 30, 4: 20, 5: 60, 6: 10}
    dealt = next_courts(roster, ["1", "2"], last, {}, balls)
    assert [[who.id for who in group.players] for group in dealt.groups] == [[1, 2, 5], [3, 4, 6]]
    assert [move.words for move in dealt.moves] == [
        "Player 04 goes to court 2: fewest balls so far on the fuller court 1, 20.",
        "Player 03 goes to court 2: fewest balls so far on the fuller court 1, 30.",
    ]


@pytest.mark.parametrize("seed", range(60))
def test_everybody_has_one_court_and_no_court_has_two_players_more(seed: int) -> None:
    dice = random.Random(seed)
    roster = people(dice.randint(1, 16))
    courts = [str(number) for number in range(1, dice.randint(1, 4) + 1)]
    before = [str(number) for number in range(1, dice.randint(1, 5) + 1)]
    where = {who: dice.choice([*before, ""]) for who in people(17)}  # one has left since
    last = [CourtGroup(c, tuple(who for who in where if where[who] == c)) for c in before]
    levels = {who.id: Level(dice.randint(1, 6)) for who in roster if dice.random() < 0.5}
    balls = {who.id: dice.randint(0, 90) for who in roster}
    dealt = next_courts(roster, courts, last, levels, balls)
    assert [group.court for group in dealt.groups] == courts
    assert sorted(who.id for group in dealt.groups for who in group.players) == [
        who.id for who in roster
    ]
    sizes = [len(group.players) for group in dealt.groups]
    assert max(sizes) - min(sizes) <= 1
    moved = {move.player.id for move in dealt.moves}
    for group in dealt.groups:
        for who in group.players:
            if where[who] in courts and who.id not in moved:
                assert where[who] == group.court
    assert dealt == next_courts(roster, courts, last, levels, balls)
