"""Blind ratings as facts: the two days by them, beside the same clips as rated on court."""

from __future__ import annotations

from courtlog.coaching.answers.blind_balls import as_rated_blind, with_grades
from courtlog.coaching.answers.player_answer import cue_answer
from courtlog.coaching.answers.rater_agreement import TwiceRatedCue, agreements
from courtlog.coaching.game.people import Clinic, Player
from courtlog.coaching.voice import blind_voice
from courtlog.coaching.voice.day_names import DayNames
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.reads.answer_lookups import StrokeHistory, stroke_histories
from courtlog.logbook.reads.film.blind_lookups import (
    BlindReading,
    blind_readings,
    coaches_on_court,
)
from courtlog.logbook.reads.film.rating_doubts import rated_blind
from courtlog.measures.shares.agreement import Agreement
from courtlog.reports.facts.answer_facts import change_facts
from courtlog.reports.facts.change_models import BlindCue, BlindReadingFacts, ShareFacts


def blind_readings_of_all(book: Book, clinic: Clinic) -> tuple[BlindReadingFacts, ...]:
    """Every blind reading of a clinic, in the order of its roster; none costs nothing."""
    with_any = {reading.page.player_id for reading in blind_readings(book, clinic)}
    return tuple(
        reading
        for player in (lookups.players(book, clinic.id) if with_any else ())
        if player.id in with_any
        for past in stroke_histories(book, clinic.id, player.id)
        for reading in blind_readings_of(book, clinic, player, past)
    )


def blind_readings_of(
    book: Book, clinic: Clinic, player: Player, past: StrokeHistory
) -> tuple[BlindReadingFacts, ...]:
    """The blind readings of one player's stroke."""
    readings = [
        reading
        for reading in blind_readings(book, clinic, player.id)
        if reading.page.stroke == past.history.stroke
    ]
    return tuple(_reading(book, player, past, reading) for reading in readings)


def blind_sentences(
    book: Book, clinic: Clinic, player: Player, past: StrokeHistory, cue: str
) -> tuple[str, ...]:
    """A few sentences for each whole blind reading of a cue: who, what came out, how alike."""
    return tuple(
        f"{reading.said.sentence} {of_cue.said.sentence} {of_cue.alike_said.sentence}"
        for reading in blind_readings_of(book, clinic, player, past)
        for of_cue in reading.cues
        if of_cue.cue == cue
    )


def share_facts(agreement: Agreement | None) -> ShareFacts | None:
    """Agreement beyond luck as facts; None without one."""
    if agreement is None:
        return None
    return ShareFacts(value=agreement.value, low=agreement.low, high=agreement.high)


def _reading(
    book: Book, player: Player, past: StrokeHistory, reading: BlindReading
) -> BlindReadingFacts:
    coaches = coaches_on_court(book, reading.page)
    own = reading.rater in coaches
    clips, rated = reading.clips, len(reading.grades)
    stroke = past.history.stroke
    twice = rated_blind(book, reading)
    cues = tuple(
        _cue(book, past, reading, coaches, [one for one in twice if one.cue == cue], cue)
        for cue in reading.page.cues * reading.is_whole
    )
    same, both = sum(cue.alike for cue in cues), sum(cue.seen_by_both for cue in cues)
    return BlindReadingFacts(
        player=player.shown_name,
        stroke=stroke,
        title=day_lookups.stroke_titles(book).get(stroke, stroke),
        page=reading.page.code,
        rater=reading.rater,
        coaches=coaches,
        own=own,
        clips=clips,
        rated=rated,
        said=(
            blind_voice.blind_reading(reading.rater, clips, own)
            if reading.is_whole
            else blind_voice.begun_reading(reading.rater, rated, clips)
        ),
        alike_said=blind_voice.alike_in_all(
            same, both, reading.rater, coaches, any(cue.in_doubt for cue in cues)
        ),
        cues=cues,
    )


def _cue(
    book: Book,
    past: StrokeHistory,
    reading: BlindReading,
    coaches: tuple[str, ...],
    twice: list[TwiceRatedCue],
    cue: str,
) -> BlindCue:
    history = past.history
    on_court = {
        ball.ball_id: {cue: grade for cue, grade in ball.grades.items() if cue in reading.page.cues}
        for ball in history.balls
        if ball.ball_id in reading.grades
    }
    as_blind = as_rated_blind(history, reading.grades)
    blind = cue_answer(as_blind, past.dates, cue, with_curve=False)
    court = cue_answer(with_grades(history, on_court), past.dates, cue, with_curve=False)
    in_doubt = court.headline is not None and court.headline.doubt is not None
    names = day_lookups.cue_names(book)
    words = day_lookups.cue_words(book).get((history.stroke, cue))
    name = names.get((history.stroke, cue), cue)
    plain = words.plain_name if words else name
    days = DayNames.of(past.dates)
    (agreement,) = agreements(twice) or (None,)
    same = sum(one.grade is not None and one.grade == one.again for one in twice)
    return BlindCue(
        cue=cue,
        name=name,
        said=blind_voice.blind_change(blind, plain, days),
        change=change_facts(blind.headline),
        coach_said=blind_voice.coach_on_clips(court, plain, coaches, days),
        coach_change=change_facts(court.headline),
        in_doubt=in_doubt,
        alike=same,
        seen_by_both=agreement.balls if agreement else 0,
        weighted=share_facts(agreement.weighted) if agreement else None,
        ac2=share_facts(agreement.ac2) if agreement else None,
        alike_said=blind_voice.alike(agreement, same, plain, reading.rater, coaches, in_doubt),
    )
