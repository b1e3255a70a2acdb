"""How alike balls were rated twice, as a printed page in plain sentences."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog import times
from courtlog.measures.common.enough import MINIMUMS, Question, Words
from courtlog.measures.shares.agreement import LEAST_KAPPA, agreement_word
from courtlog.plain_text import many, plain
from courtlog.reports.facts.agree_facts import AgreeFacts, CueAgreementFacts, SittingFacts
from courtlog.reports.layout.page import WIDTH, lines_of

(_BALLS,) = MINIMUMS[Question.RATERS]

NOTHING = (
    "No ball was rated twice yet. `courtlog agree rate` rates the balls with a clip mark once more,"
    " without their first grades; `courtlog agree in FILE` takes what an assistant wrote down."
)
READING = (
    "Agreement is beyond luck: 1 is full, 0 is what luck gives; near is half a step. In brackets"
    " the range the balls leave open (95%). Where nearly all balls have one grade, the first number"
    " falls though both saw the same; the second (AC1) does not."
)
MEANING = (
    f"Below {LEAST_KAPPA} a cue is not seen the same way twice, and no verdict on it stands. Reword"
    " the cue so that one look decides it, rate from one place, and rate again."
)


def agree_text(facts: AgreeFacts) -> str:
    """The whole page."""
    return "\n".join(_page(facts)) + "\n"


def _page(facts: AgreeFacts) -> Iterator[str]:
    yield from lines_of(f"Rated twice · {plain(facts.clinic)}")
    yield "=" * WIDTH
    if not facts.cues:
        yield from lines_of(NOTHING)
        return
    for title, first, second in dict.fromkeys((c.title, c.first, c.second) for c in facts.cues):
        cues = [c for c in facts.cues if (c.title, c.first, c.second) == (title, first, second)]
        yield ""
        yield from lines_of(f"{plain(title)} · {_who(cues[0])}")
        yield "-" * WIDTH
        for cue in cues:
            yield ""
            yield from lines_of(plain(cue.name), "  ")
            for sentence in _cue(cue):
                yield from lines_of(sentence, "    ")
    yield ""
    yield from lines_of(READING)
    yield from lines_of(MEANING)


def _who(cue: CueAgreementFacts) -> str:
    first, second = plain(cue.first), plain(cue.second)
    return f"{first}, and {first} again" if first == second else f"{first}, and then {second}"


def _cue(cue: CueAgreementFacts) -> Iterator[str]:
    if cue.level == "refuse":
        yield (
            f"{many(cue.balls, 'ball')} rated twice: {Words.TOO_FEW}"
            f" ({_BALLS.refuse - cue.balls:.0f} more for a first look)."
        )
        return
    assert cue.alike is not None
    head = f"{many(cue.balls, 'ball')} rated twice, {round(100 * cue.alike)}% of them alike"
    if cue.weighted is None or cue.ac1 is None:
        yield f"{head}: one and the same grade throughout, so more cannot be told."
        return
    hint = "From few balls: agreement" if cue.level == "weak" else "Agreement"
    value, ac1 = cue.weighted, cue.ac1
    yield (
        f"{head}. {hint} {value.value:.2f} ({value.low:.2f} to {value.high:.2f}),"
        f" {agreement_word(value.value)}; AC1 {ac1.value:.2f} ({ac1.low:.2f} to {ac1.high:.2f})."
    )
    if cue.in_doubt:
        yield f"Below {LEAST_KAPPA}: not seen the same way twice, no verdict on it stands."
    for sitting in cue.sittings:
        yield _moved(cue, sitting)


def _moved(cue: CueAgreementFacts, sitting: SittingFacts) -> str:
    """`15 May: 9 balls rated stricter, 2 looser: no drift seen.`"""
    who = "the second time" if cue.first == cue.second else f"by {plain(cue.second)}"
    head = (
        f"{times.date_words(sitting.date)}: {sitting.stricter} rated stricter {who},"
        f" {sitting.looser} looser"
    )
    if not sitting.enough:
        return f"{head}: no drift seen, too few changes to tell."
    if not sitting.drifted:
        return f"{head}: no drift seen."
    return f"{head}: {sitting.direction}, more than luck alone gives (p {sitting.p:.3f})."
