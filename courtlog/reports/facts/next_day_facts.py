"""What the next day begins with for a player: the coach's own plan, else what it would propose."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from courtlog.coaching.game.people import Clinic
from courtlog.coaching.plans.day_plan import PlannedTurn, StrokeStanding, turns_of
from courtlog.coaching.plans.plan_edits import Plan
from courtlog.coaching.voice.statement import Statement
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups
from courtlog.logbook.reads.care_lookups import StandingAmber, ask_first_on, held_back_on
from courtlog.logbook.reads.clinic_lookups import next_planned, planned


@dataclass(frozen=True, slots=True)
class NextDay:
    """What an evening knows of the next day, looked up once for everybody."""

    date: date
    is_last: bool
    """Whether it is the clinic's last one."""
    kept: Plan | None
    """The rounds that the coach kept for it; None where none were kept."""
    held_back: Mapping[int, str]
    """By player whom a red keeps off the feed, the reason."""
    ask_first: Mapping[int, StandingAmber]
    """By player whose arm is asked about before anything is planned, the amber that stands."""
    drills: Mapping[str, str]
    """Names of drills by their full key."""

    def where(self, turn: PlannedTurn) -> str:
        """`on Drop and hit`, or `one rung up from Drop and hit`."""
        return f"{'one rung up from' if turn.up else 'on'} {self.drill_name(turn.drill)}"

    def drill_name(self, drill: str) -> str:
        """The drill's name; its key where the book has no name of it."""
        return self.drills.get(drill, drill)


def next_day(book: Book, clinic: Clinic, today: date, is_last: bool) -> NextDay:
    """What is known on the evening of today; of the arms only what was said until then."""
    on = next_planned(book, clinic.id, today)
    day = on or today + timedelta(days=1)
    return NextDay(
        date=day,
        is_last=is_last,
        kept=None if on is None else planned(book, clinic.id, on),
        held_back=held_back_on(book, clinic.id, day),
        ask_first=ask_first_on(book, clinic.id, day, today),
        drills=day_lookups.drill_names(book),
    )


def next_rounds(standing: StrokeStanding, ahead: NextDay) -> Statement:
    """`Next day first: hold on Day-one feed.`; the figures name all of the day's rounds."""
    player = standing.player.id
    red = ahead.held_back.get(player)
    if red is not None:
        return Statement(
            "Next day: not on the feed before a clinician's word.",
            f"Why: {red}.",
            f"not on the feed ({red}).",
            "next day: not on the feed",
        )
    amber = ahead.ask_first.get(player)
    if amber is not None:
        return Statement(
            "Next day: ask about the arm first; nothing is planned before that.",
            f"Why: {amber.words}.",
            f"ask about the arm first ({amber.words}); nothing is planned before that.",
            "next day: ask about the arm first",
        )
    if ahead.kept is not None:
        return _kept(tuple(r for r in ahead.kept if r.player.id == player), ahead)
    return _proposed(standing, ahead)


def _kept(rounds: Plan, ahead: NextDay) -> Statement:
    """What the coach planned."""
    words = [f"{round_.purpose} on {ahead.drill_name(round_.drill)}" for round_ in rounds]
    figures = f"as you planned it: {', then '.join(words) or 'no round'}."
    if not rounds:
        return Statement("Next day: no round is planned.", "", figures, "next day: no round")
    first = f"{rounds[0].purpose}, {ahead.drill_name(rounds[0].drill)}"
    return _first(first, "As you planned it.", figures)


def _proposed(standing: StrokeStanding, ahead: NextDay) -> Statement:
    """What the plan of that day would propose."""
    turns = turns_of(standing, ahead.date, ahead.is_last)
    words = [_turn_words(turn, ahead) for turn in turns.uncoached]
    practice = f"practice {ahead.where(turns.practice)}"
    words.append(f"then {practice}" if words else f"{practice} ({turns.practice.reason})")
    if turns.evening is not None:
        words.append(f"at the end {_turn_words(turns.evening, ahead)}")
    first = [*turns.uncoached, turns.practice][0]
    return _first(
        f"{first.purpose} {ahead.where(first)}", f"Why: {first.reason}.", f"{'; '.join(words)}."
    )


def _first(first: str, why: str, figures: str) -> Statement:
    return Statement(f"Next day first: {first}.", why, figures, f"next day: {first}")


def _turn_words(turn: PlannedTurn, ahead: NextDay) -> str:
    return f"{turn.purpose} {ahead.where(turn)} ({turn.reason})"
