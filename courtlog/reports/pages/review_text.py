"""The quick review in words, for the screen between rotations: three lines to read aloud first."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from rich.cells import cell_len, set_cell_size

from courtlog.coaching.answers.comparison import YARDSTICK_SEEN
from courtlog.coaching.answers.cue_rounds import CueRound
from courtlog.coaching.answers.quick_review import CueReview, QuickReview
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.coaching.on_court.round_to_start import NextRound
from courtlog.coaching.voice import court_voice
from courtlog.coaching.voice.change_voice import tough_change, uncoached_change
from courtlog.coaching.voice.day_names import DayNames
from courtlog.coaching.voice.figures import comparison_words, rung_sentence
from courtlog.coaching.voice.rung_voice import rung_statement
from courtlog.coaching.voice.statement import SENTENCE_ONLY, SILENCE, Depth, Statement
from courtlog.plain_text import many, plain
from courtlog.reports.layout.cue_strip import BROADEST, cue_strip, legend
from courtlog.reports.layout.page import WIDTH, cell
from courtlog.reports.pages.review_aloud import AloudLine, three_lines

Line = tuple[str, bool]
"""A line and whether it stands out."""

Row = tuple[str, ...]

Names = Mapping[str, str]
"""Names of cues by key."""

Said = Iterator[Statement]

Enlarge = Callable[[AloudLine], Sequence[str]]
"""A line to read aloud as rows of large letters; none where it stands in its sentence."""

HEADS: Row = ("", "this round", "today")
LEAST_NAME = 8
"""Cells that a cue's name keeps, however narrow the table."""


@dataclass(frozen=True, slots=True)
class ReviewPage:
    """All that a review says, in its order."""

    aloud: tuple[AloudLine, ...]
    """The lines to read aloud."""
    warning: Statement
    """What the round lacks to be compared."""
    title: str
    """Whose round it was, on which drill."""
    table: tuple[Row, ...]
    """The cues: this round, today."""
    rounds: tuple[Sequence[CueRound], ...]
    """Each cue's rounds of this drill."""
    today: date
    """The day of the round."""
    statements: tuple[Statement, ...]
    """What else is to be said."""


def review_page(
    review: QuickReview,
    live: LiveRound,
    speak: Speak,
    days: DayNames,
    coming: NextRound | None = None,
    cues_key: str = "c",
) -> ReviewPage:
    """The page of a review; `speak` is the rule the round was coached by, `coming` what is next.

    `cues_key` is the key that picks cues.
    """
    asked = [each.cue for each in (review.best.good, review.best.one_thing) if each is not None]
    names = {key: key for key in asked}
    names |= {cue.key: plain(cue.name_for_all) for cue in live.drill.cues}
    short = {cue.key: plain(cue.name) for cue in live.drill.cues}
    return ReviewPage(
        aloud=tuple(three_lines(review.best, live, names, coming, cues_key)),
        warning=_warning(review, live, short),
        title=_title(live),
        table=(HEADS, *(_row(cue, short[cue.cue]) for cue in review.cues)),
        rounds=tuple(cue.rounds for cue in review.cues),
        today=review.today,
        statements=(
            *_practice(review, live, names, short),
            *_spoken(live, speak),
            *_against_first(review, names, short, days),
            *(() if live.purpose.leaves_tough_out else _tough(review, names, short)),
        ),
    )


def review_lines(
    page: ReviewPage,
    depth: Depth = SENTENCE_ONLY,
    width: int = WIDTH,
    enlarge: Enlarge = lambda _: (),
    bars: int = 1,
) -> list[Line]:
    """The page as lines, the table at most this wide, the other lines to be wrapped.

    `bars` is how many rows the columns of a strip are high at most.
    """
    return list(_lines(page, depth, width, enlarge, bars))


def _lines(
    page: ReviewPage, depth: Depth, width: int, enlarge: Enlarge, bars: int
) -> Iterator[Line]:
    for line in page.aloud:
        yield from _aloud(line, depth, enlarge(line))
    if page.warning:
        yield from _said(page.warning, depth, bold=True)
        yield "", False
    yield page.title, False
    yield from _table(page, width, bars)
    for statement in page.statements:
        yield from _said(statement, depth)


