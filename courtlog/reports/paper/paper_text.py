"""Sheets of paper as plain text: at most 78 columns, a blank line between rows to write on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog.plain_text import plain
from courtlog.reports.layout import person_lines as minors
from courtlog.reports.layout.page import WIDTH, cell, lines_of
from courtlog.reports.paper import paper_words as words
from courtlog.reports.paper.court_sheets import ROWS, CourtSheet, CourtSheets, PaperRound
from courtlog.reports.paper.cue_cards import CueCard, CueCards
from courtlog.reports.paper.home_sheets import HomeSheet
from courtlog.reports.takehome import takehome_words

INDENT = "  "
COLUMNS = 2
"""Runs of rows side by side."""

NUMBER, TOUGH = 4, 7
"""Cells of a row's number and of its box for tough."""

HALF = WIDTH // COLUMNS
BOX = "[  ]"
RULE = "-" * WIDTH
END = "=" * WIDTH


def court_text(sheets: CourtSheets) -> str:
    """The court sheets, one after the other."""
    pages: list[str] = []
    for sheet in sheets.sheets:
        pages += [*lines_of(f"{plain(sheet.player)} · {words.when(sheets)}"), END]
        pages += _court_sheet(sheet)
        pages += ["", ""]
    return _page(pages)


def _court_sheet(sheet: CourtSheet) -> Iterator[str]:
    for note in words.notes(sheet):
        yield from lines_of(note)
    yield from lines_of(words.to_ask(sheet)) if sheet.to_ask else ()
    if sheet.minor:
        yield from lines_of(minors.ON_A_DAY)
    if not sheet.rounds:
        return
    yield from words.FILL_IN
    yield "Court ______   Rated by ____________________"
    for round_ in sheet.rounds:
        yield from _round(round_)


def _round(round_: PaperRound) -> Iterator[str]:
    yield ""
    yield f"{words.round_head(round_)} · {round_.code}"
    yield RULE
    for line in words.round_words(round_):
        yield from lines_of(line)
    if round_.purpose is None:
        yield f"Drill {'_' * 40}  Balls ______"
        yield from lines_of(words.RING_PURPOSE)
    yield "Began ____:____"
    yield from _rows(words.heads(round_.cues), round_.rows, round_.balls, tough=True)
    yield ""
    yield "Pain ____ of 10, where ____________________   Effort ____ of 10"
    yield ""
    yield f"Note {'_' * (WIDTH - 5)}"


def _rows(heads: Sequence[str], rows: int, planned: int, *, tough: bool) -> Iterator[str]:
    """Blocks of numbered rows, each in two runs side by side."""
    wide = (HALF - NUMBER - TOUGH * tough) // len(heads)
    head = " " * NUMBER + "".join(cell(name, wide) for name in heads)
    head += cell(words.TOUGH, TOUGH) if tough else ""
    boxes = f"{BOX:<{wide}}" * len(heads) + f"{BOX:<{TOUGH}}" * tough
    each = ROWS // COLUMNS
    for start in range(0, rows, ROWS):
        yield ""
        yield (cell(head, HALF) * COLUMNS).rstrip()
        for row in range(start + 1, start + each + 1):
            halves = (f"{number:>{NUMBER - 1}} {boxes}" for number in (row, row + each))
            yield "".join(f"{half:<{HALF}}" for half in halves).rstrip()
            yield ""
        if start < planned <= start + ROWS and planned % ROWS:
            yield f"Planned: {planned}."


def cards_text(cards: CueCards) -> str:
    """The cue cards, one after the other."""
    pages: list[str] = []
    for card in cards.cards:
        pages += [*lines_of(f"{words.card_title(card)} · {words.card_owner(cards)} · {card.code}")]
        pages += [END, *_card(card), "", ""]
    return _page(pages)


def _card(card: CueCard) -> Iterator[str]:
    for number, cue in enumerate(card.cues):
        if number:
            yield ""
        yield from lines_of(f"{plain(cue.name).upper()}  say {takehome_words.phrases(cue)}")
        for grade in words.GRADES_SEEN:
            said = getattr(cue, grade.name.lower())
            yield from lines_of(f"{words.grade_word(grade)}: {plain(said)}", INDENT)


def home_text(sheets: Sequence[HomeSheet]) -> str:
    """The home yardsticks, one after the other."""
    pages: list[str] = []
    for sheet in sheets:
        pages += [*lines_of(f"{words.home_title(sheet)} · {sheet.code}"), END]
        pages += [*_home(sheet), "", ""]
    return _page(pages)


def _home(sheet: HomeSheet) -> Iterator[str]:
    yield ""
    yield "Date ____________________   Watched by ____________________"
    yield ""
    yield from lines_of(words.home_round(sheet))
    for line in words.home_feeding(sheet):
        yield from lines_of(line)
    yield ""
    for cue in sheet.yardstick.cues:
        yield plain(cue.name).upper()
        for grade in words.GRADES_SEEN:
            said = getattr(cue, grade.name.lower())
            yield from lines_of(f"{words.grade_word(grade)}: {plain(said)}", INDENT)
    yield ""
    yield from words.FILL_IN_AT_HOME
    names = tuple(plain(cue.name) for cue in sheet.yardstick.cues)
    balls = sheet.yardstick.balls
    yield from _rows(names, -(-balls // ROWS) * ROWS, balls, tough=False)
    yield ""
    for line in words.home_foot(sheet):
        yield from lines_of(line)


def _page(lines: list[str]) -> str:
    while lines and not lines[-1]:
        lines.pop()
    return "\n".join(lines) + "\n"
