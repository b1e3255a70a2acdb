"""Planned rounds as they are printed, and the names of what is in them."""

from __future__ import annotations

from courtlog.coaching.game.drills import Feed
from courtlog.coaching.plans.day_plan import StrokeStanding, find_drill
from courtlog.coaching.plans.plan_edits import Plan
from courtlog.coaching.plans.plan_effort import FedRound
from courtlog.coaching.plans.planned_round import PlannedRound, in_blocks
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups
from courtlog.reports.facts.plan_models import PlanLine


class PlanLines:
    """Planned rounds as they are printed: with the drill's name and rung."""

    def __init__(self, book: Book, library: Library) -> None:
        self._ladders = library.ladders
        self._used = day_lookups.drill_names(book)
        self._titles = day_lookups.stroke_titles(book)
        self._cues = day_lookups.cue_names(book)
        self._words = day_lookups.cue_words(book)

    def cue_names(self, standing: StrokeStanding) -> dict[str, str]:
        """The names of the player's cues, as their figures have them."""
        stroke = standing.history.stroke
        return {cue: self._cues.get((stroke, cue), cue) for cue in standing.cues}

    def plain_names(self, standing: StrokeStanding) -> dict[str, str]:
        """The same as sentences have them."""
        stroke = standing.history.stroke
        return {
            cue: self._words[stroke, cue].plain_name if (stroke, cue) in self._words else name
            for cue, name in self.cue_names(standing).items()
        }

    def drill_name(self, drill: str) -> str:
        """The drill's name as the library has it, else as it was used."""
        ladder_drill = find_drill(self._ladders, drill)
        return ladder_drill[1].name if ladder_drill else self._used.get(drill, drill)

    def blocks(self, rounds: Plan) -> tuple[tuple[PlanLine, ...], ...]:
        """Numbered from 1 through all blocks."""
        places = iter(range(1, len(rounds) + 1))
        return tuple(
            tuple(self.line(next(places), round_) for round_ in block)
            for block in in_blocks(rounds)
        )

    def line(self, place: int, round_: PlannedRound) -> PlanLine:
        ladder_drill = find_drill(self._ladders, round_.drill)
        return PlanLine(
            place=place,
            player=round_.player.shown_name,
            drill=round_.drill,
            name=self.drill_name(round_.drill),
            stroke=ladder_drill[0].title
            if ladder_drill
            else self._titles.get(round_.drill.partition("/")[0], ""),
            rung=ladder_drill[1].rung if ladder_drill else None,
            top=ladder_drill[0].top if ladder_drill else None,
            purpose=round_.purpose,
            balls=round_.balls,
            reason=round_.reason,
        )

    def feeding(self, round_: PlannedRound) -> FedRound:
        """How its balls come; a drill the library no longer has is taken for a hand feed."""
        ladder_drill = find_drill(self._ladders, round_.drill)
        stroke = round_.drill.partition("/")[0]
        return FedRound(stroke, ladder_drill[1].feed if ladder_drill else Feed.HAND, round_.balls)
