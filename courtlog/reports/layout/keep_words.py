"""The reminder that players are kept for longer than the laptop is set to, with what to type."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from courtlog.coaching.game.keeping import KeepTime
from courtlog.logbook.reads.person.last_days import LastDay
from courtlog.plain_text import many, plain
from courtlog.systems.shell_words import quoted

_NAMED = 3
"""Players who are named; more are counted."""


def reminder(everyone: Sequence[LastDay], keep: KeepTime, today: date) -> str:
    """One sentence and the commands for the first of them; empty where no time is over.

    It only reminds: nothing is ever deleted because of it.
    """
    over = [one for one in everyone if keep.is_over(one.date, today)]
    if not over:
        return ""
    names = [plain(one.name) for one in over[:_NAMED]]
    others = len(over) - len(names)
    who = ", ".join(names) + (f" and {many(others, 'other')}" if others else "")
    first = plain(quoted(over[0].name))
    return (
        f"Kept for more than {many(keep.months, 'month')} after the last day: {who}."
        f" `courtlog player {first} --everything` prints what is held,"
        f" `courtlog erase {first}` removes it."
    )
