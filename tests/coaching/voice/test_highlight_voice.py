"""The good thing and the one thing, as they are read."""

from __future__ import annotations

import pytest

from courtlog.coaching.answers.highlights import highlights
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.voice.highlight_voice import good_thing, one_thing

NAMES = {"turn": "turn", "spacing": "room for the arm"}


def told(turn: Counts, spacing: Counts) -> tuple[str, str]:
    """Both sentences."""
    found = highlights({"turn": turn, "spacing": spacing}, ("turn", "spacing"))
    return good_thing(found, NAMES).sentence, one_thing(found, NAMES).sentence


@pytest.mark.parametrize(
    ("turn", "spacing", "good", "one"),
    [
        (Counts(1, 1, 8), Counts(6, 1, 2), "Good: turn, 8 of 10 balls.",
         "One thing: room for the arm, 2 of 9 balls."),
        (Counts(0, 0, 12), Counts(9, 0, 0), "Good: turn, all 12 balls.",
         "One thing: room for the arm, none of 9 yet."),
        (Counts(0, 0, 1), Counts(1, 0, 0), "Good: turn, made on 1 ball.",
         "One thing: room for the arm, none of 1 yet."),
        (Counts(6, 3, 0), Counts(9, 0, 0), "Good: turn came near on 3 of 9 balls.",
         "One thing: room for the arm, none of 9 yet."),
        (Counts(9, 0, 0), Counts(9, 0, 0), "", "One thing: turn, none of 9 yet."),
        (Counts(0, 0, 9), Counts(0, 0, 9), "Good: turn, all 9 balls.", ""),
        (Counts(0, 0, 0, 9), Counts(), "", ""),
    ],
)  # fmt: skip
def test_what_is_said(turn: Counts, spacing: Counts, good: str, one: str) -> None:
    assert told(turn, spacing) == (good, one)
