"""What each place tells of a player on an evening, read from a book: court, pages, sheet, JSON."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from types import SimpleNamespace
from typing import cast

from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.voice import answer_figures
from courtlog.coaching.voice.statement import EVERYTHING
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.screens.review import page_of
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.reports.facts.change_models import ChangeFacts, CueChange, StrokeChange
from courtlog.reports.facts.day_facts import day_facts, player_facts
from courtlog.reports.pages.day_text import day_text
from courtlog.reports.pages.player_text import player_text
from courtlog.reports.pages.review_text import review_lines
from courtlog.reports.takehome.takehome_facts import take_home
from courtlog.reports.takehome.takehome_html import takehome_html
from courtlog.reports.takehome.takehome_text import takehome_text
from tests.claims.clinics import DAYS
from tests.claims.sentences import CUE_NAMES
from tests.samples.generator import shipped_library

_LABELS = {
    answer_figures.LEARNING: "yardstick",
    answer_figures.HOLD: "hold",
    answer_figures.PRACTICE: "practice",
    answer_figures.OVERNIGHT: "overnight",
    answer_figures.TOUGH: "tough",
}
_NAME = "|".join(map(re.escape, CUE_NAMES.values()))
_END = r"\.(?= |$)"
_TOKEN = re.compile(
    rf"(?:^|(?<= ))(?P<cues>(?:{_NAME})(?:, (?:{_NAME}))*)(?:: | · made )"
    rf"|(?P<label>{'|'.join(map(re.escape, _LABELS))}): (?P<words>\d+ of .*?){_END}"
    rf"|(?P<night>\d+ of \d+[^:.]*? on the morning of [^:]*: .*?){_END}"
    rf"|(?P<tough>\d+ of \d+[^:.]*? on tough balls, [^:]*: .*?){_END}"
    rf"|(?P<trend>rounds without help on .*?){_END}"
)
"""A cue that what follows is about, or a sentence; a day's blocks have theirs without a label."""


@dataclass(frozen=True, slots=True)
class Told:
    """A sentence on a cue, of one kind of claim, and the place that tells it."""

    place: str
    cue: str
    kind: str
    words: str


def read(place: str, text: str) -> Iterator[Told]:
    """The comparisons and trends of a printed text, its lines joined again."""
    cues: list[str] = []
    for token in _TOKEN.finditer(" ".join(text.split())):
        if token["cues"]:
            cues = token["cues"].split(", ")
            continue
        kind = _LABELS[token["label"]] if token["label"] else _bare_kind(token)
        words = token["words"] or token["night"] or token["tough"] or token["trend"]
        yield from (Told(place, cue, kind, words) for cue in cues)


def _bare_kind(token: re.Match[str]) -> str:
    kinds = {"night": "overnight", "tough": "tough", "trend": "trend"}
    return next(kind for group, kind in kinds.items() if token[group])


def parts(cue: CueChange) -> dict[str, ChangeFacts]:
    """The comparisons of a cue as JSON has them, by kind of claim; no tough ball claims nothing."""
    tough = cue.tough if cue.tough is not None and cue.tough.late_seen else None
    named = {
        "yardstick": cue.learning,
        "hold": cue.hold,
        "practice": cue.practice,
        "overnight": cue.overnight,
        "tough": tough,
    }
    return {
        kind: part for kind, part in named.items() if part is not None and part.change is not None
    }


def of_facts(place: str, changes: tuple[StrokeChange, ...]) -> Iterator[Told]:
    """What JSON tells: each comparison's own sentence, and the sentences of its cue."""
    for change in changes:
        for cue in change.cues:
            for kind, part in parts(cue).items():
                yield Told(f"{place}, {kind}", cue.name, kind, part.sentence)
            told = " ".join((cue.learned, *cue.more, cue.trend))
            yield from read(f"{place}, sentences", f"{cue.name}: {told}")


def evening(book: Book, here: Clinic, player: str, day: int) -> Iterator[Told]:
    """What the court's review and the page of that day tell, the latter printed and as JSON."""
    facts = day_facts(book, here, DAYS[day - 1], player)
    yield from read("day, printed", day_text(facts))
    yield from of_facts("day, JSON", facts.players[0].changes)
    for line in review(book, here, player, DAYS[day - 1]):
        kind, _, rest = line.partition(", ")
        cue, _, words = rest.partition(": ")
        if kind == "yardstick" and cue in CUE_NAMES.values():
            which = "hold" if "this morning" in words else "yardstick"
            yield Told("review", cue, which, _dated(words, day))


def last_evening(book: Book, here: Clinic, player: str) -> Iterator[Told]:
    """What is told of the whole clinic: the player's page and the take-home sheet."""
    facts = player_facts(book, here, player)
    yield from read("player, printed", player_text(facts))
    yield from of_facts("player, JSON", facts.changes)
    sheet = take_home(book, here, player, shipped_library())
    yield from read("take-home, printed", takehome_text(sheet, EVERYTHING))
    bare = html.unescape(re.sub(r"</?(?:strong|b|em)>", "", takehome_html(sheet)))
    yield from read("take-home, HTML", re.sub(r"<[^>]*>", " ", bare))


def review(book: Book, here: Clinic, player: str, on: date) -> list[str]:
    """The lines of the review of the day's last practice round."""
    (day,) = [day for day in lookups.days(book, here.id) if day.date == on]
    who = lookups.player_on_roster(book, here.id, player)
    (round_id,) = book.db.execute(
        "SELECT id FROM round WHERE day_id = ? AND player_id = ? AND purpose = ?"
        " ORDER BY place DESC LIMIT 1",
        [day.id, who.id, Purpose.PRACTICE],
    ).fetchone()
    live = lookups.live_round(book, round_id)
    view = cast(CourtView, SimpleNamespace(clinic=here, day=day))
    return [line for line, _ in review_lines(page_of(book, view, live, Speak.OFF), EVERYTHING)]


def _dated(words: str, day: int) -> str:
    """The words with the day's number for `today` and `this morning`."""
    return re.sub(r"\b(today|this morning)\b", f"on day {day}", words)
