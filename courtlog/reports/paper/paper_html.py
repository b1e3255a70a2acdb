"""Sheets of paper as HTML files to print: no script, nothing from outside.

Every text goes through `html_elements.escaped`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from courtlog.coaching.game.drills import Cue
from courtlog.reports.layout import person_lines as minors
from courtlog.reports.layout.html_elements import escaped, html_file
from courtlog.reports.layout.line_budget import lines_key, lines_needed, shared
from courtlog.reports.paper import paper_words as words
from courtlog.reports.paper.court_sheets import (
    BLOCKS_A_PAGE,
    ROWS,
    CourtSheet,
    CourtSheets,
    PaperRound,
)
from courtlog.reports.paper.cue_cards import CueCard, CueCards
from courtlog.reports.paper.home_sheets import HomeSheet
from courtlog.reports.paper.paper_elements import blanks, head, one_line, rows_of_boxes
from courtlog.reports.paper.paper_style import STYLE
from courtlog.reports.takehome import takehome_words


@dataclass(frozen=True, slots=True)
class _Place:
    """Where cues are told: the width of a line in ems of its letters, and lines in all."""

    ems: float
    lines: int


ON_A_CARD = _Place(41.4, 20)
ON_A_FULL_CARD = _Place(44.8, 23)
BESIDE_BOXES = _Place(23.5, 37)
OVERLEAF = _Place(41.4, 44)
"""Half a page in large letters or in smaller ones, a column beside twenty rows, a whole page.

