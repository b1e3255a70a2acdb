"""The facts of a take-home sheet: one player's own balls and plan, nothing of anybody else."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

from courtlog.coaching.answers.cue_curve import Curve
from courtlog.coaching.answers.not_seen import not_seen_words
from courtlog.coaching.answers.player_answer import CueAnswer, StrokeAnswer, stroke_answer
from courtlog.coaching.care.home_care import ToldPain, hitting_waits_for, worst_pain
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.plans import homework
from courtlog.coaching.plans.homework import Homework
from courtlog.coaching.voice import answer_figures
from courtlog.coaching.voice.change_voice import cue_change
from courtlog.coaching.voice.day_names import DayNames
from courtlog.coaching.voice.statement import SILENCE, Statement
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import care_lookups, day_lookups, lookups, people_lookups
from courtlog.logbook.reads.answer_lookups import StrokeHistory, stroke_histories
from courtlog.logbook.rows.red_flags import check_ins_of, is_minor
from courtlog.measures.common.enough import Level, Question, level
from courtlog.reports.facts.answer_facts import stroke_change
from courtlog.reports.facts.change_models import StrokeChange
from courtlog.reports.layout.person_lines import strengths_words
from courtlog.reports.layout.signs import OTHER_DRILLS

DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class CueLine:
    """The figures of one cue; a minor's are its counts alone."""

    name: str
    """The cue's name."""
    days: tuple[Counts, ...]
    """Its counts by date."""
    other_drills: tuple[bool, ...]
    """For each date whether its drills are others than the first one's."""
    counts_only: bool = False
    """Whether no percentage, interval or curve is shown, as on a minor's sheet."""
    learned: str = ""
    """What changed in uncoached balls, in figures."""
    reason: str = ""
    """How sure that is, in words."""
    practice: str = ""
    """What changed in practice, where it can be told."""
    curve: Curve | None = None
    """The skill curve."""
    curve_words: str = ""
    """Where the curve ends, in words."""

    def day_words(self, index: int) -> str:
        """`14 of 20 (70%)` of that date (0-based), marked where its drills are others."""
        counts = self.days[index]
        words = counts.of_words() if self.counts_only else counts.words()
        return words + OTHER_DRILLS * self.other_drills[index]


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
    change: StrokeChange | None = None
    """What is said of the stroke; None without balls."""
    played: int = 0
    """Days with a ball of the stroke."""
    good_on: date | None = None
    """The date of the good thing and the one thing: the last one with a ball seen."""
    can_compare: bool = False
    """Whether uncoached balls of any cue are enough to be held against the first ones."""
    told_first: Statement = SILENCE
    """The change of one cue that is told where there is room for one; empty where none can be."""
    written: tuple[str, ...] = ()
    """What the coach wrote of the player, quoted."""
    well: tuple[str, ...] = ()
    """What goes well, in figures."""
    cues: tuple[CueLine, ...] = ()
    """One line for each cue."""
    others: tuple[str, ...] = ()
    """Other strokes, one sentence each."""
    plan: Homework | None = None
    """What to do at home; None without a ladder, and while hitting waits."""
    first_cues: tuple[str, ...] = ()
    """The ladder's first cues."""
    pain: ToldPain | None = None
    """The highest pain the player told; None where none was."""
    waits: ToldPain | None = None
    """What hitting waits for, until a clinician has spoken; None where it does not."""
    minor: bool = False
    """Whether the player is a minor."""


