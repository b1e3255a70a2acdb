"""The facts of court sheets: each player's planned rounds of a date, and spare ones to fill in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from courtlog.coaching.game.people import Clinic, Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.sheet_code import MOST, SheetCode, SheetKind, round_task
from courtlog.coaching.plans.day_plan import StrokeStanding, find_drill
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups, people_lookups
from courtlog.logbook.rows.red_flags import is_minor
from courtlog.reports.facts.plan_facts import Plans, plans
from courtlog.reports.facts.plan_lines import PlanLines

ROWS = 20
"""Numbered rows of a block; a round of more balls has several."""

BLOCKS_A_PAGE = 2

MOST_ROUNDS = MOST[SheetKind.COURT]


@dataclass(frozen=True, slots=True)
class PaperCue:
    """A cue at the head of a column."""

    key: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperRound:
    """A round to write on; a spare one has no drill, purpose and number of balls yet."""

    number: int
    """Which round of the player on that date, from 1: those planned first, then the spare ones."""
    code: SheetCode
    """What stands on the sheet to know it by."""
    stroke: str
    """The key of the stroke; empty where nothing is known of the player."""
    cues: tuple[PaperCue, ...]
    """The cues in stroke order; empty where nothing is known."""
    drill: str = ""
    """The drill's full name."""
    drill_name: str = ""
    """Its name as shown."""
    spots: tuple[str, ...] = ()
    """Where the balls go."""
    purpose: Purpose | None = None
    """Why it is played; None of a spare one."""
    balls: int = 0
    """Balls planned; 0 of a spare one."""

    @property
    def rows(self) -> int:
        """Numbered rows: whole blocks, so that a ball more than planned has its row too."""
        return max(-(-self.balls // ROWS), 1) * ROWS


@dataclass(frozen=True, slots=True, kw_only=True)
class CourtSheet:
    """All rounds of one player."""

    player: str
    """The name as shown."""
    rounds: tuple[PaperRound, ...]
    """Planned rounds in their order, then spare ones; empty of who stays off the feed."""
    held_back: bool = False
    """Whether a red keeps the player off the feed."""
    ask_first: bool = False
    """Whether the arm is to be asked about before the first ball."""
    limit: int | None = None
    """The most balls of the day."""
    to_ask: tuple[str, ...] = ()
    """What is still open on the player's card, without a value of it."""
    left_out: int = 0
    """Planned rounds for which no code is left."""
    minor: bool = False
    """Whether the player is a minor."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CourtSheets:
    """The court sheets of one date."""

    clinic: str
    """The clinic's name."""
    on: date
    """The date planned."""
    number: int
    """The day's number from 1."""
    sheets: tuple[CourtSheet, ...]
    """A sheet for each player, in the order of play."""


def court_sheets(
    book: Book,
    clinic: Clinic,
    on: date,
    library: Library,
    player: str | None = None,
    spare: int = 1,
) -> CourtSheets:
    """The sheets of everybody on the roster, or of one player. Raises CourtlogError."""
    both = plans(book, clinic, on, library)
    printer = _Printer(book, clinic, library, both)
    if player is None:
        chosen = _in_order_of_play(both, lookups.players(book, clinic.id))
    else:
        chosen = [lookups.player_on_roster(book, clinic.id, player)]
    sheets = tuple(printer.sheet(who, spare) for who in chosen)
    return CourtSheets(clinic=clinic.name, on=on, number=both.number, sheets=sheets)


class _Printer:
    """What every sheet of a date is made from."""

    def __init__(self, book: Book, clinic: Clinic, library: Library, both: Plans) -> None:
        self._book, self._clinic, self._library, self._both = book, clinic, library, both
        self._lines = PlanLines(book, library)
        self._names = day_lookups.cue_names(book)
        self._to_ask = people_lookups.still_to_ask(book, clinic.id)
        self._standings = {standing.player.id: standing for standing in both.standings}

    def sheet(self, who: Player, spare: int) -> CourtSheet:
        standing = self._standings.get(who.id)
        held_back = standing is not None and bool(standing.held_back)
        planned = [round_ for round_ in self._both.rounds if round_.player.id == who.id]
        return CourtSheet(
            player=who.shown_name,
            rounds=() if held_back else tuple(self._rounds(who, planned, standing, spare)),
            held_back=held_back,
            ask_first=standing is not None and bool(standing.ask_first),
            limit=standing.limit if standing else None,
            to_ask=self._to_ask.get(who.id, ()),
            left_out=0 if held_back else max(len(planned) - MOST_ROUNDS, 0),
            minor=is_minor(self._book.db, who.id),
        )

    def _rounds(
        self, who: Player, planned: list[PlannedRound], standing: StrokeStanding | None, spare: int
    ) -> Iterator[PaperRound]:
        rounds = [
            self._planned(who, number, round_)
            for number, round_ in enumerate(planned[:MOST_ROUNDS], 1)
        ]
        yield from rounds
        blocks = sum(round_.rows for round_ in rounds) // ROWS + spare
        if spare and blocks % BLOCKS_A_PAGE:
            spare += 1  # a page has room for it
        stroke = standing.history.stroke if standing else ""
        if planned:
            stroke = planned[-1].drill.partition("/")[0]
        for number in range(len(rounds) + 1, min(len(rounds) + spare, MOST_ROUNDS) + 1):
            yield PaperRound(
                number=number,
                code=self._code(who, number),
                stroke=stroke,
                cues=self._cues(who, stroke),
            )

    def _planned(self, who: Player, number: int, round_: PlannedRound) -> PaperRound:
        stroke = round_.drill.partition("/")[0]
        cues = self._cues(who, stroke)
        in_library = find_drill(self._library.ladders, round_.drill)
        task = round_task(round_.drill, round_.purpose, round_.balls, [cue.key for cue in cues])
        return PaperRound(
            number=number,
            code=self._code(who, number, task),
            stroke=stroke,
            cues=cues,
            drill=round_.drill,
            drill_name=self._lines.drill_name(round_.drill),
            spots=in_library[1].spots if in_library else (),
            purpose=round_.purpose,
            balls=round_.balls,
        )

    def _code(self, who: Player, number: int, task: str = "") -> SheetCode:
        return SheetCode.of(
            SheetKind.COURT, self._both.on, self._clinic.name, who.shown_name, number, task
        )

    def _cues(self, who: Player, stroke: str) -> tuple[PaperCue, ...]:
        ladder = self._library.ladders.get(stroke)
        known = {cue.key: cue.name for cue in ladder.cues} if ladder else {}
        keys = people_lookups.cues_to_rate(self._book, self._clinic.id, who.id, stroke, known) or (
            ladder.first_cues if ladder else ()
        )
        named = self._names
        return tuple(PaperCue(key, known.get(key) or named.get((stroke, key), key)) for key in keys)


def _in_order_of_play(both: Plans, roster: list[Player]) -> list[Player]:
    places = {round_.player.id: -place for place, round_ in enumerate(reversed(both.rounds))}
    return sorted(roster, key=lambda player: places.get(player.id, 1))
