"""The facts of a take-home sheet: one player's own balls and plan, nothing of anybody else."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching.answers.cue_curve import Curve
from courtlog.coaching.answers.not_seen import not_seen_words
from courtlog.coaching.answers.player_answer import CueAnswer, stroke_answer
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.plans import homework
from courtlog.coaching.plans.homework import Homework
from courtlog.coaching.voice import answer_figures
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups, people_lookups
from courtlog.logbook.reads.answer_lookups import StrokeHistory, stroke_histories
from courtlog.logbook.rows.red_flags import is_minor
from courtlog.reports.layout.person_lines import strengths_words
from courtlog.reports.layout.signs import OTHER_DRILLS


@dataclass(frozen=True, slots=True)
class CueLine:
    """One cue: counts by date, what changed in words (practice only where it can be told).

    `other_drills` says of each date whether its drills are others than the first one's.
    """

    name: str
    days: tuple[Counts, ...]
    other_drills: tuple[bool, ...]
    learned: str
    practice: str
    curve: Curve | None
    curve_words: str

    def day_words(self, index: int) -> str:
        """`14 of 20 (70%)` of that date (0-based), marked where its drills are others."""
        return self.days[index].words() + OTHER_DRILLS * self.other_drills[index]


@dataclass(frozen=True, slots=True)
class Pain:
    """The highest pain (0-10) the player told, its place and the day's number."""

    level: int
    place: str
    day: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeHome:
    """All that stands on a player's sheet."""

    player: str
    """The player's name."""
    clinic: str
    """The clinic's name."""
    zone: str
    """Its time zone."""
    dates: tuple[date, ...]
    """Its dates so far."""
    coaches: tuple[str, ...]
    """Who rated."""
    stroke: str = ""
    """The stroke's key; empty without balls."""
    title: str = ""
    """The stroke's name."""
    well: tuple[str, ...] = ()
    """What goes well, in sentences."""
    cues: tuple[CueLine, ...] = ()
    """One line for each cue."""
    others: tuple[str, ...] = ()
    """Other strokes, one sentence each."""
    plan: Homework | None = None
    """What to do at home; None without a ladder."""
    first_cues: tuple[str, ...] = ()
    """The ladder's first cues."""
    pain: Pain | None = None
    """What was said of pain; None where nothing was."""
    minor: bool = False
    """Whether the player is a minor."""


def take_home(book: Book, clinic: Clinic, player: str, library: Library) -> TakeHome:
    """The sheet of the player of that name. Raises UnknownNameError."""
    who = lookups.player_on_roster(book, clinic.id, player)
    days = lookups.days(book, clinic.id)
    dates = tuple(sorted({day.date for day in days}))
    coaches = tuple(dict.fromkeys(day.coach for day in days if day.coach))
    pain = _pain(book, clinic, who.id, dates)
    minor = is_minor(book.db, who.id)
    empty = TakeHome(
        player=who.shown_name,
        clinic=clinic.name,
        zone=clinic.zone,
        dates=dates,
        coaches=coaches,
        pain=pain,
        minor=minor,
    )
    strokes = stroke_histories(book, clinic.id, who.id)
    if not strokes:
        return empty
    names = day_lookups.cue_names(book)
    main, *rest = strokes
    stroke = main.history.stroke
    answer = stroke_answer(main.history, main.dates, main.cues)
    named = {cue.cue: names.get((stroke, cue.cue), cue.cue) for cue in answer.cues}
    ladder = library.ladders.get(stroke)
    plan = None
    if ladder is not None:
        rung = homework.current_rung(main.history)
        level = pain.level if pain else 0
        plan = homework.homework(main.history, answer, ladder, rung, level)
    return TakeHome(
        player=who.shown_name,
        clinic=clinic.name,
        zone=clinic.zone,
        dates=dates,
        coaches=coaches,
        stroke=stroke,
        title=ladder.title if ladder else stroke,
        well=strengths_words(
            people_lookups.focuses_in_words(book, clinic.id, who.id), stroke, dates
        )
        + homework.going_well(answer, named),
        cues=tuple(_cue_line(cue, named[cue.cue]) for cue in homework.ups_first(answer.cues)),
        others=tuple(_other(past, names, library) for past in rest),
        plan=plan,
        first_cues=ladder.first_cues if ladder else (),
        pain=pain,
        minor=minor,
    )


def _cue_line(cue: CueAnswer, name: str) -> CueLine:
    practice = ""
    if cue.practice is not None and cue.practice.bears_statement:
        practice = answer_figures.practice_words(cue)
    return CueLine(
        name,
        cue.days,
        cue.other_drills,
        answer_figures.learning_words(cue),
        practice,
        cue.curve,
        answer_figures.cue_curve_words(cue),
    )


def _other(past: StrokeHistory, names: dict[tuple[str, str], str], library: Library) -> str:
    """Another stroke in one line: its counts, and what was learned where that can be told."""
    stroke = past.history.stroke
    ladder = library.ladders.get(stroke)
    answer = stroke_answer(past.history, past.dates, past.cues, curves=False)
    named = [(names.get((stroke, cue.cue), cue.cue), cue) for cue in answer.cues]
    counts = ", ".join(f"{name} {_in_full(cue.all)}" for name, cue in named)
    lines = [
        f"{name}: {answer_figures.learning_words(cue)}"
        for name, cue in named
        if cue.learning is not None and cue.learning.bears_statement
    ]
    words = " ".join(lines) or "No change is claimed."
    return f"{ladder.title if ladder else stroke}: made {counts}, all days together. {words}"


def _in_full(counts: Counts) -> str:
    """`14 of 20 (70%)`, with the balls not seen where they leave the share open."""
    not_seen = not_seen_words(counts)
    return f"{counts.words()}, {not_seen}" if not_seen else counts.words()


def _pain(book: Book, clinic: Clinic, player_id: int, dates: tuple[date, ...]) -> Pain | None:
    lines = [
        Pain(check_in.pain, check_in.place, number)
        for number, on in enumerate(dates, 1)
        for check_in in day_lookups.check_ins_on(book, clinic.id, on).get(player_id, [])
        if check_in.pain
    ]
    return max(lines, key=lambda pain: pain.level) if lines else None
