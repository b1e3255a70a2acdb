"""How alike balls were rated twice, as facts: each number beside what it rests on."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching.answers.rater_agreement import CueAgreement, Sitting, agreements
from courtlog.coaching.game.people import Clinic
from courtlog.logbook.file.book import Book
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
    cue_agreements = agreements(second_rating_lookups.rated_twice(book, clinic.id))
    return AgreeFacts(
        clinic=clinic.name,
        cues=tuple(
            _cue(a, names.get((a.stroke, a.cue), a.cue), titles.get(a.stroke, a.stroke))
            for a in cue_agreements
        ),
    )


def _cue(agreement: CueAgreement, name: str, title: str) -> CueAgreementFacts:
    return CueAgreementFacts(
        stroke=agreement.stroke,
        title=title,
        cue=agreement.cue,
        name=name,
        first=agreement.first,
        second=agreement.second,
        balls=agreement.balls,
        level=agreement.level.value,
        alike=agreement.alike,
        weighted=_share(agreement.weighted),
        ac1=_share(agreement.sure),
        in_doubt=agreement.doubt is not None,
        sittings=tuple(map(_sitting, agreement.sittings)),
    )


def _share(agreement: Agreement | None) -> ShareFacts | None:
    return (
        None
        if agreement is None
        else ShareFacts(value=agreement.value, low=agreement.low, high=agreement.high)
    )


def _sitting(sitting: Sitting) -> SittingFacts:
    return SittingFacts(
        number=sitting.number,
        date=sitting.on,
        balls=sitting.balls,
        stricter=sitting.drift.stricter,
        looser=sitting.drift.looser,
        p=sitting.drift.p,
        enough=sitting.drift.enough,
        drifted=sitting.drift.drifted,
        direction=sitting.drift.direction,
    )
