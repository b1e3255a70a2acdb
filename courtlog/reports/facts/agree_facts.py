"""How alike balls were rated twice, as facts: each number beside what it rests on."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching.answers.rater_agreement import CueAgreement, Sitting, agreements
from courtlog.coaching.game.people import Clinic
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, second_rating_lookups
from courtlog.reports.facts.blind_facts import blind_readings_of_all, share_facts
from courtlog.reports.facts.change_models import BlindReadingFacts, ShareFacts


@dataclass(frozen=True, kw_only=True)
class SittingFacts:
    """One go of the second coach."""

    number: int
    """Which go it is, from 1."""
    date: date
    """The date of its first ball."""
    balls: int
    """Balls seen both times."""
    stricter: int
    """Balls with a lower grade the second time."""
    looser: int
    """Balls with a higher grade the second time."""
    p: float
    """The exact chance that as many changes one way are luck alone."""
    enough: bool
    """Whether the changes are enough to tell."""
    drifted: bool
    """Whether the rating moved."""
    direction: str | None
    """`stricter` or `looser`; None where neither outweighs."""


@dataclass(frozen=True, kw_only=True)
class CueAgreementFacts:
    """A cue between two ratings."""

    stroke: str
    """The stroke's key."""
    title: str
    """The stroke's name."""
    cue: str
    """The cue's key."""
    name: str
    """The cue's name."""
    first: str
    """The coach who rated first."""
    second: str
    """The coach who rated again."""
    balls: int
    """Balls seen both times."""
    level: str
    """refuse, weak or normal, by the number of balls."""
    alike: float | None
    """The share of balls rated alike."""
    weighted: ShareFacts | None
    """Weighted kappa: a near is half a step."""
    ac2: ShareFacts | None
    """AC2, weighted the same, for a cue that nearly always has one grade."""
    in_doubt: bool
    """Whether no verdict may stand on the cue, because kappa and AC2 are both low."""
    sittings: tuple[SittingFacts, ...]
    """Each go of the second coach."""


@dataclass(frozen=True, kw_only=True)
class AgreeFacts:
    """Every cue of a clinic that was rated twice."""

    clinic: str
    cues: tuple[CueAgreementFacts, ...]
    blind: tuple[BlindReadingFacts, ...]
    """What was rated from clips by people who did not know the day."""


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
        blind=blind_readings_of_all(book, clinic),
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
        weighted=share_facts(agreement.weighted),
        ac2=share_facts(agreement.ac2),
        in_doubt=agreement.doubt is not None,
        sittings=tuple(map(_sitting, agreement.sittings)),
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
