"""What a player's arm said on a day, in words; it records and defers to a clinician."""

from __future__ import annotations

from collections.abc import Sequence

from courtlog.coaching.care.arm_care import DEFER, LIMITS, STOP
from courtlog.coaching.game.clinic_record import CheckIn
from courtlog.coaching.voice.sentence_length import sentences
from courtlog.coaching.voice.statement import SILENCE, Statement


def arm_statement(
    check_ins: Sequence[CheckIn], standing_red: str, amber: str, amber_stands: bool
) -> Statement:
    """The loudest thing said of the arm: a red that stands, an amber, else the highest pain.

    `standing_red` and `amber` are their reasons; empty without one. An amber that no longer stands
    was followed by lower answers.
    """
    figures = "; ".join(check_in.words() for check_in in check_ins)
    if standing_red:
        reasons = sentences(*f"Red: {standing_red}".split("; "), by="; ")
        sentence = f"{reasons}. Ask a licensed clinician before any more."
        short = f"red, ask a clinician first: {standing_red}"
        return Statement(sentence, f"{STOP} {DEFER} {LIMITS}", figures, short)
    if amber and amber_stands:
        sentence = f"Amber: {amber}. Ask first; if it hurts, stop and ask a licensed clinician."
        return Statement(sentence, f"{DEFER} {LIMITS}", figures, f"amber, ask first: {amber}")
    if amber:
        sentence = f"Amber: {amber}. Later answers were lower. If it hurts, stop."
        return Statement(
            sentence, f"{DEFER} {LIMITS}", figures, f"amber, later answers lower: {amber}"
        )
    pains = [check_in for check_in in check_ins if check_in.pain]
    if not pains:
        return SILENCE
    worst = max(pains, key=lambda check_in: check_in.pain or 0)
    told = " ".join(f"pain {worst.place} {worst.pain} of 10".split())
    return Statement(f"Arm: {told}. If it hurts, stop.", DEFER, figures, f"arm: {told}")
