"""One player's day as facts: what was made, what changed, what was said, what comes tomorrow."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from courtlog import times
from courtlog.coaching.answers.player_answer import stroke_answer
from courtlog.coaching.game.clinic_record import CheckIn
from courtlog.coaching.game.grades import DIGITS, LOOKS
from courtlog.coaching.game.people import Clinic, Player
from courtlog.coaching.plans.day_plan import StrokeStanding
from courtlog.coaching.voice import figures
from courtlog.coaching.voice.rung_voice import rung_statement
from courtlog.coaching.voice.statement import SILENCE, Statement
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, people_lookups
from courtlog.logbook.reads.answer_lookups import stroke_histories
from courtlog.logbook.reads.day_lookups import BallNote, DayCounts, PlayedRound
from courtlog.logbook.reads.paper.home_yardsticks import home_yardsticks
from courtlog.logbook.reads.player_progress import progress_of
from courtlog.logbook.reads.rotation_lookups import Solo
from courtlog.logbook.rows.red_flags import is_minor
from courtlog.reports.facts.answer_facts import home_readings_on, stroke_change
from courtlog.reports.facts.arm_facts import arm_facts
from courtlog.reports.facts.cue_facts import cue_facts
from courtlog.reports.facts.models import LookFacts, NoteFacts, PlayerDay, RoundFacts
from courtlog.reports.facts.next_day_facts import NextDay, next_rounds


@dataclass(frozen=True, slots=True)
class DayNotes:
    """What was written of a player on the day."""

    clinic: Clinic
    notes: list[BallNote]
    clips: list[BallNote]
    check_ins: list[CheckIn]
    alone: list[Solo]


@dataclass(frozen=True, slots=True)
class Outlook:
    """What is needed to look back to the yardstick and ahead to the next day."""

    book: Book
    clinic: Clinic
    today: date
    next_day: NextDay | None
    """None after the clinic's last day."""


def player_day(
    player: Player,
    dates: list[date],
    rows: list[DayCounts],
    rounds: list[PlayedRound],
    written: DayNotes,
    ahead: Outlook,
) -> PlayerDay:
    """The facts of one player's day; `rows` are the player's counts over these dates."""
    names = day_lookups.cue_names(ahead.book)
    titles = day_lookups.stroke_titles(ahead.book)
    words = day_lookups.cue_words(ahead.book)
    seen_today = {(row.stroke, row.cue) for row in rows if row.date == dates[-1]}
    cues = [
        cue for cue in cue_facts(names, titles, rows, dates) if (cue.stroke, cue.cue) in seen_today
    ]
    minutes = [round_.minutes for round_ in rounds if round_.minutes is not None]
    strokes = stroke_histories(ahead.book, ahead.clinic.id, player.id, ahead.today)
    today = [past for past in strokes if past.history.on(ahead.today).balls]
    at_home = home_yardsticks(ahead.book, ahead.clinic.id, player.id) if today else []
    standing = progress_of(ahead.book, ahead.clinic.id, player, today, ahead.today)
    cue_names = _named(standing, names)
    call = standing.call if standing else None
    next_said = SILENCE
    if standing is not None and ahead.next_day is not None:
        next_said = next_rounds(standing, ahead.next_day)
    return PlayerDay(
        player=player.shown_name,
        minor=is_minor(ahead.book.db, player.id),
        balls=sum(round_.balls for round_ in rounds),
        tough=sum(round_.tough for round_ in rounds),
        minutes=round(sum(minutes), 1) if minutes else None,
        rounds=tuple(_round_facts(round_) for round_ in rounds),
        looks=tuple(
            LookFacts(
                stroke=look.stroke,
                title=look.title,
                strengths=look.strengths,
                cues=look.cues,
                why=look.why,
                main=look.main,
            )
            for look in people_lookups.focuses_in_words(ahead.book, ahead.clinic.id, player.id)
            if look.on <= ahead.today
        ),
        cues=tuple(cues),
        notes=tuple(_note(note, written.clinic) for note in written.notes),
        clips=tuple(_clip(clip, written.clinic) for clip in written.clips),
        check_ins=tuple(check_in.words() for check_in in written.check_ins),
        alone=tuple(f"{solo.station} {solo.reps}" for solo in written.alone),
        arm=arm_facts(ahead.book, ahead.clinic.id, player, ahead.today, titles, written.check_ins),
        changes=tuple(
            replace(
                stroke_change(
                    stroke_answer(p.history, p.dates, p.cues, curves=False), names, titles, words
                ),
                home=home_readings_on(ahead.today, at_home, p.history, p.dates, words),
            )
            for p in today
        ),
        rung=f"{figures.rung_call_words(call, cue_names)}." if call else "",
        ready=call is not None and call.ready,
        slipping=tuple(cue_names[c.cue] for c in call.slipping) if call else (),
        tomorrow=next_said.figures,
        rung_said=rung_said(ahead.book, standing),
        rung_stroke=standing.history.stroke if standing else "",
        next_said=next_said,
    )


def rung_said(book: Book, standing: StrokeStanding | None) -> Statement:
    """The rung call of a player's stroke as a statement; nothing without a cue practised."""
    call = standing.call if standing else None
    if standing is None or call is None:
        return SILENCE
    words = {key: told.plain_name for key, told in day_lookups.cue_words(book).items()}
    drills = day_lookups.drill_names(book)
    drill = drills.get(standing.left_on.drill, "this drill")
    return rung_statement(call, _named(standing, words), drill)


def _named(standing: StrokeStanding | None, names: Mapping[tuple[str, str], str]) -> dict[str, str]:
    """The names of the stroke's cues by key."""
    if standing is None:
        return {}
    return {cue: names.get((standing.history.stroke, cue), cue) for cue in standing.cues}


def _round_facts(played: PlayedRound) -> RoundFacts:
    return RoundFacts(
        drill=played.drill,
        name=played.drill_name,
        rung=played.rung,
        purpose=played.purpose,
        balls=played.balls,
        tough=played.tough,
        minutes=None if played.minutes is None else round(played.minutes, 1),
    )


def _note(note: BallNote, clinic: Clinic) -> NoteFacts:
    time = None if note.at_ms is None else times.clock_words(note.at_ms, clinic.place)
    return NoteFacts(drill=note.drill, ball=note.ball_number, text=note.text, time=time)


def _clip(clip: BallNote, clinic: Clinic) -> NoteFacts:
    pieces = clip.text.split()
    words = [
        f"{cue} {LOOKS[DIGITS[digit]].word}"
        for cue, digit in zip(pieces[::2], pieces[1::2], strict=True)
    ]
    text = ", ".join(words) or "no cue seen"
    return replace(_note(clip, clinic), text=text)
