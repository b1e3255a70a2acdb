"""The facts of a day's plan: what was kept or is proposed, and what it asks of basket and day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from courtlog.coaching.answers.ball_history import BallKind
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.plans.day_plan import (
    PRACTICE_TURNS,
    DayPlan,
    StrokeStanding,
    hits,
    plan_day,
)
from courtlog.coaching.plans.next_courts import NextCourts
from courtlog.coaching.plans.plan_edits import Plan, differences
from courtlog.coaching.plans.plan_effort import Effort, effort
from courtlog.coaching.plans.yardstick_reach import yardstick_reach
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.reads.clinic_lookups import planned
from courtlog.logbook.reads.courts.next_day_courts import next_day_courts
from courtlog.logbook.reads.player_progress import latest_drill, roster_progress
from courtlog.logbook.writes.round_writer import BASKET
from courtlog.reports.facts.plan_lines import PlanLines
from courtlog.reports.facts.plan_models import (
    AskFirst,
    DifferenceFacts,
    EffortFacts,
    HeldBack,
    LimitFacts,
    PlanCourt,
    PlanFacts,
)
from courtlog.reports.facts.plan_reasons import (
    plan_reasons,
    things_to_look_for,
    without_evening,
)
from courtlog.reports.facts.reach_facts import reach_facts


@dataclass(frozen=True, slots=True)
class PlanRequest:
    """What the coach asked the proposal for: a stroke, practice rounds, a length of the day."""

    stroke: str | None = None
    practice_turns: int = PRACTICE_TURNS
    hours: float | None = None
    courts: int | None = None
    """How many courts; None: as many as were kept for the day, or as on the day before."""


@dataclass(frozen=True, slots=True)
class Plans:
    """The kept plan of a date and the proposal beside it."""

    on: date
    number: int
    last_day: bool
    kept: Plan
    proposal: DayPlan
    standings: tuple[StrokeStanding, ...]
    courts: NextCourts | None = None
    """Who goes to which court; None where the clinic is on one."""

    @property
    def rounds(self) -> Plan:
        """The kept plan, else the proposal."""
        return self.kept or self.proposal.rounds


def usual_date(book: Book, clinic: Clinic, today: date) -> date:
    """The date to plan: today, or the day after the last day with a ball, whichever is later."""
    played = last_played(book, clinic)
    return today if played is None or played < today else played + timedelta(days=1)


def last_played(book: Book, clinic: Clinic) -> date | None:
    """The latest date of the clinic with a ball; None without any."""
    rows = day_lookups.counts_by_day(book, clinic.id)
    return max((row.date for row in rows), default=None)


def plans(
    book: Book, clinic: Clinic, on: date, library: Library, request: PlanRequest | None = None
) -> Plans:
    """Both plans of a date; after the clinic's last planned day nothing is proposed.

    Raises UnknownNameError for a stroke that is not in the library.
    """
    request = request or PlanRequest()
    fresh = _first_drill(book, clinic, on, library, request.stroke)
    stroke_standings = tuple(roster_progress(book, clinic.id, on, fresh, request.stroke))
    number = sum(1 for day in lookups.dates(book, clinic.id) if day < on) + 1
    last_day = clinic.planned_days is not None and number >= clinic.planned_days
    over = last_day and number != clinic.planned_days
    asked = () if over else stroke_standings
    proposal = plan_day(asked, on, last_day, library.ladders, request.practice_turns)
    kept = planned(book, clinic.id, on)
    courts = next_day_courts(book, clinic.id, on, request.courts)
    return Plans(on, number, last_day, kept, proposal, stroke_standings, courts)


def plan_facts(
    book: Book, clinic: Clinic, on: date, library: Library, request: PlanRequest | None = None
) -> PlanFacts:
    """The facts of the plan of a date. Raises UnknownNameError."""
    request = request or PlanRequest()
    return facts_of(plans(book, clinic, on, library, request), book, clinic, library, request.hours)


def facts_of(
    both: Plans, book: Book, clinic: Clinic, library: Library, hours: float | None = None
) -> PlanFacts:
    """The facts of plans that were looked up already."""
    mark = lookups.bookmark(book)
    basket = mark.basket.size if mark else BASKET
    lines = PlanLines(book, library)
    roster = lookups.players(book, clinic.id)
    known = {standing.player.id for standing in both.standings}
    asked_first = tuple(
        player.shown_name
        for player in both.proposal.order
        if any(s.ask_first for s in both.standings if s.player == player)
    )
    return PlanFacts(
        clinic=clinic.name,
        date=both.on,
        number=both.number,
        planned_days=clinic.planned_days,
        kept=bool(both.kept),
        order=tuple(_order(both.rounds)) + (() if both.kept else asked_first),
        courts=_courts(both),
        courts_kept=both.courts is not None and both.courts.kept,
        court_moves=tuple(move.words for move in both.courts.moves) if both.courts else (),
        blocks=lines.blocks(both.rounds),
        effort=_day_effort(both, lines, basket),
        hours=hours,
        reach=reach_facts(
            yardstick_reach(both.rounds, both.standings, both.last_day, library.ladders)
        ),
        reasons=tuple(plan_reasons(both.rounds, both.proposal.rounds, both.standings, lines)),
        limits=tuple(_limits(both, library)),
        held_back=tuple(
            HeldBack(
                player=standing.player.shown_name,
                reason=standing.held_back,
                planned=any(r.player.id == standing.player.id for r in both.rounds),
            )
            for standing in both.standings
            if standing.held_back
        ),
        ask_first=tuple(
            AskFirst(
                player=standing.player.shown_name,
                reason=standing.ask_first,
                planned=any(r.player.id == standing.player.id for r in both.rounds),
            )
            for standing in both.standings
            if standing.ask_first and not standing.held_back
        ),
        no_evening=tuple(without_evening(both.rounds, both.standings)),
        look_for=tuple(things_to_look_for(both.rounds, both.standings, lines)),
        no_drill=tuple(player.shown_name for player in roster if player.id not in known),
        proposed_order=tuple(_order(both.proposal.rounds)),
        differences=tuple(
            DifferenceFacts(
                player=difference.player.shown_name,
                proposed=tuple(lines.line(0, round_) for round_ in difference.proposed),
                kept=tuple(lines.line(0, round_) for round_ in difference.kept),
            )
            for difference in (differences(both.kept, both.proposal.rounds) if both.kept else ())
        ),
    )


def _order(rounds: Plan) -> list[str]:
    """The players in the order of their first rounds."""
    return list(dict.fromkeys(round_.player.shown_name for round_ in rounds))


def _first_drill(
    book: Book, clinic: Clinic, on: date, library: Library, stroke: str | None
) -> BallKind | None:
    """The drill for players without a ball: the last one used, else the stroke's first fed one."""
    latest = latest_drill(book, clinic.id, on, stroke)
    if latest is not None or stroke is None:
        return latest
    ladder = library.ladder(stroke)
    drills = ladder.in_rung_order()
    drill = next((candidate for candidate in drills if candidate.feed.from_basket), drills[-1])
    return BallKind(f"{ladder.stroke}/{drill.key}", drill.rung, drill.feed, tough=False)


