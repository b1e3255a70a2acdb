"""What is said of ratings by somebody who did not know the day of any clip.

The reason rests on Hrobjartsson A et al. 2012, BMJ 344:e1119 (its figure is from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from courtlog.coaching.voice.change_voice import cue_change
from courtlog.coaching.voice.day_names import DayNames
from courtlog.coaching.voice.sentence_length import sentences
from courtlog.coaching.voice.statement import SILENCE, Statement
from courtlog.plain_text import capital, listed, many

if TYPE_CHECKING:
    # They load numpy, and the court speaks without it.
    from courtlog.coaching.answers.player_answer import CueAnswer
    from courtlog.coaching.answers.rater_agreement import CueAgreement

WHY = "Whoever knows the day tends to see what was hoped for; whoever does not cannot."
SOURCE = (
    "In trials judged both ways, assessors who were not blind made odds ratios 36% larger on"
    " average (Hrobjartsson et al. 2012, BMJ 344:e1119; figure from memory)."
)
OWN = "The same coach rated these balls on court and may know some of them again."
_REST = "The comparison comes when all are rated."
STILL_COUNTS = "The blind one still counts: its rater knew no day."


def blind_reading(rater: str, clips: int, own: bool) -> Statement:
    """Who rated how many clips; whether it is the coach of the court."""
    sentence = f"{rater} rated {many(clips, 'clip')} of both days without knowing the day of any."
    reason = f"{WHY} Clothes, light or sun may still have shown the day."
    return Statement(f"{sentence} {OWN}" if own else sentence, reason, SOURCE)


def begun_reading(rater: str, rated: int, clips: int) -> Statement:
    """A reading that is not whole: nothing is compared, so that nobody stops at a good moment."""
    return Statement(f"{rater} has rated {rated} of {many(clips, 'clip')} blind so far. {_REST}")


def blind_change(answer: CueAnswer, name: str, days: DayNames) -> Statement:
    """The change of a cue by the blind grades, worded as the coach's own."""
    named = f"{name}, rated blind"
    if answer.headline is None:
        none = "not seen on clips of both days, so then and now cannot be compared"
        return Statement(f"{capital(named)}: {none}.", short=f"{name}: not seen on both days")
    return cue_change(answer, named, days, name)


def coach_on_clips(
    answer: CueAnswer, name: str, coaches: Sequence[str], days: DayNames
) -> Statement:
    """The same by the grades that the coach gave on court to these very clips."""
    if answer.headline is None:
        return SILENCE
    return cue_change(answer, f"{name}, the same clips by {listed(coaches)}", days)


def alike_in_all(
    same: int, balls: int, rater: str, coaches: Sequence[str], in_doubt: bool
) -> Statement:
    """On how many grades of all cues the blind reading and the one on court are alike.

    `in_doubt`: of some cue the coach's own grades bear no verdict.
    """
    if not balls:
        return SILENCE
    whose = "The two ratings" if [rater] == list(coaches) else f"{rater} and {listed(coaches)}"
    told = f"{whose} are alike on {same} of {many(balls, 'grade')}."
    return Statement(f"{told} {STILL_COUNTS}" if in_doubt else told)


def alike(
    agreement: CueAgreement | None,
    same: int,
    name: str,
    rater: str,
    coaches: Sequence[str],
    in_doubt: bool,
) -> Statement:
    """On how many clips the blind reading and the one on court have the same grade.

    `in_doubt`: the coach's own grades of this cue bear no verdict.
    """
    if agreement is None or not agreement.balls:
        return Statement(f"{capital(name)}: no clip was seen by both, so they cannot be compared.")
    whose = "the two ratings" if [rater] == list(coaches) else f"{rater} and {listed(coaches)}"
    told = sentences(
        f"{capital(name)}: {whose} are alike on",
        f"{same} of {many(agreement.balls, 'clip')}",
        by=" ",
    )
    figures = ""
    if agreement.weighted is not None and agreement.ac2 is not None:
        kappa, ac2 = agreement.weighted, agreement.ac2
        figures = (
            f"Weighted kappa {kappa.value:.2f} ({kappa.low:.2f} to {kappa.high:.2f}),"
            f" AC2 {ac2.value:.2f} ({ac2.low:.2f} to {ac2.high:.2f})."
        )
    return Statement(f"{told}. {STILL_COUNTS}" if in_doubt else f"{told}.", figures=figures)
