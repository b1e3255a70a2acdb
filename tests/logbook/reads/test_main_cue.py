"""Which cue of a stroke is judged first, as the answers of the book have it."""

from __future__ import annotations

import pytest

from courtlog.logbook.reads.history_lookups import first_watched
from tests.past import past

ORDER = ("split-step", "turn", "spacing", "finish")


@pytest.mark.parametrize(
    ("rounds", "main"),
    [
        ((), None),
        (("1 choosing 222*10",), "turn"),
        (("1 choosing 222*10", "1 yardstick 222*20"), "turn"),
        (("1 practice 222*10", "2 practice 222*10"), "turn"),
    ],
)
def test_without_a_named_one_it_is_the_first_in_stroke_order(
    rounds: tuple[str, ...], main: str | None
) -> None:
    assert first_watched(past(*rounds), ORDER) == main
    assert first_watched(past(*rounds, cues=("finish", "spacing", "turn")), ORDER) == main


def test_a_cue_watched_only_later_or_only_while_choosing_is_not_judged_first() -> None:
    chosen = past("1 choosing 22", cues=("split-step", "finish")).balls
    kept = past("1 yardstick 2*20", cues=("finish",))
    later = past("2 practice 22*20", "5 yardstick 22*20", cues=("turn", "finish")).balls
    whole = type(kept)(kept.stroke, chosen + kept.balls + later)
    assert first_watched(whole, ORDER) == "finish"
