"""Whether a player goes up a rung, in words, with the counts that decide it."""

from __future__ import annotations

from collections.abc import Mapping

from courtlog.coaching.answers.rung_call import CueCall, RungCall
from courtlog.coaching.voice.change_voice import RATED_TWO_WAYS
from courtlog.coaching.voice.figures import SLIP_BY_LUCK, rung_sentence
from courtlog.coaching.voice.plain_numbers import balls_of
from courtlog.coaching.voice.sentence_length import sentences
from courtlog.coaching.voice.statement import Statement
from courtlog.plain_text import listed

RULE = (
    "Only practice balls on this drill count, and the cue that is furthest from ready decides."
    " After each decision the count begins again."
)


def rung_statement(call: RungCall | None, names: Mapping[str, str], drill: str) -> Statement:
    """`Stay on Drop and hit: turn, 3 of 12 balls.`; `drill` is the name of the drill on court."""
    figures = rung_sentence(call, names)
    if call is None:
        unseen = "no practice ball with a cue seen on it yet"
        return Statement(f"{sentences(f'Stay on {drill}', unseen, by=': ')}.", RULE, figures)
    if call.slipping:
        slipping = listed([names[cue.cue] for cue in call.slipping])
        was, is_ = ("was", "is") if len(call.slipping) == 1 else ("were", "are")
        missed = f"{slipping} {was} ready, and {is_} missed more now"
        sentence = f"{sentences('Look again before moving up', missed, by=': ')}."
        doubt = call.slipping[0].doubt
        reason = f"Seen {SLIP_BY_LUCK}."
    else:
        cue = call.weakest
        decides = f"{names[cue.cue]}{_so_far(cue)}"
        sentence = f"{sentences(_head(call, drill), decides, by=': ')}.{_no_help(call, names)}"
        doubt = cue.doubt
        reason = f"{_to_go(cue)}{RULE}"
    if doubt is not None:
        sentence += f" {RATED_TWO_WAYS}"
    return Statement(sentence, reason, figures, _short(call, names))


def _short(call: RungCall, names: Mapping[str, str]) -> str:
    """`ready to move up`, or `look again at turn`; nothing for whoever stays."""
    if call.slipping:
        return f"look again at {listed([names[cue.cue] for cue in call.slipping])}"
    return "ready to move up" if call.ready and call.contradicted is None else ""


def _head(call: RungCall, drill: str) -> str:
    if call.decision == "up":
        return f"Ready to move up from {drill}"
    if call.decision == "keep feeding":
        return f"Not sure yet, stay on {drill}"
    return f"Stay on {drill}"


def _so_far(cue: CueCall) -> str:
    """The balls that decided, or those of the test so far."""
    if not cue.seen:
        return " passed once and must pass again"
    if cue.decision == "up":
        return f", passed twice with {balls_of(cue.made, cue.seen)}"
    if cue.seen == 1:
        return f", {'made' if cue.made else 'not made'} on the last ball"
    counts = f", {cue.made} of the last {cue.seen} balls"
    return f"{counts}, in between" if cue.decision == "undecided" else counts


def _no_help(call: RungCall, names: Mapping[str, str]) -> str:
    """What uncoached balls on the drill say against the call, or nothing."""
    against = call.contradicted
    if against is None:
        return ""
    counts = against.uncoached
    return f" With no help {names[against.cue]} was {counts.made} of {counts.seen}: look again."


def _to_go(cue: CueCall) -> str:
    """What would end the test."""
    if cue.makes_to_up is None or cue.misses_to_not_yet is None:
        return ""
    makes, misses = cue.makes_to_up, cue.misses_to_not_yet
    made = "the next ball is" if makes == 1 else f"the next {makes} balls are"
    enough = "it is ready to move up" if cue.ups else "it passes once, of two times needed"
    return f"If {made} made, {enough}. After {misses} more missed it is not ready. "
