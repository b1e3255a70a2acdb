"""One player's day as facts: what was made, what changed, what was said, what comes tomorrow."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching import statements, times
from courtlog.coaching.answer import stroke_answer
from courtlog.coaching.grades import DIGITS, LOOKS
from courtlog.coaching.people import Clinic, Player
from courtlog.coaching.records import CheckIn
from courtlog.coaching.rounds import Purpose
from courtlog.coaching.tomorrow import Tomorrow, tomorrow
from courtlog.logbook import day_lookups
from courtlog.logbook.answers import strokes_past
from courtlog.logbook.day_lookups import DayCounts, Noted, PlayedRound
from courtlog.logbook.opening import Book
from courtlog.logbook.reds import is_minor
from courtlog.logbook.rotation_lookups import Solo
from courtlog.reports.answer_facts import stroke_change
from courtlog.reports.arm_facts import arm_facts
from courtlog.reports.cue_facts import cue_facts
from courtlog.reports.facts import NoteFacts, PlayerDay, RoundFacts


@dataclass(frozen=True, slots=True)
class Said:
    """What was written of a player on the day."""

    clinic: Clinic
    notes: list[Noted]
    clips: list[Noted]
    check_ins: list[CheckIn]
    alone: list[Solo]


@dataclass(frozen=True, slots=True)
class Ahead:
    """What is needed to look back to the yardstick and ahead to tomorrow."""

    book: Book
    clinic: Clinic
    today: date
    next_is_last: bool
    over: bool


def player_day(
    player: Player,
    dates: list[date],
    rows: list[DayCounts],
    rounds: list[PlayedRound],
    said: Said,
    ahead: Ahead,
) -> PlayerDay:
    """The facts of one player's day; `rows` are the player's counts over these dates."""
    names = day_lookups.cue_names(ahead.book)
    titles = day_lookups.stroke_titles(ahead.book)
    seen_today = {(row.stroke, row.cue) for row in rows if row.date == dates[-1]}
    cues = [
        cue for cue in cue_facts(names, titles, rows, dates) if (cue.stroke, cue.cue) in seen_today
    ]
    minutes = [round_.minutes for round_ in rounds if round_.minutes is not None]
    strokes = strokes_past(ahead.book, ahead.clinic.id, player.id, ahead.today)
    today = [past for past in strokes if past.history.on(ahead.today).balls]
    main = today[0] if today else None
    next_day = None
    if main is not None:
        next_day = tomorrow(main.history, ahead.today, main.cues, ahead.next_is_last)
    called = (
        {}
        if main is None
        else {cue: names.get((main.history.stroke, cue), cue) for cue in main.cues}
    )
    call = next_day.call if next_day else None
    return PlayerDay(
        player=player.name,
        minor=is_minor(ahead.book.db, player.id),
        balls=sum(round_.balls for round_ in rounds),
        tough=sum(round_.tough for round_ in rounds),
        minutes=round(sum(minutes), 1) if minutes else None,
        rounds=tuple(_round_facts(round_) for round_ in rounds),
        cues=tuple(cues),
        notes=tuple(_note(note, said.clinic) for note in said.notes),
        clips=tuple(_clip(clip, said.clinic) for clip in said.clips),
        check_ins=tuple(check_in.words() for check_in in said.check_ins),
        alone=tuple(f"{solo.station} {solo.reps}" for solo in said.alone),
        arm=arm_facts(ahead.book, ahead.clinic.id, player, ahead.today, titles),
        changes=tuple(
            stroke_change(stroke_answer(p.history, p.dates, p.cues, curves=False), names, titles)
            for p in today
        ),
        rung=statements.called(call, called) if call else "",
        ready=call is not None and call.ready,
        slipping=tuple(called[c.cue] for c in call.slipping) if call else (),
        tomorrow="" if next_day is None or ahead.over else _tomorrow(next_day, ahead.book),
    )


def _tomorrow(next_day: Tomorrow, book: Book) -> str:
    """`hold on Racquet feed, two spots (what stayed overnight), then practice on ...`."""
    drills = day_lookups.drill_names(book)
    left_at = drills.get(next_day.drill, next_day.drill)
    first = next_day.proposal
    drill = drills.get(first.drill or next_day.drill, first.drill or next_day.drill)
    words = f"{first.purpose} on {drill} ({first.reason})"
    if first.purpose is Purpose.PRACTICE:
        return f"{words}."
    up = next_day.call is not None and next_day.call.ready
    return f"{words}; then practice {'one rung up from' if up else 'on'} {left_at}."


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


def _note(note: Noted, clinic: Clinic) -> NoteFacts:
    time = None if note.at is None else times.clock_words(note.at, clinic.place)
    return NoteFacts(drill=note.drill, ball=note.ball, text=note.text, time=time)


def _clip(clip: Noted, clinic: Clinic) -> NoteFacts:
    pieces = clip.text.split()
    words = [
        f"{cue} {LOOKS[DIGITS[digit]].word}"
        for cue, digit in zip(pieces[::2], pieces[1::2], strict=True)
    ]
    text = ", ".join(words) or "no cue seen"
    return _note(clip, clinic).model_copy(update={"text": text})
