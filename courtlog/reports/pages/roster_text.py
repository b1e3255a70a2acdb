"""The roster as a table, and a player's whole card; at most 78 columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog.coaching.game.cards import FIELDS, missing
from courtlog.coaching.game.people import Clinic
from courtlog.logbook.reads.people_lookups import FocusInWords, RosterLine
from courtlog.plain_text import many, plain
from courtlog.reports.layout.page import WIDTH, block, cell, lines_of
from courtlog.reports.layout.person_lines import look_words

NUMBER, NAME, HAND, LEVEL, BALLS = 4, 28, 7, 26, 7
"""Widths of the columns, in cells; what is left says who is a minor."""

LABEL = 15
"""Cells of the label before a line of a card, its blanks included."""

PRIVACY = (
    "Complaints and contacts are private: look after them, and above all minors', as your local"
    " rules ask."
)


def roster_text(clinic: Clinic, entries: Sequence[RosterLine], reminder: str = "") -> str:
    """One line a player, under it what is still to be asked, and whom to think of erasing."""
    kept = block("kept", [reminder] if reminder else [])
    return "\n".join([*_table(clinic, entries), *kept]) + "\n"


def card_text(entry: RosterLine, looks: Sequence[FocusInWords]) -> str:
    """Everything of one player, private lines too."""
    return "\n".join(_card(entry, looks)) + "\n"


def _table(clinic: Clinic, entries: Sequence[RosterLine]) -> Iterator[str]:
    yield from lines_of(f"{plain(clinic.name)} · {many(len(entries), 'player')}")
    yield "=" * WIDTH
    if not entries:
        yield "Nobody is on the roster yet: `courtlog roster add NAME`, or add them at the court."
        return
    yield _line("", "name", "hand", "level", "balls", "")
    for number, entry in enumerate(entries, 1):
        card = entry.card
        limit = "" if card.limit is None else str(card.limit)
        age = card.age if card.minor else ""
        yield _line(
            str(number), plain(entry.player.full_name), card.hand, plain(card.level), limit, age
        )
    missing_by_player: dict[str, list[str]] = {}
    for entry in entries:
        for what in missing(entry.card):
            missing_by_player.setdefault(what, []).append(plain(entry.player.list_name))
    yield from block(
        "to ask",
        [
            f"{what}: {'everyone' if len(who) == len(entries) > 1 else ', '.join(who)}"
            for what, who in missing_by_player.items()
        ],
    )


def _line(number: str, name: str, hand: str, level: str, limit: str, age: str) -> str:
    cells = (cell(name, NAME), cell(hand, HAND), cell(level, LEVEL), cell(limit, BALLS), age)
    return (f"{number:>{NUMBER - 2}}  " + "".join(cells)).rstrip()


def _card(entry: RosterLine, looks: Sequence[FocusInWords]) -> Iterator[str]:
    words = entry.card.words()
    yield from lines_of(plain(entry.player.shown_name))
    yield "-" * WIDTH
    for field in FIELDS:
        label = field.title
        if words[field.key]:
            for line in lines_of(plain(words[field.key]), " " * LABEL):
                yield f"  {label:<{LABEL - 2}}{line[LABEL:]}"
                label = ""
    for look in looks:
        yield from block("saw", [f"{plain(look.title)} · {look_words(look)}"])
    to_ask = missing(entry.card)
    yield from block("to ask", [", ".join(to_ask)] if to_ask else [])
    if entry.card.contact or entry.card.complaints:
        yield ""
        yield from lines_of(PRIVACY)
