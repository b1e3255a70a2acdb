"""The facts of a day, its heat, and of a player's answer, put together from the book."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from datetime import date
from typing import TypeVar

from courtlog import times
from courtlog.coaching.answers.player_answer import stroke_answer
from courtlog.coaching.care.heat_care import HeatLines, HeatReading, heat_words
from courtlog.coaching.game.people import Clinic, Day
from courtlog.coaching.plans.day_fairness import fairness
from courtlog.coaching.voice.fairness_voice import missing_court
from courtlog.coaching.voice.statement import SILENCE
from courtlog.errors import UnknownNameError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import (
    care_lookups,
    clinic_lookups,
    day_lookups,
    lookups,
    rotation_lookups,
)
from courtlog.logbook.reads.answer_lookups import stroke_histories
from courtlog.logbook.reads.care_lookups import heat_on
from courtlog.logbook.reads.clinic_lookups import next_planned
from courtlog.logbook.reads.courts.feed_shares import fairness_on, missing_courts
from courtlog.logbook.reads.day_lookups import BallNote, PlayedRound
from courtlog.logbook.reads.paper.home_yardsticks import home_yardsticks
from courtlog.logbook.reads.player_progress import progress_of
from courtlog.logbook.reads.rotation_lookups import Solo, next_order
from courtlog.reports.facts.answer_facts import home_readings, only_at_home, stroke_change
from courtlog.reports.facts.arm_facts import absent, arm_said
from courtlog.reports.facts.blind_facts import blind_readings_of
from courtlog.reports.facts.models import DayFacts, HeatFacts, PlayerFacts
from courtlog.reports.facts.next_day_facts import next_day
from courtlog.reports.facts.player_day_facts import DayNotes, Outlook, player_day, rung_said

Row = TypeVar("Row", PlayedRound, BallNote, Solo)


def day_facts(book: Book, clinic: Clinic, on: date | None, player: str | None) -> DayFacts:
    """The facts of a date (None: the latest). Raises UnknownNameError for a date or player."""
    days = lookups.days(book, clinic.id)
    chosen = _days_of(days, on)
    on = chosen[0].date
    roster = lookups.players(book, clinic.id)
    if player is not None:
        roster = [lookups.player_on_roster(book, clinic.id, player)]
    rounds = _by_player(day_lookups.rounds_on(book, clinic.id, on))
    notes = _by_player(day_lookups.notes_on(book, clinic.id, on))
    clips = _by_player(day_lookups.clips_on(book, clinic.id, on))
    check_ins = day_lookups.check_ins_on(book, clinic.id, on)
    alone = _by_player([solo for day in chosen for solo in rotation_lookups.solos(book, day.id)])
    dates = lookups.dates(book, clinic.id, on)
    gone = missing_courts(book, clinic.id, on) if player is None else ()
    awaited = {name for court in gone for name in court.players}
    over_courts = fairness_on(book, clinic.id, on) if player is None and len(chosen) > 1 else None
    away = rotation_lookups.noted_away(book, [day.id for day in chosen])
    present = [
        who for who in roster if who.id in rounds or who.id in check_ins or player is not None
    ]
    last = clinic.planned_days
    next_is_last = last is not None and chosen[0].number + 1 >= last
    over = last is not None and chosen[0].number >= last
    ahead = Outlook(book, clinic, on, None if over else next_day(book, clinic, on, next_is_last))
    players = tuple(
        player_day(
            who,
            dates,
            day_lookups.counts_by_day(book, clinic.id, who.id),
            rounds[who.id],
            DayNotes(
                clinic, notes[who.id], clips[who.id], check_ins.get(who.id, []), alone[who.id]
            ),
            ahead,
        )
        for who in present
    )
    return DayFacts(
        clinic=clinic.name,
        zone=clinic.zone,
        date=on,
        number=chosen[0].number,
        planned_days=clinic.planned_days,
        dates=tuple(dates),
        courts=tuple(day.court for day in chosen if day.court),
        coaches=tuple(dict.fromkeys(day.coach for day in chosen if day.coach)),
        players=players,
        absent=tuple(
            absent(book, clinic.id, who, on, away)
            for who in roster
            if who not in present and who.shown_name not in awaited
        ),
        fair=_fair(book, clinic, chosen) if player is None else (),
        over_courts=over_courts,
        crowded=SILENCE if over_courts is None else over_courts.crowded,
        missing=tuple(missing_court(court.court, court.players) for court in gone),
        heat=heat_facts(book, clinic, on),
        morning=() if over else tuple(who.shown_name for who in next_order(book, clinic.id, on)),
        morning_is_planned=next_planned(book, clinic.id, on) is not None,
    )


def player_facts(book: Book, clinic: Clinic, player: str) -> PlayerFacts:
    """The player's answer over the whole clinic. Raises UnknownNameError."""
    who = lookups.player_on_roster(book, clinic.id, player)
    names = day_lookups.cue_names(book)
    titles = day_lookups.stroke_titles(book)
    words = day_lookups.cue_words(book)
    dates = lookups.dates(book, clinic.id)
    strokes = stroke_histories(book, clinic.id, who.id)
    standing = progress_of(book, clinic.id, who, strokes, dates[-1]) if strokes else None
    at_home = home_yardsticks(book, clinic.id, who.id)
    on = dates[-1] if dates else date.min
    check_ins = day_lookups.check_ins_on(book, clinic.id, on).get(who.id, [])
    said, standing_caution = arm_said(book, clinic.id, who, on, check_ins)
    return PlayerFacts(
        clinic=clinic.name,
        player=who.shown_name,
        dates=tuple(dates),
        changes=tuple(
            replace(
                stroke_change(stroke_answer(p.history, p.dates, p.cues), names, titles, words),
                blind=blind_readings_of(book, clinic, who, p),
                home=home_readings(at_home, p.history, p.dates, words),
            )
            for p in strokes
        )
        + only_at_home(at_home, [p.history.stroke for p in strokes], dates, titles, words),
        rung_said=rung_said(book, standing),
        rung_stroke=standing.history.stroke if standing else "",
        arm_said=said,
        waits=standing_caution is not None,
    )


