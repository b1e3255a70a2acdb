"""What a player's arm said on a day, in words; it records and defers to a clinician."""

from __future__ import annotations

from collections.abc import Sequence

from courtlog.coaching.care.arm_care import DEFER, LIMITS, STOP, Caution, CautionLevel
from courtlog.coaching.game.clinic_record import CheckIn
from courtlog.coaching.voice.sentence_length import sentences
from courtlog.coaching.voice.statement import SILENCE, Statement


def arm_statement(
    check_ins: Sequence[CheckIn], cautions: Sequence[Caution], standing_red: str
) -> Statement:
    """The loudest thing said of the arm: a red that stands, a caution, else the highest pain.

    `standing_red` is the reason of a red without a clinician's word; empty without one.
    """
    figures = "; ".join(check_in.words() for check_in in check_ins)
    if standing_red:
        reasons = sentences(*f"Red: {standing_red}".split("; "), by="; ")
        sentence = f"{reasons}. Ask a licensed clinician before any more."
        short = f"red, {standing_red}: a clinician's word first"
        return Statement(sentence, f"{STOP} {DEFER} {LIMITS}", figures, short)
    ambers = [caution for caution in cautions if caution.level is CautionLevel.AMBER]
    if ambers:
        reason = ambers[-1].reason
        sentence = f"Amber: {reason}. If it hurts, stop and ask a licensed clinician."
        return Statement(sentence, f"{DEFER} {LIMITS}", figures, f"amber, {reason}: ask first")
    pains = [check_in for check_in in check_ins if check_in.pain]
    if not pains:
        return SILENCE
    worst = max(pains, key=lambda check_in: check_in.pain or 0)
    told = " ".join(f"pain {worst.place} {worst.pain} of 10".split())
    return Statement(f"Arm: {told}. If it hurts, stop.", DEFER, figures, f"arm: {told}")
