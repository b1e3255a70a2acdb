"""Small clinics drawn from a seed, for tests of pages: whoever may come, over one to nine days.

Their balls are drawn as those of the samples are. The first ten clinics have, together, every size
of group, every fate of a player, every purpose, and each trait both with and without.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from datetime import date, timedelta
from functools import cache

from courtlog.coaching.game.cards import PlayerCard
from courtlog.coaching.game.clinic_record import CheckInMoment, ClinicRecord
from courtlog.coaching.game.drills import Feed, Ladder
from courtlog.coaching.game.rounds import Purpose
from tests.doses import dose
from tests.pages.fates import Fate, as_it_went
from tests.samples.dice import Dice
from tests.samples.generator import clinic as played
from tests.samples.generator import shipped_library
from tests.samples.plans import Ask, Block, ClinicPlan, DayPlan, Task
from tests.samples.players import Player, Skill

SEED = 16_000
PLAYERS = (1, 12, 6, 2, 4, 9, 3, 7, 5, 8)
DAYS = (1, 5, 9, 2, 3, 5, 4, 1, 2, 5)
"""Of the first ten clinics; the others draw theirs."""

LONG_NAME = "Maximiliane-Auguste Thorsgaard-Winterbottom av Sundhamn og Østerlund"
NAMES = (
    *(
        "Ada",
        "Zoë Ångström",
        LONG_NAME,
        "木村 さくら",
        "Þórunn",
        "Bo",
        "Łucja",
        "Marie-Claire O'Dea",
    ),
    *("Cy", "Σοφία", "Ines Maria", "Kasimir", "Tove", "Ruben"),
)
NOTES = (
    "stops at the chest, whatever the ball",
    "she never stops moving",
    "100% better than before (says the coach)",
    "likes the phrase: slow hands, quick feet",
)
YARDSTICK_BALLS = (12, 16, 20, 20, 30, 40)
PRACTICE_BALLS = (5, 8, 10, 12, 20)


@dataclass(frozen=True, slots=True, kw_only=True)
class Traits:
    """What a clinic has and another has not."""

    yardstick: bool
    """A yardstick on the first and on the last day."""
    choosing: bool
    """A round to pick the cues before it."""
    morning_hold: bool
    evening_hold: bool
    transfer: bool
    tough: bool
    """Practice with feeds that are hard now and then."""
    second_stroke: bool
    main_cue: bool
    """The first cue is named the main one."""
    rated_twice: bool
    """The first cue of a player was rated twice, and the two do not agree."""
    notes: bool
    days_known: bool
    """How many days are planned was said."""
    weekly: bool
    """A day a week instead of day after day."""


@dataclass(frozen=True, slots=True)
class DrawnClinic:
    """A clinic: what came into the book by a sheet, and what a sheet cannot say."""

    number: int
    traits: Traits
    fates: dict[str, Fate]
    """By name, in the order of the roster."""
    cards: tuple[PlayerCard, ...]
    record: ClinicRecord
    stroke: str
    cues: tuple[str, ...]

    @property
    def dates(self) -> tuple[date, ...]:
        """The dates of its days."""
        return tuple(day.date for day in self.record.days)


def numbers() -> range:
    """The clinics of this run: ten, with `--long` sixty."""
    return range(dose(10, 60))


@cache
def drawn_clinic(number: int) -> DrawnClinic:
    """The clinic of that number; the same on every machine, every time."""
    return _Drawing(number).clinic()


class _Drawing:
    """One clinic being drawn."""

    def __init__(self, number: int) -> None:
        self.number, self.dice = number, Dice(SEED + number)
        self.traits = self._traits()
        few = number < len(PLAYERS)
        self.players = PLAYERS[number] if few else self.dice.whole(1, 12)
        self.days = DAYS[number] if few else self.dice.one_of((1, 2, 3, 4, 5, 9))
        ladders = shipped_library().ladders
        self.ladder = ladders["forehand"] if self.dice.chance(0.4) else self._any_ladder()
        self.other = self._any_ladder()
        self.cues = self._some_cues(self.ladder)

    def clinic(self) -> DrawnClinic:
        plan = ClinicPlan(
            name=f"Clinic {self.number}",
            zone="Europe/Lisbon",
            court="1",
            coach="Ines",
            seed=SEED + self.number,
            players=tuple(self._player(name) for name in NAMES[: self.players]),
            days=tuple(self._day(n) for n in range(1, self.days + 1)),
        )
        names = [player.name for player in plan.players]
        fates = dict(zip(names, self._fates(), strict=False))
        record = played(plan, shipped_library())
        record = replace(
            record,
            days=as_it_went(record.days, fates),
            planned_days=self.days if self.traits.days_known else None,
        )
        cards = tuple(self._card(name) for name in names)
        return DrawnClinic(
            self.number, self.traits, fates, cards, record, self.ladder.stroke, self.cues
        )

    def _traits(self) -> Traits:
        usual = {"yardstick": 0.7, "weekly": 0.2, "rated_twice": 0.3}
        return Traits(**{f.name: self.dice.chance(usual.get(f.name, 0.5)) for f in fields(Traits)})

    def _fates(self) -> Iterator[Fate]:
        """One player of two has a usual clinic; the other fates take turns."""
        unusual = [fate for fate in Fate if fate is not Fate.USUAL]
        turn = sum(PLAYERS[: self.number]) // 2 + self.number
        while True:
            yield Fate.USUAL
            yield unusual[turn % len(unusual)]
            turn += 1

    def _card(self, name: str) -> PlayerCard:
        return PlayerCard(name=name, age=self.dice.one_of(("", "minor", "adult")))

    def _any_ladder(self) -> Ladder:
        ladders = shipped_library().ladders
        return ladders[self.dice.one_of(sorted(ladders))]

    def _some_cues(self, ladder: Ladder) -> tuple[str, ...]:
        """One to four cues, in stroke order."""
        keys = [cue.key for cue in ladder.cues]
        most = self.dice.whole(1, 4)
        while len(keys) > most:
            keys.remove(self.dice.one_of(keys))
        return tuple(keys)

    def _player(self, name: str) -> Player:
        strokes = {
            stroke: {cue.key: self._skill() for cue in ladder.cues}
            for stroke, ladder in shipped_library().ladders.items()
        }
        return Player(name, self.dice.one_of(("left", "right", "")), strokes)

    def _skill(self) -> Skill:
        return Skill(4 * self.dice.share() - 2.5, 0.03 * self.dice.share(), self.dice.share() / 2)

    def _day(self, number: int) -> DayPlan:
        blocks = tuple(self._blocks(number))
        on = date(2026, 5, 11) + timedelta(days=(number - 1) * (7 if self.traits.weekly else 1))
        asks = (Ask(CheckInMoment.ARRIVAL, "08:31"), Ask(CheckInMoment.END, "17:40", 240))
        notes = {
            (name, blocks[0].at): self.dice.one_of(NOTES)
            for name in NAMES[: self.players]
            if self.traits.notes and self.dice.chance(0.5)
        }
        return DayPlan(on, blocks, asks, notes=notes)

    def _blocks(self, day: int) -> Iterator[Block]:
        traits, first, last = self.traits, day == 1, day == self.days
        kept = _kept(self.ladder)
        if first and traits.choosing:
            every = tuple(cue.key for cue in self.ladder.cues)[:4]
            yield Block("08:40", Purpose.CHOOSING, Task(kept, 8, " ".join(every)))
        if traits.yardstick and (first or last):
            yield self._block("09:00", Purpose.YARDSTICK, kept, self._same_balls())
        elif traits.morning_hold and not first:
            yield self._block("09:00", Purpose.HOLD, kept, self._same_balls())
        ladder = _rungs(self.ladder, harder=traits.tough)
        for turn, at in enumerate(("10:30", "11:30")):
            drill = ladder[min(day - 1 + turn, len(ladder) - 1)]
            yield self._block(at, Purpose.PRACTICE, drill, self.dice.one_of(PRACTICE_BALLS))
        if traits.second_stroke:
            other = _rungs(self.other, harder=False)
            yield Block("14:30", Purpose.PRACTICE, self._task(self.other, other[0], 10))
        if traits.transfer and not first:
            yield self._block("15:30", Purpose.TRANSFER, ladder[-1], 8)
        if traits.evening_hold and not last:
            yield self._block("16:30", Purpose.HOLD, kept, 20)

    def _same_balls(self) -> int:
        """A yardstick has as many balls each time."""
        return YARDSTICK_BALLS[self.number % len(YARDSTICK_BALLS)]

    def _block(self, at: str, purpose: Purpose, drill: str, balls: int) -> Block:
        return Block(at, purpose, Task(drill, balls, " ".join(self.cues)))

    def _task(self, ladder: Ladder, drill: str, balls: int) -> Task:
        return Task(drill, balls, " ".join(self._some_cues(ladder)))


def _kept(ladder: Ladder) -> str:
    """The full name of the drill kept for yardsticks: the last one before live balls."""
    drills = [drill for drill in ladder.drills if drill.feed is not Feed.LIVE]
    return f"{ladder.stroke}/{drills[-1].key}"


def _rungs(ladder: Ladder, harder: bool) -> list[str]:
    """The full names of its drills; the last two alone where balls are to be tough."""
    drills = ladder.drills[-2:] if harder else ladder.drills
    return [f"{ladder.stroke}/{drill.key}" for drill in drills]
