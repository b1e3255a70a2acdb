"""How alike balls were rated twice, as facts: each number beside what it rests on."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching.answers.rater_agreement import CueAgreement, Sitting, agreements
from courtlog.coaching.game.people import Clinic
from courtlog.logbook.file.opening import Book
from courtlog.logbook.reads import day_lookups, second_rating_lookups
from courtlog.measures.shares.agreement import Agreement


@dataclass(frozen=True, kw_only=True)
class ShareFacts:
    """Agreement beyond luck with its interval: 1 is full agreement, 0 what luck gives."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, kw_only=True)
class SittingFacts:
    """One go of the second coach; p is exact, that as many changes one way are luck alone."""

    number: int
    date: date
    balls: int
    stricter: int
    looser: int
    p: float
    enough: bool
    drifted: bool
    direction: str | None


@dataclass(frozen=True, kw_only=True)
class CueAgreementFacts:
    """A cue between two ratings; `weighted` counts near as half, `ac1` holds where one grade rules.

    `level` is refuse, weak or normal, by the number of balls.
    """

    stroke: str
    title: str
    cue: str
    name: str
    first: str
    second: str
    balls: int
    level: str
    alike: float | None
    weighted: ShareFacts | None
    ac1: ShareFacts | None
    in_doubt: bool
    sittings: tuple[SittingFacts, ...]


@dataclass(frozen=True, kw_only=True)
class AgreeFacts:
    """Every cue of a clinic that was rated twice."""

    clinic: str
    cues: tuple[CueAgreementFacts, ...]


def agree_facts(book: Book, clinic: Clinic) -> AgreeFacts:
    """The facts of one clinic."""
    names, titles = day_lookups.cue_names(book), day_lookups.stroke_titles(book)
    found = agreements(second_rating_lookups.rated_twice(book, clinic.id))
    return AgreeFacts(
        clinic=clinic.name,
        cues=tuple(
            _cue(a, names.get((a.stroke, a.cue), a.cue), titles.get(a.stroke, a.stroke))
            for a in found
        ),
    )


def _cue(found: CueAgreement, name: str, title: str) -> CueAgreementFacts:
    return CueAgreementFacts(
        stroke=found.stroke,
        title=title,
        cue=found.cue,
        name=name,
        first=found.first,
        second=found.second,
        balls=found.balls,
        level=found.level.value,
        alike=found.alike,
        weighted=_share(found.weighted),
        ac1=_share(found.sure),
        in_doubt=found.doubt is not None,
        sittings=tuple(map(_sitting, found.sittings)),
    )


def _share(found: Agreement | None) -> ShareFacts | None:
    return None if found is None else ShareFacts(value=found.value, low=found.low, high=found.high)


def _sitting(found: Sitting) -> SittingFacts:
    return SittingFacts(
        number=found.number,
        date=found.on,
        balls=found.balls,
        stricter=found.drift.stricter,
        looser=found.drift.looser,
        p=found.drift.p,
        enough=found.drift.enough,
        drifted=found.drift.drifted,
        direction=found.drift.direction,
    )
