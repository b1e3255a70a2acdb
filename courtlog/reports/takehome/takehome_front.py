"""The front of a take-home sheet: half a page to read, half a page to do; plain sentences only.

Text and HTML are both made of these sections. A player who hit nothing, or whose next balls wait
for a clinician, has other sections, not empty ones.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from courtlog.coaching.care.home_care import ToldPain
from courtlog.coaching.game.grades import DIGITS, LOOKS, Grade
from courtlog.coaching.plans.homework import HomeDrill, HomeWeek, Homework
from courtlog.coaching.voice.day_names import DayNames
from courtlog.coaching.voice.plain_numbers import balls_of
from courtlog.coaching.voice.statement import Statement
from courtlog.plain_text import capital, listed, many
from courtlog.reports.facts.change_models import CueChange, StrokeChange
from courtlog.reports.layout import person_lines
from courtlog.reports.takehome.takehome_facts import TakeHome
from courtlog.reports.takehome.takehome_words import unit

MOST_DOTS = 60
"""Balls of a row of dots; a longer row is left to its counts."""

GOOD = "What was good"
CHANGED = "What changed"
SO_FAR = "So far"
DO = "To do at home"
SAY = "Say to yourself"
STOP = "When to stop"
WAIT = "First a clinician's word"
NEXT = "Next time"

SHAPES = (
    f"Each shape is a ball: {', '.join(f'{look.mark} {look.word}' for look in LOOKS.values())}."
)
ONE_DAY = "All your balls were hit on one day, so there is nothing to compare."
NOT_ENOUGH = "These balls are not enough to tell of a change."
NO_BALLS = "No ball of yours was seen at this clinic, so there is nothing to tell."
FIRST_NEXT_TIME = "First your coach watches some balls, and then you pick two or three cues."
OTHER_STROKES = "Your other strokes are on the back."
NO_DRILLS = "There is no drill of this stroke to do alone: ask your coach for one."
ON_THE_BACK = "How it is done stands on the back."
BETWEEN = "Leave a day between. Less is fine."
WAITING = (
    "So this page has no balls to hit, and no swings.",
    "See a licensed clinician first, and tell your coach what was said.",
    "After that word your coach plans the next balls with you.",
)
STOPPING = (
    "Stop if it hurts. See a licensed clinician before more if pain is sudden, strong or lasts.",
    "Juniors: stop before pain, not at it.",
    "Heat: follow your club's rules. At first thunder, leave the court.",
)
"""In full they stand on the back (takehome_words.CAUTIONS)."""

ASK_FIRST = "If you still feel it, see a licensed clinician before you begin."


@dataclass(frozen=True, slots=True)
class DotRow:
    """The balls of one cue on one day, in order, as a sheet's digits."""

    day: str
    balls: str

    @property
    def dots(self) -> str:
        """`○◐●·`, a shape a ball."""
        return "".join(LOOKS[DIGITS[digit]].mark for digit in self.balls)

    @property
    def words(self) -> str:
        """`Monday: 6 of 19 balls made`, for whoever does not see the shapes."""
        grades = [DIGITS[digit] for digit in self.balls]
        seen = [grade for grade in grades if grade is not None]
        return f"{self.day}: {balls_of(seen.count(Grade.MADE), len(seen))} made"


@dataclass(frozen=True, slots=True)
class FrontLine:
    """What is said on a line, the name it begins with, and rows of dots below it."""

    said: Statement
    name: str = ""
    rows: tuple[DotRow, ...] = ()


@dataclass(frozen=True, slots=True)
class FrontSection:
    """A part of the front; `to_do` says whether it belongs to the half that is done."""

    key: str
    title: str
    lines: tuple[FrontLine, ...]
    to_do: bool = False


def front(facts: TakeHome) -> tuple[FrontSection, ...]:
    """The sections in order; one without a line is left out."""
    return tuple(section for section in _sections(facts) if section.lines)


def pain_words(pain: ToldPain, days: DayNames) -> str:
    """`You said your pain was 4 of 10, elbow, on Wednesday.`, and the warning signs."""
    when = days.on(pain.on)
    signs = f" You named {listed([sign.words for sign in pain.signs])}." if pain.signs else ""
    if pain.level:
        place = f", {pain.place}," if pain.place else ""
        return f"You said your pain was {pain.level} of 10{place} {when}.{signs}"
    return signs.strip() or f"You were kept off the feed {when}."


def _sections(facts: TakeHome) -> Iterator[FrontSection]:
    days = DayNames.of(facts.dates)
    if facts.change is None:
        yield _section("absent", NEXT, [NO_BALLS, FIRST_NEXT_TIME])
    else:
        yield _good(facts, facts.change, days)
        yield _changed(facts, facts.change, days)
    if facts.waits is not None:
        waiting = [pain_words(facts.waits, days), *WAITING]
        yield _section("wait", WAIT, waiting + _minor(facts), to_do=True)
        return
    if facts.change is None:
        yield _section("stop", STOP, [*_mentioned(facts, days), *_minor(facts)], to_do=True)
        return
    yield _to_do(facts.plan)
    yield _say(facts, facts.change)
    stopping = [*_mentioned(facts, days), *STOPPING, *_minor(facts)]
    yield _section("stop", STOP, stopping, to_do=True)


