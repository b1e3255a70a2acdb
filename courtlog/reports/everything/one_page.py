"""The one page of what is held on a player: the card, pain and reds, and the rest by count.

It says why, for whom and how long, as whoever asks wants to know. What follows line by line is
counted here by its kinds, so that no kind is missing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from courtlog.plain_text import capital, listed
from courtlog.reports.everything import words
from courtlog.reports.everything.everything_facts import Everything
from courtlog.reports.everything.parts import Entry, Part, day_words
from courtlog.reports.everything.person_parts import ON_THE_ROSTER
from courtlog.reports.layout.line_budget import shared

SHORT = 28
"""Characters of a value of the card that shares its line with others."""

CLINICS = 3
"""Clinics whose own values are printed; the others are counted."""

WHY = (
    "To plan your rounds, to say what changed, and to go easy where it hurts. Filming helps to look"
    " at a stroke again."
)

ON_COURT = (
    "Sheets on court show your name, your rounds and cues, what is still to ask of you, and whether"
    " to hold back or to ask about the arm."
)

WHOLE_CARD = "Your card, as it is written"

_OWN = ("card", "clinics")
"""Parts that are printed whole."""


@dataclass(frozen=True, slots=True)
class KindHeld:
    """One kind of thing that is held: how many, and of which dates."""

    title: str
    amount: str
    span: str


@dataclass(frozen=True, slots=True)
class Block:
    """Paragraphs under a heading. Where the page has no room, the longest end in an ellipsis."""

    key: str
    title: str
    lines: tuple[str, ...]
    whole: bool = False
    """Whether it is never cut."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OnePage:
    """The page, in its order: the headline, the card and health, the kinds, then the rest."""

    headline: str
    above: tuple[Block, ...]
    kinds: tuple[KindHeld, ...]
    below: tuple[Block, ...]


def lines_each(page: OnePage, needs: Callable[[Block, str], int], room: int) -> Iterator[int]:
    """The most lines of each paragraph, in order, so that all of them fit in the room."""
    blocks = (*page.above, *page.below)
    wanted = [[needs(block, text) for text in block.lines] for block in blocks]
    whole = sum(sum(lines) for block, lines in zip(blocks, wanted, strict=True) if block.whole)
    given = iter(
        shared(
            [
                line
                for block, lines in zip(blocks, wanted, strict=True)
                if not block.whole
                for line in lines
            ],
            room - whole,
        )
    )
    for block, lines in zip(blocks, wanted, strict=True):
        yield from lines if block.whole else (next(given) for _ in lines)


def one_page(facts: Everything, more: str) -> OnePage:
    """The page; `more` says that the whole list follows, or how to get it."""
    parts = {part.key: part for part in facts.parts}
    empty = [part.title.lower() for part in facts.parts if not part.entries]
    nothing = f"Nothing is held on: {'; '.join(empty)}." if empty else ""
    counted = f"Counted too: {listed(facts.counted)}." if facts.counted else ""
    coaches = f": {listed(facts.coaches)}" if facts.coaches else ""
    seen = f"The coaches see it{coaches}."
    return OnePage(
        headline=words.headline(facts),
        above=(
            Block("for", "", (words.FOR_WHOM,)),
            Block("card", WHOLE_CARD, tuple(_card(parts))),
            Block("health", "Pain, effort and reds", facts.health or ("Nothing.",)),
        ),
        kinds=tuple(_kinds(facts)),
        below=(
            Block("counted", "", tuple(filter(None, (counted, nothing)))),
            Block("why", "Why it is kept, and who sees it", (f"{WHY} {seen} {ON_COURT}",)),
            Block("kept", "How long, and where copies may be", _kept(facts)),
            Block(
                "ask",
                "What you can ask",
                (" ".join(words.ASK), f"{words.REST}: {more}"),
                whole=True,
            ),
        ),
    )


def _kept(facts: Everything) -> tuple[str, ...]:
    return (" ".join(words.kept_words(facts.kept)), " ".join(facts.copies))


def _card(parts: dict[str, Part]) -> Iterator[str]:
    """The values of the card: short ones on a line, each long one on its own; then each clinic."""
    values = [_value(entry) for entry in parts["card"].entries]
    yield " · ".join(value for value in values if len(value) <= SHORT)
    yield from (value for value in values if len(value) > SHORT)
    yield from (f"filming: {entry.in_full}" for entry in parts["filming"].entries[-1:])
    clinics = list(_by_clinic(parts["clinics"].entries))
    yield from clinics[-CLINICS:]
    if len(clinics) > CLINICS:
        yield f"clinics before these: {len(clinics) - CLINICS}, in the whole list"


def _value(entry: Entry) -> str:
    return f"{entry.label}: {entry.words}"


def _by_clinic(entries: Sequence[Entry]) -> Iterator[str]:
    """`Harbour Week; goal: a calm return; ball limit: 80`, a line for each clinic."""
    clinics: list[list[str]] = []
    for entry in entries:
        if entry.label == ON_THE_ROSTER:
            clinics.append([f"clinic: {entry.words}"])
        else:
            clinics[-1].append(_value(entry))
    yield from ("; ".join(values) for values in clinics)


def _kinds(facts: Everything) -> Iterator[KindHeld]:
    for part in facts.parts:
        if part.entries and part.key not in _OWN:
            dates = [entry.on for entry in part.entries if entry.on is not None]
            yield KindHeld(capital(part.title), part.how_many, _span(dates))


def _span(dates: Sequence[date]) -> str:
    """`11 May 2026 to 15 May 2026`; empty without a date."""
    if not dates:
        return ""
    first, last = day_words(min(dates)), day_words(max(dates))
    return first if first == last else f"{first} to {last}"
