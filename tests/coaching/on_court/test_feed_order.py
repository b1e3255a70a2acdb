"""How a round is fed: spots, tough balls, every second ball, another spot; all of it pure."""

from __future__ import annotations

from collections import Counter
from itertools import groupby, pairwise

import pytest
from hypothesis import given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st

from courtlog.coaching.game.drills import Drill, Order
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.feed_order import FeedChoice, Feeds, draw_feeds, rated_balls
from courtlog.coaching.on_court.feeding import (
    CleanBall,
    Feeding,
    MarkClip,
    Meaning,
    Rate,
    TakeBall,
    ToughLast,
    ToughOpen,
    press_key,
    take_back_key,
)
from courtlog.measures.court_day.schedule import usual_max_run
from tests.court import SHIPPED, play, written

DRILLS = [SHIPPED.drill(name)[1] for name in SHIPPED.names()]
TWO_SPOTS = SHIPPED.drill("forehand/racquet-feed")[1]

CHOICES = st.builds(
    FeedChoice,
    st.sampled_from(Order),
    st.integers(0, 5),
    st.just(10),
    st.sampled_from((1, 2)),
)


@hypothesis_settings(derandomize=True, deadline=None, max_examples=200)
@given(st.sampled_from(DRILLS), st.sampled_from(Purpose), CHOICES, st.integers(0, 2**32))
def test_a_draw_holds_what_was_chosen(
    drill: Drill, purpose: Purpose, choice: FeedChoice, seed: int
) -> None:
    feeds = draw_feeds(drill, purpose, choice, seed)
    assert feeds == draw_feeds(drill, purpose, choice, seed)
    rated = rated_balls(drill, purpose, choice.every)
    spots = feeds.spots[:: feeds.every]
    assert feeds.spots[feeds.every - 1 :: feeds.every] == spots, "a ball in between goes along"
    counts = [spots.count(spot) for spot in range(len(drill.spots))]
    assert max(counts) - min(counts) <= 1
    assert feeds.spot(len(feeds.spots) + 1) == feeds.spot(1), "after the last it starts again"
    if not purpose.plans_tough:
        assert not any(feeds.tough)
        return
    assert sum(feeds.tough) == choice.tough_in(rated)
    assert len(feeds.tough) == rated * choice.every
    assert not feeds.tough[0]
    assert not any(map(all, pairwise(feeds.tough)))
    assert not any(feeds.is_tough(n) for n in range(1, 41) if not feeds.is_rated(n))
    again = feeds.choice(drill)
    assert (again.order, again.every) == (choice.order, choice.every)
    assert again.tough_in(rated) == choice.tough_in(rated)


@hypothesis_settings(derandomize=True, deadline=None, max_examples=100)
@given(st.sampled_from(DRILLS), CHOICES, st.integers(0, 2**32), st.integers(1, 200))
def test_a_planned_round_of_any_length_has_an_order_of_its_own(
    drill: Drill, choice: FeedChoice, seed: int, balls: int
) -> None:
    feeds = draw_feeds(drill, Purpose.PRACTICE, choice, seed, balls)
    spots = feeds.spots[:: feeds.every]
    assert len(spots) == rated_balls(drill, Purpose.PRACTICE, choice.every, balls)
    counts = [spots.count(spot) for spot in range(len(drill.spots))]
    assert max(counts) - min(counts) <= 1
    if choice.order is Order.SHUFFLED and len(counts) > 1:
        longest = max(len(list(run)) for _, run in groupby(spots))
        assert longest <= usual_max_run(len(counts))


def test_a_long_shuffled_round_does_not_repeat_the_cards_order() -> None:
    """Thirty balls of a card of ten: three parts, alike by chance in one of 63,504 at most.

    Ten balls on two spots, five each, have at most C(10, 5) = 252 orders.
    """
    choice = FeedChoice(Order.SHUFFLED, 0, 10)
    parts = set()
    for seed in range(5):
        spots = draw_feeds(TWO_SPOTS, Purpose.PRACTICE, choice, seed, 30).spots
        parts |= {spots[:10], spots[10:20], spots[20:]}
    assert len(parts) > 5


@pytest.mark.parametrize(
    ("purpose", "every", "rated"),
    [
        (Purpose.PRACTICE, 1, 10),
        (Purpose.PRACTICE, 2, 5),  # the drill's ten balls are fed, five of them rated
        (Purpose.HOLD, 1, 20),
        (Purpose.HOLD, 2, 20),  # twenty to be compared, so forty are fed
    ],
)
def test_a_round_to_be_compared_counts_rated_balls(
    purpose: Purpose, every: int, rated: int
) -> None:
    assert rated_balls(TWO_SPOTS, purpose, every) == rated


@pytest.mark.parametrize(
    ("tough", "of", "rated", "found"),
    [(2, 10, 10, 2), (2, 10, 20, 4), (2, 10, 5, 1), (5, 10, 5, 2), (3, 10, 5, 2), (0, 10, 20, 0)],
)
def test_the_share_of_tough_balls_goes_with_the_length_of_the_round(
    tough: int, of: int, rated: int, found: int
) -> None:
    assert FeedChoice(Order.SERIAL, tough, of).tough_in(rated) == found


def spots_of(feeds: Feeds) -> str:
    return "".join(str(spot + 1) for spot in feeds.spots)


