"""Sheets of paper as plain text: at most 78 columns, pages of `paper_pages.LINES` lines.

A blank line between rows leaves room to write. A block of rows is never cut by the end of a page.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog.coaching.game.drills import Cue
from courtlog.plain_text import plain
from courtlog.reports.layout import person_lines as minors
from courtlog.reports.layout.page import WIDTH, cell, lines_of
from courtlog.reports.layout.paper_pages import filled_pages, joined_pages
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
    """The court sheets; each player's begins a page."""
    pages: list[list[str]] = []
    for sheet in sheets.sheets:
        blocks = [list(_first(sheet))]
        for round_ in sheet.rounds:
            blocks += _round(round_)
        title = f"{plain(sheet.player)} · {words.when(sheets)}"
        pages += _numbered(title, list(_on_each_page(sheet)), blocks)
    return joined_pages(pages)


def _numbered(title: str, more: list[str], blocks: list[list[str]]) -> list[list[str]]:
    """Pages under a title and a line that numbers them, where there are several."""
    head = list(lines_of(title))
    pages = list(filled_pages([*head, END, *more], blocks))
    if len(pages) > 1:
        for number, page in enumerate(pages, 1):
            of = f" page {number} of {len(pages)}"
            page[len(head)] = END[len(of) :] + of
    return pages


def _on_each_page(sheet: CourtSheet) -> Iterator[str]:
    for note in words.notes(sheet):
        yield from lines_of(note)
    if sheet.minor:
        yield from lines_of(minors.ON_A_DAY)
    if sheet.rounds:
        yield from words.FILL_IN
        yield "Court ______   Rated by ____________________"


def _first(sheet: CourtSheet) -> Iterator[str]:
    if sheet.to_ask:
        yield from lines_of(words.to_ask(sheet))


def _round(round_: PaperRound) -> Iterator[list[str]]:
    """A block for every twenty rows; what is written of the whole round stands in the last one."""
    heads = words.heads(round_.cues)
    for start in range(0, round_.rows, ROWS):
        on = "" if not start else f" · balls {start + 1} to {start + ROWS}"
        block = ["", f"{words.round_head(round_)} · {round_.code}{on}", RULE]
        if not start:
            block += _of_the_drill(round_)
        block += _rows(heads, start, round_.balls, tough=True)
        if start + ROWS >= round_.rows:
            block += [
                "",
                "Pain ____ of 10, where ____________________   Effort ____ of 10",
                "",
                f"Note {'_' * (WIDTH - 5)}",
            ]
        yield block


def _of_the_drill(round_: PaperRound) -> Iterator[str]:
    for line in words.round_words(round_):
        yield from lines_of(line)
    if round_.purpose is None:
        yield f"Drill {'_' * 40}  Balls ______"
        yield from lines_of(words.RING_PURPOSE)
    yield "Began ____:____"


def _rows(heads: Sequence[str], start: int, planned: int, *, tough: bool) -> Iterator[str]:
    """A block of numbered rows, in two runs side by side."""
    wide = (HALF - NUMBER - TOUGH * tough) // len(heads)
    head = " " * NUMBER + "".join(cell(name, wide) for name in heads)
    head += cell(words.TOUGH, TOUGH) if tough else ""
    boxes = f"{BOX:<{wide}}" * len(heads) + f"{BOX:<{TOUGH}}" * tough
    each = ROWS // COLUMNS
    yield from [""] * tough
    yield (cell(head, HALF) * COLUMNS).rstrip()
    for row in range(start + 1, start + each + 1):
        halves = (f"{number:>{NUMBER - 1}} {boxes}" for number in (row, row + each))
        yield "".join(f"{half:<{HALF}}" for half in halves).rstrip()
        yield ""
    if start < planned <= start + ROWS and planned % ROWS:
        yield f"Planned: {planned}."


def cards_text(cards: CueCards) -> str:
    """The cue cards, as many to a page as it holds."""
    blocks: list[list[str]] = []
    for card in cards.cards:
        title = f"{words.card_title(card)} · {words.card_owner(cards)} · {card.code}"
        blocks.append([*lines_of(title), END, *_card(card), "", ""])
    return joined_pages(list(filled_pages((), blocks)))


def _card(card: CueCard) -> Iterator[str]:
    for number, cue in enumerate(card.cues):
        if number:
            yield ""
        yield from lines_of(f"{plain(cue.name).upper()}  say {takehome_words.phrases(cue)}")
        yield from _looks(cue)


def _looks(cue: Cue) -> Iterator[str]:
    for grade in words.GRADES_SEEN:
        said = " ".join(getattr(cue, grade.name.lower()).split())
        yield from lines_of(f"{words.grade_word(grade)}: {plain(said)}", INDENT)


def home_text(sheets: Sequence[HomeSheet]) -> str:
    """The home yardsticks; each begins a page."""
    pages: list[list[str]] = []
    for sheet in sheets:
        pages += _numbered(f"{words.home_title(sheet)} · {sheet.code}", [], list(_home(sheet)))
    return joined_pages(pages)


def _home(sheet: HomeSheet) -> Iterator[list[str]]:
    again = sheet.yardstick
    told = (words.home_round(sheet), *words.home_feeding(sheet))
    yield [
        "Date ____________________   Watched by ____________________",
        "",
        *(line for text in told for line in lines_of(text)),
    ]
    for cue in again.cues:
        yield [plain(cue.name).upper(), *_looks(cue)]
    names = tuple(plain(cue.name) for cue in again.cues)
    first = ["", *words.FILL_IN_AT_HOME]
    for start in range(0, again.balls, ROWS):
        yield [*first, *_rows(names, start, again.balls, tough=False)]
        first = []
    yield [line for text in words.home_foot(sheet) for line in lines_of(text)]