def _aloud(line: AloudLine, depth: Depth, rows: Sequence[str]) -> Iterator[Line]:
    """A line in its rows, or in its sentence; then its phrase, the depths, and a blank."""
    yield from ((row, True) for row in rows or [line.statement.sentence])
    if line.below:
        yield line.below, True
    if rows and depth.why:
        yield line.statement.sentence, False
    yield from ((text, False) for text in depth.below(line.statement))
    if rows:
        yield "", False


def _said(statement: Statement, depth: Depth, bold: bool = False) -> Iterator[Line]:
    yield statement.sentence, bold
    yield from ((text, False) for text in depth.below(statement))


def _title(live: LiveRound) -> str:
    balls = many(len(live.feeding.taken), "ball")
    if live.feeding.feeds.every > 1:
        balls += f", {len(live.feeding.rated)} rated"
    return (
        f"{plain(live.player.shown_name)} · {plain(live.drill.drill.name)}"
        f" · {live.purpose} · {balls}"
    )


def _row(cue: CueReview, name: str) -> Row:
    return (
        name,
        cue.round.words(),
        cue.today.words(),
    )


def _table(page: ReviewPage, width: int, bars: int) -> Iterator[Line]:
    """The rows in columns as wide as they need, and the rounds in what is left.

    A name is cut only where the width ends. One line below all cues has the marks of the rounds.
    """
    name, *others = [max(map(cell_len, column)) + 2 for column in zip(*page.table, strict=True)]
    name = min(name, max(width + 2 - sum(others), LEAST_NAME))
    words = name + sum(others)
    room = max(width - words, 0)
    heads, *texts = [
        "".join([cell(row[0], name), *map(set_cell_size, row[1:], others)]) for row in page.table
    ]
    marks = ""
    yield set_cell_size(heads + legend(room, title="rounds of this drill: "), width).rstrip(), False
    for number, (text, rounds) in enumerate(zip(texts, page.rounds, strict=True)):
        *above, lowest, marks = cue_strip(rounds, page.today, bars + 1, room, BROADEST)
        if above and number:
            yield "", False
        yield from ((" " * words + row, False) for row in above)
        yield set_cell_size(text + lowest, width).rstrip(), True
    yield (" " * words + marks).rstrip(), False


def _warning(review: QuickReview, live: LiveRound, names: Names) -> Statement:
    """That a round to be compared has too few balls; of the cue seen least."""
    if not live.purpose.measured or not review.cues:
        return SILENCE
    least = min(review.cues, key=lambda cue: (cue.round.seen, names[cue.cue]))
    return court_voice.balls_lacking(least.round.seen, YARDSTICK_SEEN, names[least.cue])


def _practice(review: QuickReview, live: LiveRound, names: Names, short: Names) -> Said:
    """Whether the player goes up, and how often to speak next; of a round with help only."""
    if live.purpose.coached:
        call = rung_statement(review.call, names, plain(live.drill.drill.name))
        yield replace(call, figures=rung_sentence(review.call, short))
        yield court_voice.speak_next(review.speak, review.speak_of)


def _spoken(live: LiveRound, speak: Speak) -> Said:
    """What the coach logged as said; nothing where nothing was logged."""
    wordings, balls = live.spoken, len(live.feeding.rated)
    if wordings and live.purpose.coached:
        yield court_voice.spoke(wordings, balls, speak, live.advised(speak))
    elif wordings:
        yield court_voice.spoke_without_help(len(wordings), balls)


def _against_first(review: QuickReview, names: Names, short: Names, days: DayNames) -> Said:
    """Each cue against the first yardstick, as far as today had an uncoached ball like it."""
    against = [(c.cue, c.against_yardstick) for c in review.cues if c.against_yardstick]
    alike = [(cue, comparison) for cue, comparison in against if comparison.result is not None]
    for cue, comparison in alike:
        figures = f"yardstick, {short[cue]}: {comparison_words(comparison)}"
        yield replace(uncoached_change(comparison, names[cue], days), figures=figures)
    if against and not alike:
        yield court_voice.NOTHING_LIKE_FIRST


def _tough(review: QuickReview, names: Names, short: Names) -> Said:
    """Tough balls against usual ones, of each cue with a tough ball that has a like."""
    for cue in review.cues:
        if cue.tough.late.seen:
            figures = f"tough, {short[cue.cue]}: {comparison_words(cue.tough)}"
            yield replace(tough_change(cue.tough, names[cue.cue]), figures=figures)
