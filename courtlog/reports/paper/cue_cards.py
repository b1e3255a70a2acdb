"""The facts of cue cards: what made, near and missed look like, a card a stroke."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from courtlog.coaching.game.drills import Cue, Ladder
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.reports.paper.court_sheets import CourtSheets, court_sheets

CUES_A_CARD = 3
"""Cues that fit on half a page in letters to be read at arm's length."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CueCard:
    """The cues of one stroke, or a part of them."""

    stroke: str
    """The stroke's name as shown."""
    part: int
    parts: int
    """Of a stroke with many cues the card's number, and how many there are."""
    code: SheetCode
    cues: tuple[Cue, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CueCards:
    """The cards for one player, or for whoever helps with all of them."""

    clinic: str
    on: date
    player: str
    """Whose cues they are; empty: everybody's."""
    cards: tuple[CueCard, ...]


def cue_cards(
    book: Book, clinic: Clinic, on: date, library: Library, player: str | None = None
) -> CueCards:
    """The cards for the rounds of a date. Raises CourtlogError."""
    sheets = court_sheets(book, clinic, on, library, player)
    name = sheets.sheets[0].player if player is not None else ""
    cards = tuple(_cards(sheets, library, name))
    return CueCards(clinic=clinic.name, on=on, player=name, cards=cards)


def _cards(sheets: CourtSheets, library: Library, player: str) -> Iterator[CueCard]:
    rounds = [round_ for sheet in sheets.sheets for round_ in sheet.rounds]
    for stroke in dict.fromkeys(round_.stroke for round_ in rounds):
        ladder = library.ladders.get(stroke)
        if ladder is None:
            continue
        keys = {cue.key for round_ in rounds if round_.stroke == stroke for cue in round_.cues}
        cues = tuple(cue for cue in ladder.cues if cue.key in keys)
        yield from _of_stroke(sheets, ladder, cues, player)


def _of_stroke(
    sheets: CourtSheets, ladder: Ladder, cues: tuple[Cue, ...], player: str
) -> Iterator[CueCard]:
    """The cards of one stroke; four cues are two and two rather than three and one."""
    parts = -(-len(cues) // CUES_A_CARD)
    code = SheetCode.of(SheetKind.CARD, sheets.on, sheets.clinic, player, task=ladder.stroke)
    for part in range(parts):
        start, end = (len(cues) * at // parts for at in (part, part + 1))
        yield CueCard(
            stroke=ladder.title, part=part + 1, parts=parts, code=code, cues=cues[start:end]
        )
