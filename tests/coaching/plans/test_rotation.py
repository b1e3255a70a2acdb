"""The rotation: the queue, the stations, late comers and drop-outs."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.day_fairness import (
    fairness,
)
from courtlog.coaching.plans.rotation import (
    FEED,
    REST,
    Court,
    FedTurn,
    Presence,
    Swap,
    TurnOrder,
)
from tests.coaching.plans.turns import MINUTE, roster, turn

ALONE = ("shadow", "fence", "self-feed")


def named(players: tuple[Player, ...]) -> str:
    return "".join(player.name for player in players)


def play(court: Court, turns: int, changes: dict[int, dict[int, Presence]] | None = None) -> Court:
    """Turns of ten balls, each by who is next up; `changes` say who is away after it."""
    for number in range(turns):
        court = replace(court, away={**court.away, **(changes or {}).get(number, {})})
        court = replace(court, turns=(*court.turns, turn(court.queue[0].id, 10, number)))
    return court


# Six players, ten balls a turn, the fourth leaves after turn eight: played through by hand.
def test_a_player_who_leaves_changes_nothing_but_the_queue() -> None:
    court = play(Court(roster=roster(6), stations=ALONE), 20, {8: {3: Presence.LEFT}})
    assert "".join("ABCDEF"[turn.player] for turn in court.turns) == "ABCDEFABCEFABCEFABCE"
    balls = {share.player.name: share.balls for share in fairness(court, 20 * 4 * MINUTE).shares}
    assert balls == {"A": 40, "B": 40, "C": 40, "E": 40, "F": 30}
    assert fairness(court, 20 * 4 * MINUTE).spread == 10
    assert not fairness(court, 20 * 4 * MINUTE).unfair


@pytest.mark.parametrize("players", range(2, 13))
@pytest.mark.parametrize("stations", range(6))
@pytest.mark.parametrize("order", TurnOrder)
def test_one_feeds_nobody_shares_a_station_and_all_are_somewhere(
    players: int, stations: int, order: TurnOrder
) -> None:
    court = Court(roster=roster(players), stations=tuple("stuvwx"[:stations]), order=order)
    for ahead in court.ahead(3 * players):
        stand = ahead.stand()
        assert sorted(stand) == list(range(players))
        assert [who for who, place in stand.items() if place == FEED] == [ahead.at_feed]
        held = Counter(place for place in stand.values() if place not in (FEED, REST))
        assert set(held.values()) <= ({1, 2} if order is TurnOrder.PAIRS else {1})


# With as many players as places the line is a cyclic Latin square: each at each place once.
@pytest.mark.parametrize("players", range(4, 13))
def test_the_line_takes_everyone_to_every_station_once(players: int) -> None:
    court = Court(roster=roster(players), stations=ALONE)
    visits = Counter(
        (player, place) for ahead in court.ahead(players) for player, place in ahead.stand().items()
    )
    for player in range(players):
        assert [visits[player, place] for place in (FEED, *ALONE)] == [1, 1, 1, 1]
        assert visits[player, REST] == players - 4


def test_with_more_stations_than_players_none_is_left_out() -> None:
    court = Court(roster=roster(3), stations=ALONE)
    seen = {(who, place) for ahead in court.ahead(12) for who, place in ahead.stand().items()}
    assert seen == {(who, place) for who in range(3) for place in (FEED, *ALONE)}


# Williams 1949: for an even number each ordered pair of stations follows each other once.
@pytest.mark.parametrize("players", [4, 6, 8])
def test_the_balanced_order_follows_each_station_by_each_other_once(players: int) -> None:
    stations = tuple("stuvwxy"[: players - 1])
    court = Court(roster=roster(players), stations=stations, order=TurnOrder.WILLIAMS)
    follows: Counter[tuple[str, str]] = Counter()
    turns = court.ahead(players)
    for player in range(players):
        places = [ahead.stand()[player] for ahead in turns]
        assert sorted(places) == sorted((FEED, *stations))
        follows.update(pairwise(places))
    assert set(follows.values()) == {1}
    assert len(follows) == players * (players - 1)


@pytest.mark.parametrize("players", [4, 5, 6])
def test_in_pairs_everyone_meets_everyone(players: int) -> None:
    court = Court(roster=roster(players), stations=(), order=TurnOrder.PAIRS)
    met: Counter[str] = Counter()
    for ahead in court.ahead(players):
        met.update({place for place in ahead.stand().values() if "+" in place})
    assert met
    assert all(left != right for left, right in (pair.split(" + ") for pair in met))


def test_a_late_comer_starts_at_the_median_and_does_not_hit_alone() -> None:
    court = play(Court(roster=roster(4), stations=ALONE, away={3: Presence.LATE}), 6)
    start = court.late_start()
    assert start == 20
    court = replace(court, away={}, head_start={3: start}, arrived={3: 24 * MINUTE})
    order = "".join("ABCD"[ahead.at_feed or 0] for ahead in court.ahead(8))
    assert order == "DABCDABC"


def test_who_is_kept_off_the_feed_never_comes_up_and_stands_at_rest() -> None:
    court = Court(roster=roster(3), stations=ALONE, off={1: "12 balls, limit 12"})
    assert named(court.queue) == "AC"
    turns = court.ahead(5)
    assert "".join("ABC"[ahead.at_feed or 0] for ahead in turns) == "ACACA"
    assert {ahead.stand()[1] for ahead in turns} == {REST}


def test_two_who_wait_change_places_for_one_turn_only() -> None:
    court = play(Court(roster=roster(4), stations=ALONE), 1)
    assert named(court.waiting) == "BCD"
    swapped = replace(court, swaps=(Swap(1, 3),))
    assert named(swapped.waiting) == "DCB"
    assert swapped.stand()[3] == "self-feed"
    assert named(replace(court, swaps=(Swap(0, 1),)).waiting) == "BCD", "who feeds is not swapped"
    assert named(replace(court, swaps=(Swap(1, 9),)).waiting) == "BCD"


def test_odd_rosters() -> None:
    nobody = Court(roster=(), stations=ALONE)
    assert (nobody.queue, nobody.stand(), nobody.ahead(3)) == ((), {}, [])
    assert fairness(nobody, 0).words() == "nobody is there"
    alone = play(Court(roster=roster(1), stations=ALONE), 3)
    assert named(alone.queue) == "A"
    assert alone.stand() == {0: FEED}
    gone = replace(alone, away={0: Presence.LEFT})
    assert gone.queue == ()
    for order in TurnOrder:
        assert replace(alone, order=order).stand() == {0: FEED}
        assert replace(nobody, order=order).stand() == {}


def test_turns_ahead_are_as_long_as_the_longest_so_far() -> None:
    """By hand: A hit 2 and B hits 12 of them; C hits 12 in its turn, so A is next, then B again."""
    court = Court(roster=roster(3), turns=(turn(0, 2, 0), turn(1, 12, 1)))
    ahead = court.ahead(4)
    assert [[t.balls for t in c.turns] for c in ahead] == [
        [2, 12, 0],
        [2, 12, 12, 0],
        [2, 12, 12, 12, 0],
        [2, 12, 12, 12, 12, 0],
    ]
    assert "".join("ABC"[c.at_feed or 0] for c in ahead) == "CABC"
    assert [[t.balls for t in c.turns] for c in Court(roster=roster(2)).ahead(2)] == [[0], [10, 0]]


@given(
    st.integers(2, 8),
    st.lists(st.tuples(st.sampled_from(["turn", "leave", "come"]), st.integers(0, 7)), max_size=40),
)
def test_whatever_happens_those_there_are_within_a_turn(
    players: int, events: list[tuple[str, int]]
) -> None:
    """Whoever stays the whole day is never more than one turn of ten balls behind another one."""
    court = Court(roster=roster(players), stations=ALONE)
    stayed = set(range(players))
    for kind, who in events:
        if kind == "turn" and court.queue:
            last = court.at_feed
            after = court.queue[0]
            assert after.id != last or len(court.queue) == 1
            court = replace(court, turns=(*court.turns, FedTurn(after.id, 10)))
        elif kind == "leave" and who < players:
            stayed.discard(who)
            court = replace(court, away={**court.away, who: Presence.LEFT})
        elif kind == "come" and who in court.away:
            balls = sum(turn.balls for turn in court.turns if turn.player == who)
            start = max(0.0, court.late_start() - balls)
            away = {p: state for p, state in court.away.items() if p != who}
            court = replace(court, away=away, head_start={**court.head_start, who: start})
    shares = [sum(turn.balls for turn in court.turns if turn.player == p) for p in stayed]
    assert max(shares, default=0) - min(shares, default=0) <= 10
