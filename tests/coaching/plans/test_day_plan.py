"""The plan of a day: uncoached rounds first and alike for all, limits kept, odd rosters taken."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from courtlog.coaching.answers.ball_history import BallKind, History, PastBall
from courtlog.coaching.game.drills import Feed
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans import plan_edits
from courtlog.coaching.plans.day_plan import DayPlan, StrokeStanding, plan_day
from courtlog.coaching.plans.plan_edits import Plan, RoundChange
from courtlog.coaching.plans.plan_effort import BALLS_A_MINUTE, FedRound, effort
from courtlog.coaching.plans.planned_round import PlannedRound, evening_holds, in_blocks
from courtlog.coaching.plans.proposal import propose
from courtlog.errors import CourtlogError
from tests.court import LIBRARY

FIRST = date(2026, 5, 11)
HAND = BallKind("forehand/hand-feed", 4, "hand", tough=False)
RACQUET = BallKind("forehand/racquet-feed", 5, "racquet", tough=False)
FIXED = BallKind("forehand/day-one-feed", 6, "racquet", tough=False)


def played(*rounds: tuple[int, Purpose, BallKind, str]) -> History:
    """Rounds as (day from 0, purpose, kind, a digit of the turn for each ball)."""
    return History(
        "forehand",
        tuple(
            PastBall(FIRST + timedelta(days=day), at, purpose, kind, {"turn": Grade(int(digit))})
            for at, (day, purpose, kind, digits) in enumerate(rounds)
            for digit in digits
        ),
    )


A_DAY = (
    (0, Purpose.YARDSTICK, FIXED, "0" * 20),
    (0, Purpose.PRACTICE, HAND, "2" * 10),
)


def standing(number: int, history: History, **more: object) -> StrokeStanding:
    """A player called after a number, with as many balls as the history has."""
    player = Player(number, f"P{number}")
    ready = StrokeStanding(
        player=player, balls=len(history.balls), history=history, cues=("turn",), left_on=HAND
    )
    return replace(ready, **more)  # type: ignore[arg-type]


def planned(
    *standings: StrokeStanding, day: int = 1, last: bool = False, turns: int = 2
) -> DayPlan:
    """The plan of a day, counted from 0."""
    return plan_day(standings, FIRST + timedelta(days=day), last, LIBRARY.ladders, turns)


def words(plan: DayPlan) -> list[str]:
    """`1 hold hand-feed 20`, in the order of play."""
    return [f"{r.player.id} {r.purpose} {r.drill.partition('/')[2]} {r.balls}" for r in plan.rounds]


def test_hold_comes_first_for_all_and_practice_goes_up_when_ready() -> None:
    slow = played(A_DAY[0], (0, Purpose.PRACTICE, HAND, "0" * 12))
    plan = planned(standing(1, slow), standing(2, played(*A_DAY)))
    assert words(plan) == [
        "2 hold day-one-feed 20",
        "1 hold day-one-feed 20",
        "2 practice racquet-feed 10",
        "1 practice hand-feed 10",
        "2 practice racquet-feed 10",
        "1 practice hand-feed 10",
        "2 hold day-one-feed 10",
        "1 hold day-one-feed 10",
    ]
    assert [len(block) for block in in_blocks(plan.rounds)] == [2, 2, 2, 2]
    assert [r.reason for r in plan.rounds[2:4]] == ["ready to move up", "not yet"]


def test_the_last_day_has_the_yardstick_of_day_one_at_the_same_place_for_all() -> None:
    four = [standing(number, played(*A_DAY)) for number in range(1, 5)]
    plan = planned(*four, day=4, last=True, turns=1)
    hold, yardstick, practice = in_blocks(plan.rounds)
    assert {(r.purpose, r.drill, r.balls) for r in hold} == {(Purpose.HOLD, FIXED.drill, 20)}
    assert {(r.purpose, r.drill, r.balls) for r in yardstick} == {
        (Purpose.YARDSTICK, FIXED.drill, 20)
    }
    assert {r.purpose for r in practice} == {Purpose.PRACTICE}
    orders = {tuple(r.player.id for r in block) for block in (hold, yardstick, practice)}
    assert orders == {(1, 2, 3, 4)}


@pytest.mark.parametrize(
    ("rounds", "day", "last", "reason"),
    [
        ((), 0, False, "first day: watch, then pick two or three cues"),
        (A_DAY[1:], 0, False, "practice goes on"),
        (A_DAY[:1], 0, False, "the yardstick is taken"),
        (A_DAY, 1, False, "what stayed overnight, on the yardstick's drill"),
        (A_DAY[1:], 1, False, "what stayed overnight"),
        ((*A_DAY, (1, Purpose.HOLD, HAND, "2")), 1, False, "the rounds without help are done"),
        ((*A_DAY, (1, Purpose.HOLD, HAND, "2")), 1, True, "the same yardstick as on day one"),
        ((*A_DAY, (1, Purpose.TRANSFER, HAND, "2")), 1, True, "practice goes on"),
    ],
)
def test_each_round_is_proposed_with_its_reason(
    rounds: tuple[tuple[int, Purpose, BallKind, str], ...], day: int, last: bool, reason: str
) -> None:
    assert propose(played(*rounds), FIRST + timedelta(days=day), last).reason == reason


def test_the_last_yardstick_is_planned_after_practice_without_a_ball_too() -> None:
    shadow = BallKind("forehand/shadow", 1, "shadow", tough=False)
    history = played(A_DAY[0], (0, Purpose.PRACTICE, shadow, "2" * 10))
    plan = planned(standing(1, history, left_on=shadow), day=4, last=True, turns=1)
    assert [f"{r.purpose} {r.drill}: {r.reason}" for r in plan.rounds] == [
        "hold forehand/day-one-feed: what stayed overnight, on the yardstick's drill",
        "yardstick forehand/day-one-feed: the same yardstick as on day one",
        "practice forehand/fence: ready to move up",
    ]


def test_a_first_day_is_choosing_yardstick_practice_and_a_newcomer_has_as_many_rounds() -> None:
    new = standing(1, History("forehand", ()))
    assert words(planned(new, day=0, turns=1)) == [
        "1 choosing hand-feed 10",
        "1 yardstick hand-feed 20",
        "1 practice hand-feed 10",
        "1 hold hand-feed 10",
    ]
    plan = planned(new, standing(2, played(*A_DAY)))
    assert [r.purpose for r in plan.rounds if r.player.id == 2] == [
        Purpose.HOLD,
        Purpose.PRACTICE,
        Purpose.PRACTICE,
        Purpose.PRACTICE,
        Purpose.HOLD,
    ]
    assert len(in_blocks(plan.rounds)) == 5


def test_a_day_but_the_last_ends_with_ten_balls_on_the_drill_of_the_next_morning() -> None:
    four = [standing(number, played(*A_DAY)) for number in range(1, 5)]
    blocks = in_blocks(planned(*four).rounds)
    assert [(r.player.id, r.purpose, r.drill, r.balls) for r in blocks[-1]] == [
        (number, Purpose.HOLD, FIXED.drill, 10) for number in range(1, 5)
    ]
    assert {r.reason for r in blocks[-1]} == {"to compare with the next morning"}
    last = planned(*four, day=4, last=True)
    assert all(r.purpose is Purpose.PRACTICE for r in in_blocks(last.rounds)[-1])


def test_without_a_yardstick_evening_and_morning_are_on_the_drill_practised_last() -> None:
    ready = played(A_DAY[1])
    plan = planned(standing(1, ready))
    assert words(plan) == [
        "1 hold hand-feed 20",
        "1 practice racquet-feed 10",
        "1 practice racquet-feed 10",
        "1 hold racquet-feed 10",
    ]
    history = played(A_DAY[1], (1, Purpose.PRACTICE, RACQUET, "2" * 10))
    next_morning = propose(history, FIRST + timedelta(days=2), last_day=False)
    assert (next_morning.purpose, next_morning.drill) == (Purpose.HOLD, RACQUET.drill)


@pytest.mark.parametrize("purpose", [Purpose.HOLD, Purpose.YARDSTICK])
@pytest.mark.parametrize("later", [(), ((1, Purpose.PRACTICE, RACQUET, "2"),)])
def test_practice_goes_on_where_it_was_left_after_a_round_on_the_yardsticks_drill(
    purpose: Purpose, later: tuple[tuple[int, Purpose, BallKind, str], ...]
) -> None:
    held = (1, Purpose.HOLD, FIXED, "2")
    history = played(*A_DAY, held, *later, (1, purpose, FIXED, "2"))
    proposal = propose(history, FIRST + timedelta(days=1), last_day=purpose is Purpose.YARDSTICK)
    assert proposal.purpose is Purpose.PRACTICE
    assert proposal.drill == (RACQUET if later else HAND).drill


@pytest.mark.parametrize(
    ("day", "evenings"),
    [
        ("hold practice practice hold", [3]),
        ("hold hold practice", []),
        ("hold practice hold transfer hold", [2, 4]),
        ("transfer hold practice", []),
        ("choosing yardstick hold", []),
        ("", []),
    ],
)
def test_a_hold_after_practice_is_the_evenings(day: str, evenings: list[int]) -> None:
    assert evening_holds([Purpose(word) for word in day.split()]) == evenings


def test_without_a_ball_on_the_rung_there_is_nothing_to_choose_by() -> None:
    shadow = BallKind("forehand/shadow", 1, "shadow", tough=False)
    plan = planned(standing(1, History("forehand", ()), left_on=shadow, limit=1), turns=1)
    assert [r.purpose for r in plan.rounds] == [Purpose.PRACTICE, Purpose.HOLD]
    assert plan.over == ()


def test_a_rung_call_that_was_taken_is_where_practice_goes() -> None:
    plan = planned(standing(1, played(*A_DAY), put_down="forehand/live"), turns=1)
    assert words(plan)[1:] == ["1 practice live 10", "1 hold day-one-feed 10"]


def test_the_highest_rung_has_nothing_above_it() -> None:
    live = BallKind("forehand/live", 7, "live", tough=False)
    history = played((0, Purpose.PRACTICE, live, "2" * 12))
    plan = planned(standing(1, history, left_on=live), turns=1)
    assert words(plan)[1:] == ["1 practice live 10", "1 hold live 10"]
    assert [r.reason for r in plan.rounds[1:]] == [
        "ready to move up, and this is the highest rung",
        "to compare with the next morning",
    ]


def test_too_few_balls_are_said_to_be_too_few() -> None:
    plan = planned(standing(1, played((0, Purpose.PRACTICE, HAND, "20"))), turns=1)
    assert plan.rounds[1].reason == "too few balls to tell: keep feeding"
    unseen = planned(standing(1, played((0, Purpose.PRACTICE, HAND, "20")), cues=()), turns=1)
    assert unseen.rounds[1].reason.endswith("too few balls to tell")


@pytest.mark.parametrize(
    ("limit", "rounds", "left_out"), [(19, 0, 4), (20, 1, 3), (39, 2, 2), (49, 3, 1), (50, 4, 0)]
)
def test_rounds_beyond_the_ball_limit_are_left_out_the_evenings_first(
    limit: int, rounds: int, left_out: int
) -> None:
    plan = planned(standing(1, played(*A_DAY), limit=limit), standing(2, played(*A_DAY)))
    assert sum(r.player.id == 1 for r in plan.rounds) == rounds
    assert [over.left_out for over in plan.over] == ([left_out] if left_out else [])
    assert sum(r.player.id == 2 for r in plan.rounds) == 4


def test_whom_a_red_keeps_off_the_feed_is_not_planned() -> None:
    plan = planned(standing(1, played(*A_DAY), held_back="red"), standing(2, played(*A_DAY)))
    assert {r.player.id for r in plan.rounds} == {2}


@pytest.mark.parametrize("players", [0, 1, 12])
def test_odd_rosters(players: int) -> None:
    plan = planned(*(standing(number, played(*A_DAY)) for number in range(players)))
    assert len(plan.rounds) == 4 * players
    assert all(len(block) == players for block in in_blocks(plan.rounds))


def test_a_drill_that_left_the_library_is_still_held() -> None:
    gone = BallKind("forehand/once-upon-a-time", 3, "hand", tough=False)
    plan = planned(standing(1, played((0, Purpose.PRACTICE, gone, "0" * 9)), left_on=gone), turns=1)
    assert words(plan) == [
        "1 hold once-upon-a-time 20",
        "1 practice once-upon-a-time 10",
        "1 hold once-upon-a-time 10",
    ]


# Common practice, no source; from memory of the trade: 12-18 balls a minute fed by hand, 4-6 serves
# a minute, 2-4 minutes to pick up a basket.
def test_balls_against_baskets_and_minutes() -> None:
    assert set(BALLS_A_MINUTE) == set(Feed)
    total = effort(
        [
            FedRound("forehand", Feed.HAND, 90),
            FedRound("serve", Feed.SELF, 12),
            FedRound("serve", Feed.SHADOW, 20),
        ],
        60,
    )
    assert (total.balls, total.from_basket, total.baskets, total.pick_ups) == (122, 90, 2, 1)
    assert total.quick == pytest.approx(90 / 18 + 12 / 6 + 20 / 20 + 2)
    assert total.slow == pytest.approx(90 / 12 + 12 / 4 + 20 / 15 + 4)
    nothing = effort([], 60)
    assert (nothing.baskets, nothing.pick_ups, nothing.slow) == (0, 0, 0)


def three() -> Plan:
    """Three rounds of three players."""
    return tuple(
        PlannedRound(Player(n, f"P{n}"), HAND.drill, Purpose.PRACTICE, 10) for n in (1, 2, 3)
    )


def test_edits_give_a_new_plan() -> None:
    ladders = LIBRARY.ladders
    who = [round_.player.id for round_ in plan_edits.moved(three(), 1, 3)]
    assert who == [2, 3, 1]
    assert [r.player.id for r in plan_edits.moved(three(), 3, 1)] == [3, 1, 2]
    assert [r.player.id for r in plan_edits.dropped(three(), 2)] == [1, 3]
    change = RoundChange("forehand/live", Purpose.TRANSFER, 15)
    assert plan_edits.changed(three(), 2, change, ladders)[1].identity == (
        2,
        "forehand/live",
        Purpose.TRANSFER,
        15,
    )
    more = plan_edits.added(three(), Player(1, "P1"), RoundChange(purpose=Purpose.HOLD), ladders)
    assert more[3].identity == (1, HAND.drill, Purpose.HOLD, 20)
    found = plan_edits.differences(three(), more)
    assert [(one.player.id, len(one.proposed), len(one.kept)) for one in found] == [(1, 1, 0)]


@pytest.mark.parametrize(
    ("refused", "words"),
    [
        (lambda: plan_edits.moved(three(), 4, 1), "no round 4"),
        (lambda: plan_edits.moved(three(), 1, 0), "no round 0"),
        (lambda: plan_edits.dropped(three()[:1], 1), "only round"),
        (lambda: plan_edits.changed(three(), 1, RoundChange(balls=0), LIBRARY.ladders), "0 balls"),
        (
            lambda: plan_edits.changed(three(), 1, RoundChange(balls=201), LIBRARY.ladders),
            "201 balls",
        ),
        (lambda: plan_edits.known_drill("forehand/hand-fed", LIBRARY.ladders), HAND.drill),
        (lambda: plan_edits.known_drill("hand-fed", LIBRARY.ladders), HAND.drill),
        (lambda: plan_edits.known_drill("hand-feed", LIBRARY.ladders), HAND.drill),
        (lambda: plan_edits.known_drill("zzz", LIBRARY.ladders), "drills list"),
        (lambda: plan_edits.purpose_named("nap"), "choosing, yardstick"),
        (
            lambda: plan_edits.added((), Player(1, "P1"), RoundChange(), LIBRARY.ladders),
            "No drill is planned for P1 yet",
        ),
    ],
)
def test_nonsense_is_refused_with_a_sentence(refused: object, words: str) -> None:
    assert callable(refused)
    with pytest.raises(CourtlogError) as said:
        refused()
    assert words in str(said.value)