@pytest.mark.parametrize(
    ("spots", "every", "number", "after", "later"),
    [
        ("1212", 1, 1, "2112", 2),
        ("1122", 1, 2, "1212", 3),
        ("1221", 1, 3, "1212", 4),
        ("1112", 1, 4, "1111", None),  # none is left: it is replaced
        ("1212", 1, 5, "12122112", 6),  # after the last it starts again
        ("123123", 1, 1, "213123", 2),
        ("11221122", 2, 1, "22111122", 3),
        ("11221122", 2, 5, "11222211", 7),
        ("", 1, 1, "2", None),  # a sheet gave no order
    ],
)
def test_another_spot_changes_places_with_a_later_ball(
    spots: str, every: int, number: int, after: str, later: int | None
) -> None:
    feeds = Feeds(spots=tuple(int(spot) - 1 for spot in spots), every=every)
    count = max(map(int, spots or "2"))
    found, other = feeds.with_other_spot(number, count)
    assert (spots_of(found), other) == (after, later)


@hypothesis_settings(derandomize=True, deadline=None, max_examples=200)
@given(
    st.sampled_from([drill for drill in DRILLS if len(drill.spots) > 1]),
    CHOICES,
    st.integers(0, 2**32),
    st.lists(st.integers(1, 30), max_size=8),
)
def test_other_spots_keep_the_counts_while_a_later_ball_is_left(
    drill: Drill, choice: FeedChoice, seed: int, numbers: list[int]
) -> None:
    feeds = draw_feeds(drill, Purpose.PRACTICE, choice, seed)
    for number in sorted(n for n in numbers if feeds.is_rated(n)):
        before = feeds
        feeds, later = feeds.with_other_spot(number, len(drill.spots))
        assert feeds.spot(number) == (before.spot(number) + 1) % len(drill.spots)
        assert feeds.spots[: number - 1] == (before.spots * 30)[: number - 1], "what was fed stays"
        if later is not None:
            cycles = len(feeds.spots) // len(before.spots)
            assert Counter(feeds.spots) == Counter(before.spots * cycles)


MEANINGS: st.SearchStrategy[Meaning | None] = st.one_of(
    st.builds(Rate, st.integers(0, 2), st.sampled_from(Grade)),
    st.sampled_from([CleanBall(), TakeBall(), ToughOpen(), ToughLast(), None]),
    st.builds(MarkClip, st.integers(0, 2**40)),
)

PLANS = st.builds(
    Feeds,
    tough=st.lists(st.booleans(), max_size=6).map(tuple),
    every=st.sampled_from((1, 2)),
)


@hypothesis_settings(derandomize=True, deadline=None, max_examples=300)
@given(PLANS, st.lists(MEANINGS, max_size=60))
def test_any_keys_on_any_plan_lead_back_to_the_fresh_state(
    feeds: Feeds, meanings: list[Meaning | None]
) -> None:
    fresh = Feeding.fresh(3, feeds)
    assert not fresh.touched
    state, states = fresh, [fresh]
    for meaning in meanings:
        if meaning is None:
            state, steps = take_back_key(state)
            assert bool(steps) is (len(states) > 1)
            states = states[:-1] or [fresh]
            assert state == states[-1]
        else:
            state, steps = press_key(state, meaning)
            if steps:
                states.append(state)
        assert feeds.is_rated(state.number), "the open ball is one to rate"
        assert len(state.rated) * feeds.every == len(state.taken)
    while state.steps:
        state, _ = take_back_key(state)
    assert state == fresh


def test_a_planned_tough_ball_is_flagged_by_itself_and_is_not_touched() -> None:
    state = Feeding.fresh(3, Feeds(tough=(False, True)))
    assert written(play(state, "222")) == "222", "the open second ball is as it was planned"
    assert written(play(state, "222 222")) == "222 222!"
    assert written(play(state, "222 !222 2")) == "222 222|2--", "the flag was taken off"
    assert written(play(state, "222 !")) == "222|."
    assert written(play(state, "222 !!")) == "222"
    assert written(play(state, "222 1<")) == "222"
    state = play(state, "222")
    assert state.open.tough
    assert state.in_hand == (1, state.taken[0])


def test_with_every_second_ball_rated_one_key_takes_two_balls_and_one_takes_them_back() -> None:
    fresh = Feeding.fresh(3, Feeds(every=2))
    state, steps = press_key(fresh, CleanBall())
    assert written(state) == "222 ."
    assert [step.number for step in steps] == [1, 2]
    assert state.number == 3
    assert state.in_hand == (1, state.taken[0]), "a note goes to the rated ball"
    tough, _ = press_key(state, ToughLast())
    assert written(tough) == "222! ."
    back, steps = take_back_key(state)
    assert back == fresh
    assert [step.number for step in steps] == [2, 1]


def test_a_round_moved_to_its_own_begins_where_its_balls_were_fed() -> None:
    feeds = Feeds(spots=(0, 1, 2), tough=(False, True, False, False))
    moved = feeds.begun_at(6)
    for number in range(1, 20):
        assert moved.spot(number) == feeds.spot(number + 5)
        assert moved.is_tough(number) is feeds.is_tough(number + 5)


@pytest.mark.parametrize("drill", DRILLS, ids=lambda drill: drill.key)
def test_the_choice_behind_some_feeds_reads_back_or_is_the_cards(drill: Drill) -> None:
    chosen = FeedChoice(Order.SERIAL, 4, 20, 2)
    feeds = draw_feeds(drill, Purpose.PRACTICE, chosen, 1, 40)
    assert feeds.choice(drill) == chosen
    assert Feeds().choice(drill) == FeedChoice.of_card(drill)
