"""How a drill is fed at home, by whoever is there: in the drill's own words, else by its feed.

The text for coaches on court is never shown there: a parent cannot run a drill from it.
"""

from __future__ import annotations

from courtlog.coaching.game.drills import Drill, Feed, Order

_NOBODY = "Nobody has to feed."

_GENERAL = {
    Feed.SHADOW: "Swing slowly with no ball, one row for each swing.",
    Feed.FENCE: "Do it slowly at the fence, as you learned it, one row for each.",
    Feed.SELF: "Feed yourself as you learned it, and wait until you stand still before the next.",
    Feed.HAND: "The feeder stands a few steps away, out of the line of your ball.",
    Feed.RACQUET: "The feeder stands across the net, out of the line of your ball.",
    Feed.LIVE: "Play at an easy pace, and not to win. Only your own balls count, one row for each.",
}
"""What can be said of a drill that has no words for home."""


def who_feeds(drill: Drill) -> str:
    """Who may feed it, and how as far as the drill's own words do not say."""
    told = bool(drill.at_home)
    match drill.feed:
        case Feed.SHADOW | Feed.FENCE | Feed.SELF:
            return _NOBODY
        case Feed.HAND:
            how = "feeds" if told else "tosses underarm, the same easy toss each time"
        case Feed.RACQUET:
            where = "to one bounce" if len(drill.spots) == 1 else "to the same spots in turn"
            more = "" if told else f", {where}, six seconds apart"
            how = f"feeds by racquet at one easy pace{more}"
        case Feed.LIVE:
            how = f"{'plays' if told else 'rallies'} with you, the same partner each time"
    return f"An adult or practised partner {how}."


def how_fed(drill: Drill) -> str:
    """Where to stand and where the balls go: the drill's own words, else what its feed tells."""
    return drill.at_home or f"{_GENERAL[drill.feed]} {_spots(drill)}"


def _spots(drill: Drill) -> str:
    """`In turn: deep, then short.`; the drill's own places."""
    if len(drill.spots) == 1:
        return f"Each time: {drill.spots[0]}."
    if drill.order is Order.SHUFFLED:
        return f"Mixed: {'; '.join(drill.spots)}."
    if drill.order is Order.SERIAL:
        return f"In turn: {', then '.join(drill.spots)}."
    return f"One place after the other: {', then '.join(drill.spots)}."
