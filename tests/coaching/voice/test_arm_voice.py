"""What an arm said: however many reasons a red has, each is told, in short sentences."""

from __future__ import annotations

import pytest

from courtlog.coaching.game.clinic_record import Sign
from courtlog.coaching.voice.arm_voice import arm_statement
from tests.pages.first_depth import sentences_of, word_faults

JOINT = "pain elbow 6, in a joint of a growing player"


@pytest.mark.parametrize("signs", range(len(Sign) + 1))
def test_a_red_of_many_reasons_is_told_in_short_sentences(signs: int) -> None:
    reasons = [*(sign.words for sign in tuple(Sign)[:signs]), "pain elbow 6, more than 5", JOINT]
    said = arm_statement([], "; ".join(reasons), "", amber_stands=False).sentence
    assert all(reason.lower() in said.lower() for reason in reasons)
    assert [part for part in sentences_of(said) if len(part.split()) > 20] == []
    assert word_faults(said) == []
    assert said.endswith("Ask a licensed clinician before any more.")


def test_an_amber_that_stands_is_asked_about_first_and_a_lower_answer_ends_that() -> None:
    stands = arm_statement([], "", "pain elbow 4, more than 2", amber_stands=True)
    assert stands.sentence == (
        "Amber: pain elbow 4, more than 2."
        " Ask first; if it hurts, stop and ask a licensed clinician."
    )
    assert stands.short.startswith("amber, ask first")
    since = arm_statement([], "", "pain elbow 4, more than 2", amber_stands=False)
    assert "Later answers were lower" in since.sentence
    assert "ask first" not in since.short
