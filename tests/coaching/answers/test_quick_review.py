"""The quick review: the good thing first, then one thing to work on, and the rung call."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courtlog.coaching.answers.ball_history import History
from courtlog.coaching.answers.comparison import YARDSTICK_SEEN
from courtlog.coaching.answers.player_answer import stroke_answer
from courtlog.coaching.answers.quick_review import QuickReview, quick_review, spoken_balls
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.proposal import MEASURED_BALLS, planned_balls, propose
from courtlog.coaching.voice import figures
from tests.past import CUES, DRILL, day, past


def test_the_strongest_cue_comes_first_and_the_weakest_is_worked_on() -> None:
    history = past("1 yardstick 222*20", "2 practice 201*6 20-*4")
    review = quick_review(history, 2, day(2), (day(1), day(2)), CUES, CUES, 10)
    assert [cue.cue for cue in review.cues] == ["turn", "spacing", "finish"]
    assert best(review) == ("turn", "spacing"), "as weak as the finish, and earlier in the stroke"
    assert review.cues[0].round.words() == "10 of 10 (100%)"
    assert review.cues[2].round.words() == "0 of 6 (0%)"
    assert [each.made for each in review.cues[0].rounds] == [20, 10]
    assert review.cues[1].against_yardstick is None, "no uncoached ball today"


def test_the_rounds_beside_each_other_are_of_one_drill() -> None:
    """A harder drill between would look like a fall."""
    history = past(
        "1 practice 222*9",
        "1 practice @forehand/live 000*9",
        "2 practice @forehand/live 000*5",
        "2 practice 222*4",
        "2 practice 222*3",
    )
    turn = quick_review(history, 5, day(2), (day(1), day(2)), CUES, CUES, 10).cues[0]
    assert [(each.on, each.made, each.seen) for each in turn.rounds] == [
        (day(1), 9, 9),
        (day(2), 4, 4),
        (day(2), 3, 3),
    ]
    assert turn.today.of_words() == "7 of 12", "the day's own count is of all its balls"


AGAIN = ("1 yardstick 200*12 022*8", "5 yardstick 220*14 002*6")


@pytest.mark.parametrize(
    "unrelated",
    [
        ["5 practice 222*40"],
        ["5 practice @forehand/live 000*60", "5 transfer @forehand/live 222*20"],
        ["5 hold @forehand/live 000*20"],
    ],
)
def test_other_rounds_do_not_change_what_is_said_of_the_yardstick(unrelated: list[str]) -> None:
    dates = (day(1), day(5))
    for cue in CUES:
        said = [
            replied(
                quick_review(past(*AGAIN, *more), 2 + len(more), day(5), dates, CUES, CUES, 9), cue
            )
            for more in ([], unrelated)
        ]
        assert said[0] == said[1]


def test_the_review_says_of_the_yardstick_what_the_players_page_says() -> None:
    history, dates = past(AGAIN[0], "5 hold 202*20", AGAIN[1]), tuple(map(day, range(1, 6)))
    review = quick_review(history, 3, day(5), dates, CUES, CUES, 9)
    for answer in stroke_answer(history, dates, CUES, curves=False).cues:
        assert answer.learning is not None
        page = figures.comparison_words(answer.learning)
        assert replied(review, answer.cue) == page.replace("on day 5", "today")


def test_coached_balls_of_its_kind_are_not_compared_with_the_yardstick() -> None:
    history = past("1 yardstick 000*20", "2 practice 222*20")
    review = quick_review(history, 2, day(2), (day(1), day(2)), CUES, CUES, 9)
    assert all(cue.against_yardstick is None for cue in review.cues)


def best(review: QuickReview) -> tuple[str | None, str | None]:
    """The cues of the good thing and of the one thing."""
    good, one_thing = review.best.good, review.best.one_thing
    return good.cue if good else None, one_thing.cue if one_thing else None


def test_the_good_thing_and_the_one_thing_are_of_the_whole_day_and_of_the_cues_watched() -> None:
    """The last round had only the turn in view, and all of it made."""
    history = replace(
        past("1 practice 202*9 022*3"),
        balls=past("1 practice 202*9 022*3").balls + past("1 practice 2*9", cues=("turn",)).balls,
    )
    review = quick_review(history, 1, day(1), (day(1),), ("turn",), CUES, 9)
    assert best(review) == ("finish", "spacing")


@pytest.mark.parametrize("purpose", Purpose)
def test_a_mark_of_a_tough_ball_counts_where_tough_balls_are_meant(purpose: Purpose) -> None:
    """A yardstick and a hold have none: set afterwards, a mark must not pick the balls."""
    history = past(f"1 {purpose} 222*9 000!*6")
    review = quick_review(history, 1, day(1), (day(1),), CUES, CUES, 9)
    seen = {cue.tough.late.seen for cue in review.cues}
    assert seen == {0 if purpose in (Purpose.YARDSTICK, Purpose.HOLD) else 6}


def replied(review: QuickReview, cue: str) -> str:
    """What the review says of a cue against the yardstick."""
    (found,) = [each.against_yardstick for each in review.cues if each.cue == cue]
    assert found is not None
    return figures.comparison_words(found)


def test_once_the_rung_is_mastered_the_cue_made_least_today_is_worked_on() -> None:
    history = past("1 practice 222*17 122 112 111")
    review = quick_review(history, 1, day(1), (day(1),), CUES, CUES, 12)
    assert review.call is not None
    assert review.call.ready
    assert [cue.cue for cue in review.cues] == ["finish", "spacing", "turn"]
    assert best(review) == ("finish", "turn")
    assert (review.purpose, review.speak_of) == (Purpose.PRACTICE, 12)


def test_a_player_who_makes_everything_has_nothing_to_work_on() -> None:
    review = quick_review(past("1 practice 222*10"), 1, day(1), (day(1),), CUES, CUES, 9)
    assert best(review) == ("turn", None)
    assert review.cues[0].against_yardstick is None


@pytest.mark.parametrize("balls", ["000*9", ".*9", "0--*9"])
def test_only_misses_or_nothing_seen_is_a_review_too(balls: str) -> None:
    review = quick_review(past(f"1 practice {balls}"), 1, day(1), (day(1),), CUES, CUES, 9)
    assert len(review.cues) == 3
    assert all(cue.today.made == 0 for cue in review.cues)


def test_a_round_without_a_ball_is_a_review_too() -> None:
    review = quick_review(History("forehand", ()), 1, day(1), (day(1),), CUES, CUES, 9)
    assert review.call is None
    assert best(review) == (None, None)


@pytest.mark.parametrize(("rounds", "speak"), [(0, 8), (1, 6), (2, 4), (3, 2), (7, 2)])
def test_speaking_fades_over_the_rounds_of_a_day(rounds: int, speak: int) -> None:
    """A hundred, seventy-five, fifty and twenty-five per cent of eight balls."""
    history = past(*["1 practice 222*8"] * rounds)
    assert spoken_balls(history, DRILL, 8) == speak


@pytest.mark.parametrize(
    ("rounds", "today", "last", "proposal"),
    [
        ([], 1, False, "choosing None"),
        (["1 choosing 222*9"], 1, False, "yardstick None"),
        (["1 choosing 222*9", "1 yardstick 222*20"], 1, False, "practice None"),
        (["1 practice 222*9"], 1, False, "practice None"),
        (["1 yardstick 222*20", "1 practice 222*9"], 2, False, f"hold {DRILL}"),
        (["1 practice @forehand/live 222*9"], 2, False, "hold forehand/live"),
        (["1 practice 222*9", "2 hold 222*20"], 2, False, "practice None"),
        (
            ["1 yardstick @forehand/day-one-feed 222*20", "1 practice 222*9", "5 hold 222*20"],
            5,
            True,
            "yardstick forehand/day-one-feed",
        ),
        (
            ["1 yardstick 222*20", "1 practice 222", "5 hold 222", "5 yardstick 222"],
            5,
            True,
            "practice None",
        ),
        (["1 yardstick 222*20"], 2, False, "practice None"),
        (["1 practice 222*9", "2 transfer 222*9"], 2, False, "practice None"),
    ],
)
def test_each_round_has_its_purpose_proposed(
    rounds: list[str], today: int, last: bool, proposal: str
) -> None:
    found = propose(past(*rounds), day(today), last)
    assert f"{found.purpose} {found.drill}" == proposal


def test_a_round_to_be_compared_is_planned_with_enough_balls() -> None:
    assert planned_balls(Purpose.PRACTICE, 8) == 8
    assert planned_balls(Purpose.HOLD, 8) == MEASURED_BALLS
    assert planned_balls(Purpose.YARDSTICK, 30) == 30


@pytest.mark.parametrize(
    ("seen", "words"),
    [
        (16, ""),
        (15, "turn was seen on 15 balls: a fair comparison needs 1 more, 16 in all."),
        (1, "turn was seen on 1 ball: a fair comparison needs 15 more, 16 in all."),
    ],
)
def test_too_few_balls_to_compare_are_counted(seen: int, words: str) -> None:
    assert figures.few_balls(seen, YARDSTICK_SEEN, "turn") == words
