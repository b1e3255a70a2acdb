"""Cues, drills and ladders as the coach reads them. Values only; files are the library's."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from courtlog.values import NOTHING_ELSE, LengthRule, NumberRule, TextRule

Sentence = Annotated[str, TextRule(2000)]
Phrase = Annotated[str, TextRule(80)]
LONGEST_KEY = 40
KEY = r"[a-z0-9]+(-[a-z0-9]+)*"
Key = Annotated[str, TextRule(LONGEST_KEY, KEY)]

LONGEST_SPOT_WORD = 10
SpotWord = Annotated[str, TextRule(LONGEST_SPOT_WORD)]
"""A spot in so few letters that they can be large."""

MOST_CUES = 4
"""Rows on the pad: three, and a fourth that draws a caution."""


class Feed(StrEnum):
    """How the ball comes, from no ball to a live one."""

    SHADOW = "shadow"
    FENCE = "fence"
    SELF = "self"
    HAND = "hand"
    RACQUET = "racquet"
    LIVE = "live"

    @property
    def from_basket(self) -> bool:
        """Whether balls of this feed come out of the coach's basket."""
        return self in (Feed.HAND, Feed.RACQUET, Feed.LIVE)

    @property
    def has_ball(self) -> bool:
        """Whether there is a ball to measure; a shadow swing and the fence have none."""
        return self not in (Feed.SHADOW, Feed.FENCE)


class Order(StrEnum):
    """The order in which a drill's spots come."""

    BLOCKED = "blocked"
    SERIAL = "serial"
    SHUFFLED = "shuffled"


class Station(StrEnum):
    """Where the drill is done: at the coach's feed, or alone."""

    FEED = "feed"
    ALONE = "alone"


class SwingPart(StrEnum):
    """The part of the stroke a cue looks at, in the order of the stroke."""

    PREPARATION = "preparation"
    CONTACT = "contact"
    FINISH = "finish"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cue:
    """One thing to look at in a stroke, with what each grade looks like and what to say."""

    __pydantic_config__ = NOTHING_ELSE

    key: Key
    """What balls are filed under; it never changes."""
    name: Phrase
    """The name as shown."""
    part: SwingPart
    """The part of the swing it is seen in."""
    made: Sentence
    """What made looks like."""
    near: Sentence
    """What near looks like."""
    missed: Sentence
    """What missed looks like."""
    say_inner: Phrase
    """What to say, about the body."""
    say_outer: Phrase
    """What to say, about the ball or the racquet."""
    plain_name: Annotated[str, TextRule(40, r"(\S+( \S+){0,3})?", empty=True)] = ""
    """The name for whoever was not there, at most four words; empty where `name` will do."""

    @property
    def name_for_all(self) -> str:
        """The plain name, else the name as shown."""
        return self.plain_name or self.name


@dataclass(frozen=True, slots=True, kw_only=True)
class Drill:
    """One rung of a stroke's ladder, written so that an assistant can run it."""

    __pydantic_config__ = NOTHING_ELSE

    key: Key
    """The name within its stroke."""
    name: Phrase
    """The name as shown."""
    rung: Annotated[int, NumberRule(1, 20)]
    """The place on the ladder, from 1."""
    feed: Feed
    """How the ball comes."""
    spots: Annotated[tuple[Phrase, ...], LengthRule(1, 8)]
    """Where balls go, in words."""
    order: Order
    """How the spots follow each other."""
    balls: Annotated[int, NumberRule(1, 200)]
    """Balls of a usual round."""
    tough: Annotated[int, NumberRule(0)] = 0
    """How many of them are planned harder than usual."""
    station: Station
    """Where it can be done."""
    kit: tuple[Phrase, ...]
    """What is needed for it."""
    run: Sentence
    """How to run it."""
    look: Sentence
    """What to look at."""
    caution: Sentence
    """What to be careful about."""
    at_home: Annotated[str, TextRule(300, empty=True)] = ""
    """How it is done at home, alone or with somebody who feeds: two or three short sentences.

    They speak to the player. Empty where there are none."""
    spot_words: Annotated[tuple[SpotWord, ...], LengthRule(most=8)] = ()
    """A short word for each spot, to be read from afar; empty where none are given."""

    def spot_word(self, spot: int) -> str:
        """The short word of a spot (0-based); without one, as much of its text as is as short."""
        if spot < len(self.spot_words):
            return self.spot_words[spot]
        return _cut_between_words(self.spots[spot], LONGEST_SPOT_WORD)

    @property
    def most_tough(self) -> int:
        """The most tough balls of a round: none is first and no two follow each other."""
        return self.balls // 2


@dataclass(frozen=True, slots=True)
class Ladder:
    """All of one stroke: its cues in stroke order and its drills by rung."""

    __pydantic_config__ = NOTHING_ELSE

    stroke: Key
    title: Phrase
    about: Sentence
    first_cues: Annotated[tuple[Key, ...], LengthRule(1, MOST_CUES)]
    cues: Annotated[tuple[Cue, ...], LengthRule(1)]
    drills: Annotated[tuple[Drill, ...], LengthRule(1)]

    @property
    def top(self) -> int:
        """The highest rung."""
        return max(drill.rung for drill in self.drills)

    @property
    def first_fed(self) -> Drill:
        """The lowest drill fed by hand from the basket; without one, the lowest with a ball."""
        drills = self.in_rung_order()
        return next(
            (drill for drill in drills if drill.feed is Feed.HAND),
            next((drill for drill in drills if drill.feed.has_ball), drills[0]),
        )

    def cue(self, key: str) -> Cue | None:
        """The cue of that key, if the ladder has it."""
        return next((cue for cue in self.cues if cue.key == key), None)

    def drill(self, key: str) -> Drill | None:
        """The drill of that key, if the ladder has it."""
        return next((drill for drill in self.drills if drill.key == key), None)

    def in_rung_order(self) -> tuple[Drill, ...]:
        """The drills from no ball to live; those on one rung keep the order of the file."""
        return tuple(sorted(self.drills, key=lambda drill: drill.rung))

    def beside(self, drill: Drill, by: int) -> Drill | None:
        """The first drill of the next rung up (1) or down (-1); None at the ladder's end."""
        rungs = [other.rung for other in self.drills if (other.rung - drill.rung) * by > 0]
        if not rungs:
            return None
        rung = min(rungs) if by > 0 else max(rungs)
        return next(other for other in self.drills if other.rung == rung)


@dataclass(frozen=True, slots=True)
class UsedDrill:
    """A drill as it read when a round was played, with the cues of its stroke at that time."""

    __pydantic_config__ = NOTHING_ELSE

    stroke: Key
    title: Phrase
    top: int
    drill: Drill
    cues: tuple[Cue, ...]

    @classmethod
    def of(cls, ladder: Ladder, drill: Drill) -> UsedDrill:
        """The drill as the library has it now."""
        return cls(
            stroke=ladder.stroke,
            title=ladder.title,
            top=ladder.top,
            drill=drill,
            cues=ladder.cues,
        )

    @property
    def name(self) -> str:
        """The full name, `stroke/key`."""
        return f"{self.stroke}/{self.drill.key}"

    def cue(self, key: str) -> Cue:
        """The cue of that key. Raises KeyError."""
        cue = next((cue for cue in self.cues if cue.key == key), None)
        if cue is None:
            raise KeyError(key)
        return cue


def _cut_between_words(text: str, most: int) -> str:
    """The first words that fit; of a longer first word, its beginning."""
    kept = text[:most]
    if len(text) > most and text[most] != " " and " " in kept:
        kept = kept.rpartition(" ")[0]
    return kept.strip(" ,:;")
