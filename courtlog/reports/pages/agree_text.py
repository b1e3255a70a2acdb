"""How alike balls were rated twice, as a printed page in plain sentences."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog import times
from courtlog.coaching.voice.statement import EVERYTHING, SENTENCE_ONLY
from courtlog.measures.common.enough import MINIMUMS, Question, Words
from courtlog.measures.common.hundredths import hundredths
from courtlog.measures.shares.agreement import LEAST_AC2, LEAST_KAPPA, agreement_word
from courtlog.plain_text import many, plain
from courtlog.reports.facts.agree_facts import AgreeFacts, CueAgreementFacts, SittingFacts
from courtlog.reports.facts.change_models import BlindReadingFacts
from courtlog.reports.layout.page import BETWEEN, WIDTH, lines_of
from courtlog.reports.layout.said_lines import said_lines

(_BALLS,) = MINIMUMS[Question.RATERS]

NOTHING = (
    "No ball was rated twice yet. `courtlog agree rate` rates the balls with a clip mark once more,"
    " without their first grades; `courtlog agree in FILE` takes what an assistant wrote down."
)
READING = (
    "Agreement is beyond luck: 1 is full, 0 is what luck gives; near is half a step. In brackets"
    " the range the balls leave open (95%). Where nearly all balls have one grade, weighted kappa"
    " falls though both saw the same; AC2 does not. It stays high there even if both only guess, so"
    " rate rounds with misses too."
)
MEANING = (
    f"A cue is doubted only with kappa below {LEAST_KAPPA} and AC2 below {LEAST_AC2}: not seen the"
    " same way twice, no verdict on it stands. Then reword the cue so that one look decides it,"
    " rate from one place, and rate again."
)


def agree_text(facts: AgreeFacts) -> str:
    """The whole page."""
    return "\n".join(_page(facts)) + "\n"


def _page(facts: AgreeFacts) -> Iterator[str]:
    yield from lines_of(f"Rated twice · {plain(facts.clinic)}")
    yield "=" * WIDTH
    if not facts.cues and not facts.blind:
        yield from lines_of(NOTHING)
        return
    for reading in facts.blind:
        yield from _blind(reading)
    if not facts.cues:
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


def _blind(reading: BlindReadingFacts) -> Iterator[str]:
    """A blind reading, cue by cue: what it says, what the coach's own of these clips says."""
    yield ""
    who = (reading.player, reading.title, f"rated blind by {reading.rater}", f"page {reading.page}")
    yield from lines_of(BETWEEN.join(map(plain, who)))
    yield "-" * WIDTH
    yield from said_lines(reading.said, EVERYTHING, "  ")
    for cue in reading.cues:
        yield ""
        yield from said_lines(cue.said, SENTENCE_ONLY, "  ")
        yield from said_lines(cue.coach_said, SENTENCE_ONLY, "  ")
        yield from said_lines(cue.alike_said, EVERYTHING, "  ")


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
    head = f"{many(cue.balls, 'ball')} rated twice, {hundredths(cue.alike)}% of them alike"
    if cue.weighted is None or cue.ac2 is None:
        yield f"{head}: one and the same grade throughout, so more cannot be told."
        return
    hint = "From few balls: weighted kappa" if cue.level == "weak" else "Weighted kappa"
    kappa, ac2 = cue.weighted, cue.ac2
    yield (
        f"{head}. {hint} {kappa.value:.2f} ({kappa.low:.2f} to {kappa.high:.2f}),"
        f" {agreement_word(kappa.value)}; AC2 {ac2.value:.2f} ({ac2.low:.2f} to {ac2.high:.2f})."
    )
    if cue.in_doubt:
        yield (
            f"Kappa below {LEAST_KAPPA} and AC2 below {LEAST_AC2}: not seen the same way twice, no"
            " verdict on it stands."
        )
    elif kappa.value < LEAST_KAPPA:
        yield f"Kappa below {LEAST_KAPPA}, AC2 not below {LEAST_AC2}: not doubted."
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
