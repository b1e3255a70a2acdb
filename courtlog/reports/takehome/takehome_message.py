"""A message of at most 40 words that a coach may paste for a parent.

It names a good thing, one change, one thing to do, and care where there was pain. It holds to what
a minor's sheet may say: no percentage, and nobody else.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from courtlog.plain_text import capital, plain
from courtlog.reports.facts.change_models import StrokeChange
from courtlog.reports.takehome.takehome_facts import TakeHome

MOST_WORDS = 40

NO_BALL = "No ball was seen, so there is nothing to tell."
NEXT_TIME = "Next time your coach first watches some balls."
WAITS = "There was pain: please see a licensed clinician before any more hitting."
TOO_FEW = "There were too few balls to say whether anything changed."
IF_IT_STAYS = "If the pain stays, see a licensed clinician."


def takehome_message(facts: TakeHome) -> str:
    """The message; of each part the longest wording with which all of it has at most 40 words."""
    name = facts.player.split()[0] if facts.player.split() else ""
    wordings = [part for part in _parts(facts) if part]
    choices = sorted(product(*(range(len(part)) for part in wordings)), key=sum)
    messages = [
        " ".join([f"{name}:", *(part[n] for part, n in zip(wordings, choice, strict=True))])
        for choice in choices
    ]
    fitting = (text for text in messages if len(text.split()) <= MOST_WORDS)
    return plain(" ".join(next(fitting, messages[-1]).split()[:MOST_WORDS]))


def _parts(facts: TakeHome) -> Iterator[list[str]]:
    """The wordings of each part, the longest first; none of a part with nothing to say."""
    waits = facts.waits is not None
    if facts.change is None:
        yield [NO_BALL]
        yield [WAITS if waits else NEXT_TIME]
        return
    if facts.change.good:
        yield [facts.change.good.sentence, ""]
    first = facts.told_first
    yield [first.sentence, f"{capital(first.short)}."] if first else [TOO_FEW]
    if not waits:
        yield list(_to_do(facts, facts.change))
    if waits or facts.pain is not None:
        yield [WAITS if waits else IF_IT_STAYS]


def _to_do(facts: TakeHome, change: StrokeChange) -> Iterator[str]:
    """The first drill, else the phrase of the one thing."""
    if facts.plan is not None and facts.plan.drills:
        yield f"At home: {facts.plan.drills[0].drill.name}."
    if change.say:
        yield f"To think of: “{change.say}”."