def _days_of(days: list[Day], on: date | None) -> list[Day]:
    if not days:
        raise UnknownNameError("This clinic has no day yet.", "`courtlog` begins one.")
    wanted = days[-1].date if on is None else on
    courts = [day for day in days if day.date == wanted]
    if not courts:
        known = ", ".join(dict.fromkeys(day.date.isoformat() for day in days))
        raise UnknownNameError(f"The clinic has no day on {wanted}.", f"It has {known}.")
    return courts


def _fair(book: Book, clinic: Clinic, days: list[Day]) -> tuple[str, ...]:
    """How evenly balls and waits went round on each court, among those who stayed."""
    lines = []
    for day in days:
        roster = lookups.players(book, clinic.id)
        off = rotation_lookups.over_limit(book, clinic.id, day.id)
        off |= care_lookups.held_back(book, clinic.id, day.id)
        court = rotation_lookups.court(book, clinic.id, day.id, roster, off)
        hit = {turn.player for turn in court.turns}
        court = replace(court, roster=tuple(player for player in roster if player.id in hit))
        if len(court.present) > 1:
            ends = [turn.ended_at or turn.started_at or 0 for turn in court.turns]
            where = f"court {day.court}: " if len(days) > 1 else ""
            lines.append(where + fairness(court, max(ends)).words())
    return tuple(lines)


def _by_player(rows: list[Row]) -> dict[int, list[Row]]:
    by_player: dict[int, list[Row]] = defaultdict(list)
    for row in rows:
        by_player[row.player_id].append(row)
    return by_player


def heat_facts(book: Book, clinic: Clinic, on: date) -> HeatFacts | None:
    """The last reading of that date, against the clinic's own lines; None where none was taken."""
    readings = heat_on(book, clinic.id, on)
    if not readings:
        return None
    return reading_facts(readings[-1], clinic_lookups.plan(book, clinic.id).heat_lines, clinic)


def reading_facts(reading: HeatReading, lines: HeatLines, clinic: Clinic) -> HeatFacts:
    """One reading as facts."""
    return HeatFacts(
        celsius=reading.celsius,
        humidity=reading.humidity,
        wbgt=reading.wbgt,
        time=times.clock_words(reading.at_ms, clinic.place),
        words=heat_words(reading, lines),
    )