def _section(key: str, title: str, sentences: Sequence[str], to_do: bool = False) -> FrontSection:
    lines = tuple(FrontLine(Statement(sentence)) for sentence in sentences)
    return FrontSection(key, title, lines, to_do)


def _good(facts: TakeHome, change: StrokeChange, days: DayNames) -> FrontSection:
    lines = [FrontLine(change.good)] if change.good else []
    lines += [FrontLine(Statement(words)) for words in facts.written]
    when = f" {days.on(facts.good_on)}" if facts.good_on is not None and change.good else ""
    return FrontSection("good", f"{GOOD}{when}", tuple(lines))


def _changed(facts: TakeHome, change: StrokeChange, days: DayNames) -> FrontSection:
    others = [FrontLine(Statement(OTHER_STROKES))] if facts.others else []
    if not facts.can_compare:
        why = ONE_DAY if facts.played < 2 else NOT_ENOUGH
        counts = [_counted(cue) for cue in change.cues if cue.seen]
        lines = [FrontLine(Statement(why)), *counts, *others]
        return FrontSection("changed", SO_FAR, tuple(lines))
    cues = [
        FrontLine(cue.said.change, rows=tuple(_rows(cue, days)))
        for cue in sorted(change.cues, key=_gains_first)
    ]
    head = [FrontLine(Statement(SHAPES))] if any(line.rows for line in cues) else []
    whole = [FrontLine(change.whole)] if change.whole else []
    return FrontSection("changed", CHANGED, (*head, *cues, *whole, *others))


def _gains_first(cue: CueChange) -> tuple[int, bool]:
    """A gain before what cannot be told, a drop last; of two the clear one first."""
    part = cue.headline
    return (0, True) if part is None else (-part.direction, not part.clear)


def _counted(cue: CueChange) -> FrontLine:
    return FrontLine(Statement(f"{capital(cue.plain_name)}: {balls_of(cue.made, cue.seen)}."))


def _rows(cue: CueChange, days: DayNames) -> Iterator[DotRow]:
    if len(cue.yardsticks) > 1 and all(0 < len(y.balls) <= MOST_DOTS for y in cue.yardsticks):
        for played in cue.yardsticks:
            yield DotRow(days.name(played.date), played.balls)


def _to_do(plan: Homework | None) -> FrontSection:
    if plan is None or not plan.drills:
        return _section("do", DO, [NO_DRILLS], to_do=True)
    lines = [
        FrontLine(Statement(_drill_words(home, index, plan)), name=home.drill.name)
        for index, home in enumerate(plan.drills)
    ]
    if plan.weeks:
        lines.append(FrontLine(Statement(f"{sessions_words(plan.weeks)} {BETWEEN}")))
    return FrontSection("do", DO, tuple(lines), to_do=True)


def _drill_words(home: HomeDrill, index: int, plan: Homework) -> str:
    """How the drill is done, how much of it in a session, and in which weeks."""
    how = " ".join((home.drill.at_home or ON_THE_BACK).split())
    balls = [week.balls[index] for week in plan.weeks if week.balls[index]]
    if not balls:
        return how
    least, most = min(balls), max(balls)
    amount = many(most, unit(home)) if least == most else f"{least} to {many(most, unit(home))}"
    weeks = f"weeks {home.from_week} to {plan.weeks[-1].number}"
    return f"{how} {capital(amount)} a session, {weeks}."


def sessions_words(weeks: Sequence[HomeWeek]) -> str:
    """`2 sessions a week in weeks 1 and 2, 3 in weeks 3 and 4.`"""
    parts: list[str] = []
    for sessions, group in groupby(weeks, key=lambda week: week.sessions):
        numbers = [str(week.number) for week in group]
        much = many(sessions, "session") + " a week" if not parts else str(sessions)
        parts.append(f"{much} in week{'' if len(numbers) == 1 else 's'} {listed(numbers)}")
    return f"{', '.join(parts)}."


def _say(facts: TakeHome, change: StrokeChange) -> FrontSection:
    """One phrase a cue, after the one thing; its own phrase comes first."""
    if facts.plan is None or facts.plan.yardstick is None:
        return FrontSection("say", SAY, (), to_do=True)
    one = [FrontLine(change.one_thing)] if change.one_thing else []
    phrases = [
        FrontLine(Statement(f"{capital(cue.name_for_all)}: “{cue.say_inner}”."))
        for cue in sorted(facts.plan.yardstick.cues, key=lambda cue: cue.say_inner != change.say)
    ]
    return FrontSection("say", SAY, (*one, *phrases), to_do=True)


def _mentioned(facts: TakeHome, days: DayNames) -> list[str]:
    return [] if facts.pain is None else [f"{pain_words(facts.pain, days)} {ASK_FIRST}"]


def _minor(facts: TakeHome) -> list[str]:
    return [person_lines.ON_A_SHEET] if facts.minor else []
