"""Pain, effort and reds on the one page: every line where they are few, else summed up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from courtlog.coaching.game.clinic_record import Sign
from courtlog.logbook.reads.person.person_rows import Row
from courtlog.plain_text import listed, many
from courtlog.reports.everything.parts import Held, Part, day_words

WHOLE = 4
"""Lines of a kind up to which each is printed."""


def health(held: Held, parts: Sequence[Part]) -> Iterator[str]:
    """The lines; `parts` are those of the person."""
    by_key = {part.key: part for part in parts}
    said, reds = by_key["check_ins"], by_key["reds"]
    if len(said.entries) <= WHOLE:
        yield from _whole(said)
    else:
        yield from _summed(held, held.of("check_in"))
    if len(reds.entries) <= WHOLE:
        yield from _whole(reds)
    else:
        dates = sorted(held.date(row["day_id"]) for row in held.of("red_flag"))
        last = reds.entries[-1]
        yield (
            f"Play was stopped {many(len(dates), 'time')}, the first on {day_words(dates[0])}."
            f" The last line of it: {last.in_full}."
        )


def _whole(part: Part) -> Iterator[str]:
    for entry in part.entries:
        yield entry.in_full


def _summed(held: Held, rows: Sequence[Row]) -> Iterator[str]:
    """How often pain was asked about, the most and the last; signs and effort by count."""
    rows = sorted(rows, key=lambda row: (held.date(row["day_id"]), row["at"] or 0, row["id"]))
    pains = [row for row in rows if row["pain"] is not None]
    if pains:
        most = max(pains, key=lambda row: int(row["pain"]))
        asked = f"Pain was asked about {many(len(pains), 'time')}"
        if most["pain"]:
            yield (
                f"{asked}. The most was {_pain(held, most)}. The last was {_pain(held, pains[-1])}."
            )
        else:
            yield f"{asked}, and it was 0 of 10 each time."
    efforts = [int(row["effort"]) for row in rows if row["effort"] is not None]
    if efforts:
        span = f"{min(efforts)} to {max(efforts)} of 10"
        yield f"Effort was said {many(len(efforts), 'time')}: {span}."
    signs = Counter(sign for row in rows for sign in row["signs"].replace(",", " ").split())
    if signs:
        words = [
            f"{Sign(sign).words if sign in set(Sign) else held.text(sign)} {many(count, 'time')}"
            for sign, count in signs.items()
        ]
        yield f"Signs: {listed(words)}."
    notes = sum(bool(row["note"]) for row in rows)
    if notes:
        stand = "stands" if notes == 1 else "stand"
        yield f"{many(notes, 'note')} {stand} with them, in the whole list."


def _pain(held: Held, row: Row) -> str:
    place = f" at the {held.text(row['place'])}" if row["place"] else ""
    return f"{row['pain']} of 10{place}, on {day_words(held.date(row['day_id']))}"
