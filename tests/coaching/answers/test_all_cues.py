"""All cues on the same ball: counted again, ball by ball, over any rounds."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.answers.all_cues import all_cues
from courtlog.coaching.answers.ball_history import Doubt
from courtlog.measures.common.enough import Words
from tests.past import CUES, day, past

DAYS = tuple(day(number) for number in range(1, 6))
BALL = st.text(alphabet="012-", min_size=3, max_size=3).filter(lambda ball: ball != "---")
BALLS = st.lists(BALL | st.just("222"), min_size=1, max_size=12)


def counted(balls: list[str]) -> tuple[int, int]:
    """Balls with every cue made, of those with every cue seen."""
    seen = [ball for ball in balls if "-" not in ball]
    return sum(ball == "222" for ball in seen), len(seen)


@given(BALLS, BALLS, BALLS)
def test_only_balls_with_every_cue_seen_count_and_the_hold_with_them(
    first: list[str], hold: list[str], last: list[str]
) -> None:
    rounds = [
        f"1 yardstick {' '.join(first)}",
        "2 practice 222*9",
        f"5 hold {' '.join(hold)}",
        f"5 yardstick {' '.join(last)}",
    ]
    found = all_cues(past(*rounds), CUES, DAYS)
    then, now = counted(first), counted(hold + last)
    if found is None or found.result is None:
        assert not (then[1] and now[1])
    else:
        assert (found.early.made, found.early.seen) == then
        assert (found.late.made, found.late.seen) == now


def test_it_is_at_most_worth_a_look() -> None:
    found = all_cues(past("1 yardstick 000*40", "5 yardstick 222*40"), CUES, DAYS)
    assert found is not None
    assert (found.verdict.words, found.verdict.direction) == (Words.WORTH_A_LOOK, 1)


def test_without_a_second_cue_or_a_second_day_there_is_nothing() -> None:
    assert all_cues(past("1 yardstick 2", "5 yardstick 2", cues=("turn",)), ("turn",), DAYS) is None
    assert all_cues(past("1 yardstick 222*20"), CUES, DAYS) is None


def test_a_doubt_of_one_cue_is_a_doubt_of_all() -> None:
    history = past("1 yardstick 000*40", "5 yardstick 222*40")
    found = all_cues(replace(history, doubts={"turn": Doubt(0.1, 30)}), CUES, DAYS)
    assert found is not None
    assert found.doubt is not None