def take_home(book: Book, clinic: Clinic, player: str, library: Library) -> TakeHome:
    """The sheet of the player of that name. Raises UnknownNameError."""
    who = lookups.player_on_roster(book, clinic.id, player)
    days = lookups.days(book, clinic.id)
    dates = tuple(sorted({day.date for day in days}))
    coaches = tuple(dict.fromkeys(day.coach for day in days if day.coach))
    check_ins = [asked for _, asked in check_ins_of(book.db, clinic.id, who.id)]
    minor = is_minor(book.db, who.id)
    reds = care_lookups.standing_reds(book, clinic.id, who.id, dates[-1]) if dates else []
    amber = None
    if dates:
        amber = care_lookups.standing_amber_of(book, clinic.id, who.id, dates[-1] + DAY)
    waits = hitting_waits_for(check_ins, [red.date for red in reds], amber.told if amber else None)
    empty = TakeHome(
        player=who.shown_name,
        clinic=clinic.name,
        zone=clinic.zone,
        dates=dates,
        coaches=coaches,
        pain=worst_pain(check_ins),
        waits=waits,
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
    if ladder is not None and waits is None:
        rung = homework.current_rung(main.history)
        plan = homework.homework(main.history, answer, ladder, rung)
    titles, words = day_lookups.stroke_titles(book), day_lookups.cue_words(book)
    change = stroke_change(answer, names, titles, words)
    reasons = {cue.cue: cue.said.change.reason for cue in change.cues}
    focuses = people_lookups.focuses_in_words(book, clinic.id, who.id)
    return replace(
        empty,
        stroke=stroke,
        title=ladder.title if ladder else stroke,
        change=change,
        played=len(main.history.days),
        good_on=answer.dates[answer.last_day],
        can_compare=_can_compare(answer),
        told_first=_told_first(answer, change),
        written=strengths_words(focuses, stroke, dates),
        well=homework.going_well(answer, named, counts_only=minor),
        cues=tuple(
            _cue_line(cue, named[cue.cue], reasons[cue.cue], minor)
            for cue in homework.ups_first(answer.cues)
        ),
        others=tuple(_other(past, names, library, minor) for past in rest),
        plan=plan,
        first_cues=ladder.first_cues if ladder else (),
    )


def _cue_line(cue: CueAnswer, name: str, reason: str, minor: bool) -> CueLine:
    counts = CueLine(name=name, days=cue.days, other_drills=cue.other_drills, counts_only=minor)
    if minor:
        return counts
    practice = ""
    if cue.practice is not None and cue.practice.bears_statement:
        practice = answer_figures.practice_words(cue)
    return replace(
        counts,
        learned=answer_figures.learning_words(cue),
        reason=reason,
        practice=practice,
        curve=cue.curve,
        curve_words=answer_figures.cue_curve_words(cue),
    )


def _can_compare(answer: StrokeAnswer) -> bool:
    sides = (cue.headline for cue in answer.cues)
    seen = (min(one.late.seen, one.early.seen) for one in sides if one is not None)
    return any(level(Question.RATE, balls) is Level.NORMAL for balls in seen)


def _told_first(answer: StrokeAnswer, change: StrokeChange) -> Statement:
    """What went up, else what went down, else what the balls leave open."""
    days = DayNames.of(answer.dates)
    told = [
        (("up", "down", "open").index(way), cue_change(asked, cue.plain_name, days))
        for cue, asked in zip(change.cues, answer.cues, strict=True)
        if (way := _way(asked))
    ]
    return min(told, key=lambda ranked: ranked[0], default=(0, SILENCE))[1]


def _way(cue: CueAnswer) -> str:
    headline = cue.headline
    if headline is None or not headline.bears_statement:
        return ""
    return {1: "up", -1: "down", 0: "open"}[headline.verdict.direction]


def _other(
    past: StrokeHistory, names: dict[tuple[str, str], str], library: Library, minor: bool
) -> str:
    """Another stroke in one line: its counts, and what was learned where that can be told."""
    stroke = past.history.stroke
    ladder = library.ladders.get(stroke)
    answer = stroke_answer(past.history, past.dates, past.cues, curves=False)
    named = [(names.get((stroke, cue.cue), cue.cue), cue) for cue in answer.cues]
    counts = ", ".join(f"{name} {_in_full(cue.all, minor)}" for name, cue in named)
    lines = [
        f"{name}: {answer_figures.learning_words(cue)}"
        for name, cue in named
        if cue.learning is not None and cue.learning.bears_statement and not minor
    ]
    words = " ".join(lines) or "No change is claimed."
    return f"{ladder.title if ladder else stroke}: made {counts}, all days together. {words}"


def _in_full(counts: Counts, counts_only: bool) -> str:
    """`14 of 20 (70%)`, with the balls not seen where they leave the share open."""
    words = counts.of_words() if counts_only else counts.words()
    not_seen = not_seen_words(counts)
    return f"{words}, {not_seen}" if not_seen else words
