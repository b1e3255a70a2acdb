"""Sentences of the page that come from no row: to whom it speaks, how long, what to ask."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog.plain_text import many
from courtlog.reports.everything.everything_facts import Everything, Kept
from courtlog.reports.everything.parts import day_words
from courtlog.systems.shell_words import quoted

FOR_WHOM = (
    "For the player, and for a minor for a parent or guardian too. It is private: hand it to nobody"
    " else."
)

OTHERS = "Names of other players are left out of texts: someone stands for them."

ASK = (
    "You can ask the coach to put right what is wrong, or to remove all of it, backups too.",
    "Your local rules on such data go first.",
)


KINDS = "What else is kept: how many, and of which dates"

REST = "This page counts what it does not print. The whole list has the rest line by line"

WHOLE = "The whole list, line by line"

FOLLOWS = "it follows."


def on_request(facts: Everything) -> str:
    """How to get the whole list, for the player and for the coach."""
    command = f"courtlog player {quoted(facts.player)} --everything --full"
    return f"ask for it. The coach prints it with `{command}`."


def headline(facts: Everything) -> str:
    """What the page is, and when it was printed."""
    return (
        f"All that the coach's book holds on {facts.player}, printed on"
        f" {day_words(facts.printed_on)}."
    )


def kept_words(kept: Kept) -> Iterator[str]:
    """How long it is kept, and what happens then."""
    if not kept.months:
        yield "The coach has set no time after which this is to be looked through."
    elif kept.until is None or kept.last_day is None:
        yield (
            f"It is kept for {many(kept.months, 'month')} after the last day of the clinic, which"
            " is still to come."
        )
    else:
        over = "That time is over" if kept.over else "That is until"
        yield (
            f"It is kept for {many(kept.months, 'month')} after the last day, which was"
            f" {day_words(kept.last_day)}."
        )
        yield f"{over}{' since' if kept.over else ''} {day_words(kept.until)}."
    if kept.months:
        when = "The coach is reminded of it" if kept.over else "Then the coach is reminded"
        yield f"{when}. Nothing is deleted by itself."


def closing_parts(facts: Everything) -> Iterator[tuple[str, str, list[str]]]:
    """The parts at the end, each with a key, a title and its lines."""
    empty = [f"{part.title}: {part.none}" for part in facts.parts if not part.entries]
    yield "counted", "Kept too, and only counted here", list(facts.counted)
    yield "nothing", "Nothing is held on", empty
    yield "kept", "How long it is kept", list(kept_words(facts.kept))
    yield "copies", "Where copies may be", list(facts.copies)
    yield "ask", "What you can ask", list(ASK)
    yield "left-out", "Not printed one by one", list(facts.left_out)
    yield "coach", "For the coach", list(facts.commands)
