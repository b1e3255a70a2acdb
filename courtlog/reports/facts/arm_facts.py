"""A player's arm on one day as facts: what it did, what was said of it, what cautions stand."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from datetime import date, timedelta

from courtlog import times
from courtlog.coaching.care.arm_care import CautionLevel
from courtlog.coaching.care.arm_load import SERVE, week_words
from courtlog.coaching.game.clinic_record import CheckIn
from courtlog.coaching.game.people import Player
from courtlog.coaching.voice.arm_voice import arm_statement
from courtlog.coaching.voice.statement import Statement
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import care_lookups
from courtlog.measures.court_day.load import DAYS
from courtlog.reports.facts.models import AbsentPlayer, ArmFacts, RedFacts, StrokeHits, WordFacts


def arm_facts(
    book: Book,
    clinic_id: int,
    player: Player,
    on: date,
    titles: Mapping[str, str],
    check_ins: Sequence[CheckIn],
) -> ArmFacts:
    """The facts of a player's arm on this date, with every red of the clinic up to it."""
    hits = care_lookups.full_speed_hits(book, clinic_id, player.id, on)
    loads = care_lookups.loads_by_date(book, clinic_id, player.id)
    last_days = [on - timedelta(days=back) for back in reversed(range(DAYS))]
    cautions = care_lookups.cautions_on(book, clinic_id, player.id, on)
    reds = [red for red in care_lookups.reds(book, clinic_id, on) if red.player_id == player.id]
    said, standing = arm_said(book, clinic_id, player, on, check_ins)
    return ArmFacts(
        full_speed=tuple(
            StrokeHits(stroke=stroke, title=titles.get(stroke, stroke), hits=balls)
            for stroke, balls in hits.items()
            if stroke != SERVE
        ),
        serves=hits.get(SERVE, 0),
        load=loads.get(on),
        week=week_words([loads.get(day) for day in last_days]) if loads else "",
        usual_week=care_lookups.usual_week(book, clinic_id, player.id),
        ambers=tuple(
            f"{caution.headline} ({caution.source})"
            for caution in cautions
            if caution.level is CautionLevel.AMBER
        ),
        reds=tuple(
            RedFacts(
                date=red.date,
                reason=red.reason,
                words=tuple(WordFacts(who=word.who, text=word.text) for word in red.words),
            )
            for red in reds
        ),
        said=said,
        waits=standing is not None,
    )


def arm_said(
    book: Book, clinic_id: int, player: Player, on: date, check_ins: Sequence[CheckIn]
) -> tuple[Statement, CautionLevel | None]:
    """What is said of an arm after that date, and the caution that all hitting waits for."""
    reds = care_lookups.standing_reds(book, clinic_id, player.id, on)
    next_day = on + timedelta(days=1)
    standing = care_lookups.standing_amber_of(book, clinic_id, player.id, next_day, known_on=on)
    amber = care_lookups.worst_amber_on(book, clinic_id, player.id, on)
    if standing is not None and not amber:
        amber = f"{standing.reason} on {times.date_words(standing.date)}"
    said = arm_statement(check_ins, reds[-1].reason if reds else "", amber, standing is not None)
    if reds:
        return said, CautionLevel.RED
    return said, CautionLevel.AMBER if standing is not None else None


def absent(
    book: Book, clinic_id: int, player: Player, on: date, away: Collection[int]
) -> AbsentPlayer:
    """A player without a ball on that date, with the caution that still stands.

    `away` are the ids of those who were noted as not there.
    """
    _, standing = arm_said(book, clinic_id, player, on, ())
    return AbsentPlayer(
        player=player.shown_name,
        standing="" if standing is None else standing,
        away=player.id in away,
    )
