"""What is said on sheets of paper, shared by their text and their HTML."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog import times
from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.feeding_at_home import who_feeds
from courtlog.plain_text import capital, many, plain
from courtlog.reports.layout import person_lines as minors
from courtlog.reports.paper.court_sheets import CourtSheet, CourtSheets, PaperCue, PaperRound
from courtlog.reports.paper.cue_cards import CueCard, CueCards
from courtlog.reports.paper.home_sheets import HomeSheet
from courtlog.reports.takehome import takehome_words

_GRADES = ", ".join(f"{LOOKS[grade].digit} {LOOKS[grade].word}" for grade in reversed(Grade))

MARKS = f"One row a ball. In each box {_GRADES}; not seen stays empty."
FILL_IN = (MARKS, "Nothing seen: one dash in the row. Tough ball: a cross. Pain, effort: 0 to 10.")
"""How to fill in a court sheet: the digits are those of `LOOKS`, as a typed sheet has them."""

FILL_IN_AT_HOME = (
    MARKS,
    "Nothing seen: one dash in the row. Write what you see, not what you hope.",
)

OFF_THE_FEED = "Off the feed until a clinician has spoken. No ball today."
ASK_FIRST = "Ask about the arm before the first ball; pain goes on this sheet."
CLEAR = "Clear loose balls away first. Stop if anything hurts."
SPEAK, QUIET = "The coach speaks.", "Say nothing."
LOOK = "What made, near and missed look like"
LOOK_OVERLEAF = "What made, near and missed look like stands on the next page."
SPARE = "spare round"
TOUGH = "tough"
BLANK_CUES = tuple(PaperCue(key="", name=f"cue {number}") for number in (1, 2, 3))
"""Heads to write over where no cue is known."""

RING_PURPOSE = f"Purpose, ring one: {' '.join(Purpose)}"

GRADES_SEEN = (Grade.MADE, Grade.NEAR, Grade.MISSED)


def when(sheets: CourtSheets) -> str:
    """`Harbour Week · day 3 · Thu 14 May`."""
    return f"{plain(sheets.clinic)} · day {sheets.number} · {times.date_words(sheets.on)}"


def notes(sheet: CourtSheet) -> Iterator[str]:
    """What has to be known before the first ball, in at most two lines."""
    if sheet.held_back:
        yield OFF_THE_FEED
        return
    if sheet.ask_first:
        yield ASK_FIRST
    parts = []
    if sheet.limit is not None:
        parts.append(f"At most {many(sheet.limit, 'ball')} today.")
    if sheet.left_out:
        parts.append(f"{many(sheet.left_out, 'round')} more planned: use a blank sheet.")
    if parts:
        yield " ".join(parts)


def to_ask(sheet: CourtSheet) -> str:
    """What is still to be asked of the player, on one line; empty where nothing is."""
    return f"Still to ask: {', '.join(sheet.to_ask)}." if sheet.to_ask else ""


def round_head(round_: PaperRound) -> str:
    """`Round 2 · practice`."""
    return f"Round {round_.number} · {round_.purpose or SPARE}"


def round_words(round_: PaperRound) -> tuple[str, ...]:
    """The drill, balls and whether to speak, and where the balls go; nothing of a spare round."""
    if round_.purpose is None:
        return ()
    speak = SPEAK if round_.purpose.coached else QUIET
    spots = ", then ".join(map(plain, round_.spots))
    return (
        plain(round_.drill_name),
        f"{many(round_.balls, 'ball')}. {speak}",
        f"Feed: {spots}" if spots else "",
    )


def heads(cues: tuple[PaperCue, ...]) -> tuple[str, ...]:
    """The names of the cues, or heads to write over."""
    return tuple(plain(cue.name) for cue in cues or BLANK_CUES)


def card_title(card: CueCard) -> str:
    """`Forehand`, or `Forehand, card 1 of 2`."""
    part = f", card {card.part} of {card.parts}" if card.parts > 1 else ""
    return f"{plain(card.stroke)}{part}"


def card_owner(cards: CueCards) -> str:
    """`Maren · Harbour Week · Thu 14 May`; without a name for everybody."""
    parts = (plain(cards.player), plain(cards.clinic), times.date_words(cards.on))
    return " · ".join(filter(None, parts))


def home_title(sheet: HomeSheet) -> str:
    """`Forehand at home · Maren`: a name, however long, hides no stroke."""
    return f"{plain(sheet.title)} at home · {plain(sheet.player)}"


def home_round(sheet: HomeSheet) -> str:
    """Which drill, how many balls, and when."""
    again = sheet.yardstick
    moment = "after week 4"
    if again.on is None:
        moment = "before week 1" if sheet.code.number == 1 else moment
    return f"Yardstick of {many(again.balls, 'ball')}, {moment}: {plain(again.drill.name)}."


def home_feeding(sheet: HomeSheet) -> tuple[str, ...]:
    """How it is fed and where to hit, then who feeds and what stays the same."""
    again = sheet.yardstick
    alike = f"{who_feeds(again.drill)} {takehome_words.ALIKE} {CLEAR}"
    return (takehome_words.set_up(again), alike)


def home_foot(sheet: HomeSheet) -> tuple[str, ...]:
    """How to watch, in at most two lines."""
    return (takehome_words.RATING, *([minors.ON_A_SHEET] if sheet.minor else []))


def grade_word(grade: Grade) -> str:
    """`Made`."""
    return capital(LOOKS[grade].word)
