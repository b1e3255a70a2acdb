"""The good thing and the one thing: the rule, over any counts."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.answers.highlights import highlights
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.voice.highlight_voice import RULE
from courtlog.measures.common.enough import MINIMUMS, Question

LEAST = int(MINIMUMS[Question.RATE][0].refuse)
FEW = st.integers(0, 12)
COUNTS = st.builds(Counts, FEW, FEW, FEW, FEW)
CUES = ("turn", "spacing", "finish")
DAYS = st.lists(COUNTS, min_size=1, max_size=3).map(
    lambda all_: dict(zip(CUES, all_, strict=False))
)


def share(counts: Counts) -> Fraction:
    """Made of seen, exactly."""
    return Fraction(counts.made, counts.seen)


@given(DAYS)
def test_the_good_thing_is_made_most_often_of_those_on_enough_balls(day: dict[str, Counts]) -> None:
    good = highlights(day, tuple(day)).good
    made = {cue: counts for cue, counts in day.items() if counts.made}
    enough = {cue: counts for cue, counts in made.items() if counts.seen >= LEAST} or made
    if good is not None and made:
        assert good.cue in enough
        assert share(good.counts) == max(map(share, enough.values()))
        first = next(cue for cue in enough if share(enough[cue]) == share(good.counts))
        assert good.cue == first, "of two alike the one earlier in the stroke"
    else:
        assert not made
        assert (good is None) is not any(counts.near for counts in day.values())


@given(DAYS)
def test_the_one_thing_is_made_least_often_and_is_not_the_good_thing(
    day: dict[str, Counts],
) -> None:
    found = highlights(day, tuple(day))
    one = found.one_thing
    short = {cue: counts for cue, counts in day.items() if counts.made < counts.seen}
    if len(day) > 1 and found.good is not None:
        short.pop(found.good.cue, None)
    enough = {cue: counts for cue, counts in short.items() if counts.seen >= LEAST} or short
    assert (one is None) is (not enough)
    if one is not None:
        assert share(one.counts) == min(map(share, enough.values()))


def test_an_only_cue_may_be_both() -> None:
    found = highlights({"turn": Counts(6, 0, 4)}, ("turn",))
    assert found.good == found.one_thing


def test_forty_of_forty_two_is_not_worked_on_while_another_is_made_less() -> None:
    day = {"turn": Counts(2, 0, 40), "spacing": Counts(15, 0, 27)}
    one = highlights(day, tuple(day)).one_thing
    assert one is not None
    assert one.cue == "spacing"


def test_the_printed_rule_has_the_number_it_goes_by() -> None:
    assert f"fewer than {LEAST} balls" in RULE
