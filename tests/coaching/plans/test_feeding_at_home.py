"""How a drill is fed at home: its own words for home, else a plain sentence; never the coach's."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courtlog.coaching.game.drills import Drill, Feed, Order
from courtlog.coaching.plans.feeding_at_home import how_fed, who_feeds
from tests.coaching.plans.test_homework import LADDER
from tests.court import LIBRARY
from tests.pages.first_depth import faults, sentences_of

SHIPPED = [drill for ladder in LIBRARY.ladders.values() for drill in ladder.drills]
OF_FEED = {drill.feed: drill for drill in LADDER.drills}


def silent(drill: Drill, *spots: str, order: Order = Order.SERIAL) -> Drill:
    """The drill as a coach may write it, without words for home."""
    return replace(drill, at_home="", spots=spots or drill.spots, spot_words=(), order=order)


def test_who_may_feed_a_drill_that_has_no_words_for_home() -> None:
    nobody = "Nobody has to feed."
    words = {
        Feed.SHADOW: nobody,
        Feed.FENCE: nobody,
        Feed.SELF: nobody,
        Feed.HAND: "An adult or practised partner tosses underarm, the same easy toss each time.",
        Feed.LIVE: "An adult or practised partner rallies with you, the same partner each time.",
    }
    for feed, said in words.items():
        assert who_feeds(silent(OF_FEED[feed])) == said
    for spots, where in ((("deep",), "to one bounce"), (("a", "b"), "to the same spots in turn")):
        assert who_feeds(silent(OF_FEED[Feed.RACQUET], *spots)) == (
            "An adult or practised partner feeds by racquet at one easy pace,"
            f" {where}, six seconds apart."
        )


def test_who_feeds_does_not_contradict_the_drills_own_words() -> None:
    """A return is thrown overarm, a lob comes every ten seconds."""
    for drill in SHIPPED:
        assert not any(word in who_feeds(drill) for word in ("underarm", "six seconds", "rallies"))


@pytest.mark.parametrize("feed", list(Feed))
def test_a_coachs_own_drill_gets_short_sentences_by_its_feed(feed: Feed) -> None:
    drill = silent(OF_FEED[feed], "deep to the corner", "short to the middle")
    told = how_fed(drill)
    assert told.endswith("In turn: deep to the corner, then short to the middle.")
    assert [fault for part in sentences_of(told) for fault in faults(part)] == []
    assert how_fed(silent(OF_FEED[feed], "deep")).endswith("Each time: deep.")
    mixed = silent(OF_FEED[feed], "deep", "short", order=Order.SHUFFLED)
    assert how_fed(mixed).endswith("Mixed: deep; short.")


@pytest.mark.parametrize("drill", SHIPPED, ids=[drill.key for drill in SHIPPED])
def test_every_shipped_drill_has_its_own_words(drill: Drill) -> None:
    assert how_fed(drill) == drill.at_home
    assert how_fed(silent(drill)) != drill.run


def test_no_words_for_home_know_a_right_hand() -> None:
    """They name the forehand side and the backhand side, which change over with the hand."""
    words = {"left", "right", "deuce", "advantage"}
    wrong = [
        drill.key
        for drill in SHIPPED
        if words & set(drill.at_home.lower().replace(",", "").replace(".", "").split())
    ]
    assert wrong == []