def _courts(both: Plans) -> tuple[PlanCourt, ...]:
    """The players of each court in the order of the plan, then those without a round."""
    if both.courts is None:
        return ()
    place = {round_.player.id: at for at, round_ in reversed(list(enumerate(both.rounds)))}
    last = len(both.rounds)
    return tuple(
        PlanCourt(
            court=group.court,
            players=tuple(
                player.shown_name
                for player in sorted(group.players, key=lambda who: place.get(who.id, last))
            ),
        )
        for group in both.courts.groups
    )


def _day_effort(both: Plans, lines: PlanLines, basket: int) -> EffortFacts:
    """Balls and baskets of all courts, and the minutes of the one that takes longest."""
    whole = _effort(effort(map(lines.feeding, both.rounds), basket), basket)
    if both.courts is None:
        return whole
    each = [
        effort(
            [
                lines.feeding(round_)
                for round_ in both.rounds
                if round_.player.id in {player.id for player in group.players}
            ],
            basket,
        )
        for group in both.courts.groups
    ]
    return replace(
        whole,
        minutes_quick=round(max(court.quick for court in each)),
        minutes_slow=round(max(court.slow for court in each)),
    )


def _effort(total: Effort, basket: int) -> EffortFacts:
    return EffortFacts(
        balls=total.balls,
        from_basket=total.from_basket,
        basket=basket,
        baskets=total.baskets,
        pick_ups=total.pick_ups,
        minutes_quick=round(total.quick),
        minutes_slow=round(total.slow),
    )


def _limits(both: Plans, library: Library) -> Sequence[LimitFacts]:
    """Players whose plan was cut to the limit, or (a kept one) goes beyond it."""
    left_out = {over.player.id: over.left_out for over in both.proposal.over}
    limits = []
    for standing in both.standings:
        who, limit = standing.player, standing.limit
        if limit is None:
            continue
        balls = sum(hits(r, library.ladders) for r in both.rounds if r.player.id == who.id)
        out = 0 if both.kept else left_out.get(who.id, 0)
        if out or balls > limit:
            limits.append(LimitFacts(player=who.name, limit=limit, balls=balls, left_out=out))
    return limits
