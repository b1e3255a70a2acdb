"""Two invented clinics, drawn from a seed: the same records on every machine, every time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date, time
from functools import cache
from pathlib import Path

from courtlog import times
from courtlog.coaching.game.clinic_record import (
    BallRecord,
    CheckIn,
    CheckInMoment,
    ClinicRecord,
    DayRecord,
    RosterEntry,
    RoundRecord,
)
from courtlog.coaching.game.drills import Drill, Feed
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.feed_order import feed_order
from courtlog.library.drill_files import Library, load
from courtlog.library.sheet_out import write_sheet
from tests.samples.dice import Dice
from tests.samples.drawing import as_seen, grades, remark
from tests.samples.harbour_week import HARBOUR_WEEK
from tests.samples.plans import Answer, Ask, Block, ClinicPlan, DayPlan, Task
from tests.samples.players import Form
from tests.samples.two_court_weekend import TWO_COURT_WEEKEND

ROOT = Path(__file__).resolve().parents[2]
FOLDER = ROOT / "sample_sessions"
PLANS = {"harbour-week.txt": HARBOUR_WEEK, "two-court-weekend.txt": TWO_COURT_WEEKEND}

TEMPO = {
    Feed.SHADOW: (4, 4),
    Feed.FENCE: (5, 6),
    Feed.SELF: (7, 9),
    Feed.HAND: (3, 4),
    Feed.RACQUET: (4, 6),
    Feed.LIVE: (10, 20),
}
"""Seconds from ball to ball."""

SERVE_TEMPO = (10, 14)
EVEN_TEMPO = (6, 6)
"""The yardstick is fed at one pace, or it is no yardstick."""

TALK = (35, 80)
PICK_UP = (150, 230)
BASKET = 60
CLIPPED = 0.02
CLIPPED_YARDSTICK = (1, 11)
"""The same two balls on both days, so that the clips can be laid side by side."""


@cache
def shipped_library() -> Library:
    """The drills of the repository, read once."""
    return load([ROOT / "drill_library"])


def sheets() -> dict[str, str]:
    """The text of every sample by its file name."""
    library = shipped_library()
    return {file: write_sheet(clinic(plan, library)) for file, plan in PLANS.items()}


def clinic(plan: ClinicPlan, library: Library) -> ClinicRecord:
    """The record of a planned clinic."""
    roster = tuple(RosterEntry(player.name, player.hand) for player in plan.players)
    return ClinicRecord(
        plan.name, plan.zone, roster, tuple(_Court(plan, library).days()), len(plan.days)
    )


@dataclass(slots=True)
class _Court:
    """Plays a plan from first to last ball; the clock counts seconds from midnight."""

    plan: ClinicPlan
    library: Library
    dice: Dice = field(init=False)
    forms: dict[str, Form] = field(init=False)
    today: date = date.min
    clock: int = 0
    basket: int = BASKET
    turns: int = 0

    def __post_init__(self) -> None:
        self.dice = Dice(self.plan.seed)
        self.forms = {player.name: Form(player) for player in self.plan.players}

    def days(self) -> Iterator[DayRecord]:
        """Every day with its rounds and check-ins; each ends with a night."""
        for day in self.plan.days:
            self.today, self.clock = day.date, 0
            check_ins = tuple(
                sorted(self._check_ins(day), key=lambda check_in: check_in.at_ms or 0)
            )
            rounds = tuple(self._rounds(day))
            yield DayRecord(day.date, self.plan.court, self.plan.coach, rounds, check_ins)
            for form in self.forms.values():
                form.night()

    def _check_ins(self, day: DayPlan) -> Iterator[CheckIn]:
        for ask in day.asks:
            second = _seconds(ask.at)
            for name in self._named(ask.who):
                answer = day.answers.get((name, ask.moment), Answer())
                second += self.dice.whole(20, 55)
                at = _seconds(answer.at) if answer.at else second
                yield self._check_in(name, ask, answer, at)

    def _check_in(self, name: str, ask: Ask, answer: Answer, at: int) -> CheckIn:
        minutes = ask.minutes if answer.minutes is None else answer.minutes
        harder = ask.moment is CheckInMoment.END
        effort = None if minutes is None else self.dice.whole(4, 6) + harder
        return CheckIn(
            player=name,
            moment=ask.moment,
            pain=answer.pain,
            place=answer.place,
            effort=effort,
            minutes=minutes,
            note=answer.note,
            at_ms=self._at(at),
        )

    def _rounds(self, day: DayPlan) -> Iterator[RoundRecord]:
        lunched = False
        for block in day.blocks:
            if block.at > self.plan.lunch and not lunched:
                lunched = True
                for form in self.forms.values():
                    form.rest()
            self.clock = max(self.clock, _seconds(block.at))
            self.basket = BASKET
            for name in self._in_turn(block):
                yield self._round(day, block, name)

    def _in_turn(self, block: Block) -> list[str]:
        """Who is up: coached blocks open with another player each time, the rest never change."""
        names = self._named(block.who)
        if not block.purpose.coached:
            return names
        self.turns += 1
        first = self.turns % len(names)
        return names[first:] + names[:first]

    def _named(self, who: tuple[str, ...]) -> list[str]:
        return [name for name in self.forms if not who or name in who]

    def _round(self, day: DayPlan, block: Block, name: str) -> RoundRecord:
        task = block.instead.get(name, block.task)
        count = day.shorter.get((name, block.at), task.balls)
        _, drill = self.library.drill(task.drill)
        self._pick_up(drill, count)
        started = self.clock
        balls = tuple(self._balls(name, task, drill, block.purpose, count))
        ended = self.clock
        self.clock += self.dice.whole(*TALK)
        order = feed_order(drill, self.dice.whole(0, 999_999)) if len(drill.spots) > 1 else ()
        note, said = day.notes.get((name, block.at)), day.said.get((name, block.at))
        return RoundRecord(
            player=name,
            drill=task.drill,
            purpose=block.purpose,
            cues=tuple(task.cues.split()),
            balls=balls,
            started=self._at(started),
            ended=self._at(ended),
            order=order,
            notes=(note,) if note else (),
            check_ins=(CheckIn(player=name, pain=said.pain, place=said.place),) if said else (),
        )

    def _balls(
        self, name: str, task: Task, drill: Drill, purpose: Purpose, count: int
    ) -> Iterator[BallRecord]:
        cues, form = tuple(task.cues.split()), self.forms[name]
        for number in range(1, count + 1):
            self.clock += self.dice.whole(*_tempo(task.stroke, drill, purpose))
            ball = as_seen(self.dice, grades(self.dice, form, task.stroke, drill, cues, purpose))
            form.after_ball(task.stroke, cues, purpose.coached)
            if self._clipped(drill, purpose, number):
                ball = replace(ball, clip=self._at(self.clock))
            yield BallRecord(ball, remark(self.dice, drill, cues, ball))

    def _clipped(self, drill: Drill, purpose: Purpose, number: int) -> bool:
        if purpose is Purpose.YARDSTICK:
            return number in CLIPPED_YARDSTICK
        return drill.station == "feed" and self.dice.chance(CLIPPED)

    def _pick_up(self, drill: Drill, count: int) -> None:
        """Nobody is fed from an empty basket."""
        if not drill.feed.from_basket:
            return
        if self.basket < count:
            self.clock += self.dice.whole(*PICK_UP)
            self.basket = BASKET
        self.basket -= count

    def _at(self, second: int) -> int:
        clock = time(second // 3600, second // 60 % 60, second % 60)
        return times.moment(self.today, clock, times.zone(self.plan.zone))


def _tempo(stroke: str, drill: Drill, purpose: Purpose) -> tuple[int, int]:
    if purpose is Purpose.YARDSTICK:
        return EVEN_TEMPO
    serves = stroke == "serve" and drill.station == "feed"
    return SERVE_TEMPO if serves else TEMPO[drill.feed]


def _seconds(clock: str) -> int:
    hours, _, minutes = clock.partition(":")
    return int(hours) * 3600 + int(minutes) * 60