Each fits A4 and Letter.
"""

BOLD = 0.88
"""Bold letters are broader: so much of the ems has room."""


@dataclass(frozen=True, slots=True)
class _Block:
    """Twenty rows of a round."""

    round_: PaperRound
    start: int

    @property
    def ends_round(self) -> bool:
        return self.start + ROWS >= self.round_.rows


def court_html(sheets: CourtSheets) -> str:
    """The court sheets: pages of two blocks of rows for each player."""
    title = f"Court sheets: {sheets.clinic}"
    body = [f"<main><h1>{escaped(title)}</h1>"]
    for sheet in sheets.sheets:
        body += _court_pages(sheets, sheet)
    return html_file(title, STYLE, "\n".join([*body, "</main>"]))


def _court_pages(sheets: CourtSheets, sheet: CourtSheet) -> Iterator[str]:
    blocks = [
        _Block(round_, start) for round_ in sheet.rounds for start in range(0, round_.rows, ROWS)
    ]
    pages = [
        blocks[start : start + BLOCKS_A_PAGE] for start in range(0, len(blocks), BLOCKS_A_PAGE)
    ]
    for number, page in enumerate(pages or [[]], 1):
        of = f" · page {number} of {len(pages)}" if len(pages) > 1 else ""
        yield '<section class="page"><div class="head rule">'
        yield f'<h2 class="one">{escaped(sheet.player)}{of}</h2>'
        yield f'<p class="one where">{escaped(words.when(sheets))}</p></div>'
        yield from (one_line(note, "note") for note in words.notes(sheet))
        if sheet.to_ask and number == 1:
            yield one_line(words.to_ask(sheet), "small")
        if sheet.minor:
            yield one_line(minors.ON_A_DAY, "small")
        if page:
            yield from (one_line(line, "small") for line in words.FILL_IN)
            yield blanks("Court:", "Rated by")
            yield '<div class="halves">'
            yield from map(_block, page)
            yield "</div>"
        yield "</section>"


def _block(block: _Block) -> str:
    round_, start = block.round_, block.start
    last = start + ROWS
    title = words.round_head(round_)
    parts = [head(3, title, round_.code)]
    if start:
        parts.append(one_line(f"goes on: balls {start + 1} to {last}"))
    elif round_.purpose is None:
        parts += [blanks("Drill", "Balls:"), f'<p class="two small spots">{words.RING_PURPOSE}</p>']
    else:
        name, speak, spots = words.round_words(round_)
        parts += [one_line(name), one_line(speak, "note")]
        parts.append(f'<p class="two small spots">{escaped(spots)}</p>')
    caption = f"{title}, balls {start + 1} to {last}"
    parts.append(rows_of_boxes(caption, words.heads(round_.cues), start, round_.balls, tough=True))
    if block.ends_round:
        parts += [
            blanks("Pain 0 to 10:", "where"),
            blanks("Effort 0 to 10:", "began at"),
            blanks("Note"),
            blanks(""),
        ]
    return f"<div>{''.join(parts)}</div>"


def cards_html(cards: CueCards) -> str:
    """The cue cards, two to a page."""
    title = f"Cue cards: {cards.clinic}"
    body = [f"<main><h1>{escaped(title)}</h1>"]
    body += [_card(cards, card) for card in cards.cards]
    return html_file(title, STYLE, "\n".join([*body, "</main>"]))


def _card(cards: CueCards, card: CueCard) -> str:
    parts = [head(2, words.card_title(card), card.code), one_line(words.card_owner(cards), "small")]
    titled = [(f"{cue.name}: {takehome_words.phrases(cue)}", cue) for cue in card.cues]
    full = _lines(titled, ON_A_CARD) > ON_A_CARD.lines
    parts += _looks(titled, ON_A_FULL_CARD if full else ON_A_CARD)
    return f'<section class="card{" full" * full}">{"".join(parts)}</section>'


def _lines(cues: Sequence[tuple[str, Cue]], place: _Place) -> int:
    return sum(need for cue in cues for need in _needs(*cue, place))


def _looks(cues: Sequence[tuple[str, Cue]], place: _Place) -> Iterator[str]:
    """What each grade of these cues looks like, each under its title, in the lines of a place.

    Where they need more, the longest texts end in an ellipsis.
    """
    lines = iter(shared([need for cue in cues for need in _needs(*cue, place)], place.lines))
    for title, cue in cues:
        yield f'<h3 class="cue cut {lines_key(next(lines))}">{escaped(title)}</h3>'
        for grade, said in _grades(cue):
            yield (
                f'<p class="small cut {lines_key(next(lines))}"><strong>{grade}:</strong> '
                f"{escaped(said)}</p>"
            )


def _needs(title: str, cue: Cue, place: _Place) -> Iterator[int]:
    """Lines of the title and of each grade."""
    yield lines_needed(title, place.ems * BOLD)
    yield from (lines_needed(f"{grade}: {said}", place.ems) for grade, said in _grades(cue))


def _grades(cue: Cue) -> Iterator[tuple[str, str]]:
    for grade in words.GRADES_SEEN:
        yield words.grade_word(grade), " ".join(getattr(cue, grade.name.lower()).split())


def home_html(sheets: Sequence[HomeSheet]) -> str:
    """The home yardsticks, a page each; what does not fit beside the boxes goes on overleaf."""
    title = "Yardsticks at home"
    body = [f"<main><h1>{escaped(title)}</h1>"]
    for sheet in sheets:
        body += _home(sheet)
    return html_file(title, STYLE, "\n".join([*body, "</main>"]))


def _home(sheet: HomeSheet) -> Iterator[str]:
    again = sheet.yardstick
    heads = tuple(cue.name for cue in again.cues)
    cues = [(cue.name, cue) for cue in again.cues]
    beside = cues_beside_boxes(sheet)
    yield '<section class="page">'
    yield head(2, words.home_title(sheet), sheet.code)
    yield blanks("Date", "Watched by")
    yield one_line(words.home_round(sheet), "note")
    yield from (
        f'<p class="small fed cut l4">{escaped(text)}</p>' for text in words.home_feeding(sheet)
    )
    yield from (one_line(line, "small note") for line in words.FILL_IN_AT_HOME)
    yield '<div class="halves"><div>'
    yield rows_of_boxes("balls 1 to 20", heads, 0, again.balls, tough=False)
    yield "</div><div>"
    yield from _looks(cues, BESIDE_BOXES) if beside else (f"<p>{words.LOOK_OVERLEAF}</p>",)
    yield "</div></div>"
    yield from (f'<p class="small">{escaped(text)}</p>' for text in words.home_foot(sheet))
    yield "</section>"
    if not beside:
        yield '<section class="page overleaf">'
        yield head(2, words.home_title(sheet), sheet.code)
        yield one_line(words.LOOK, "note")
        yield from _looks(cues, OVERLEAF)
        yield "</section>"
    for start in range(ROWS, again.balls, ROWS):
        yield '<section class="page">'
        yield head(2, words.home_title(sheet), sheet.code)
        yield '<div class="halves"><div>'
        yield rows_of_boxes(
            f"balls {start + 1} to {start + ROWS}", heads, start, again.balls, tough=False
        )
        yield "</div></div></section>"


def cues_beside_boxes(sheet: HomeSheet) -> bool:
    """Whether what the cues look like has room beside the boxes; else it has a page of its own."""
    cues = [(cue.name, cue) for cue in sheet.yardstick.cues]
    return _lines(cues, BESIDE_BOXES) <= BESIDE_BOXES.lines


def home_pages(sheet: HomeSheet) -> int:
    """Pages of paper that the sheet takes."""
    return -(-sheet.yardstick.balls // ROWS) + (not cues_beside_boxes(sheet))
