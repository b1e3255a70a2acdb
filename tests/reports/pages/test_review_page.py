"""The review at the court and the evening's page: the same sentences of the same balls."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from types import SimpleNamespace
from typing import cast

import pytest

from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.voice.day_names import DayNames
from courtlog.coaching.voice.statement import SILENCE, Statement
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.screens.review import page_of
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.reports.facts.change_models import StrokeChange
from courtlog.reports.facts.day_facts import day_facts
from courtlog.reports.pages.review_text import HEADS, ReviewPage, review_lines
from tests.claims.clinics import clinic
from tests.claims.histories import record
from tests.claims.worlds import WORLDS
from tests.court import DAY, LIBRARY, START, open_book
from tests.reports.pages.test_pages import SAMPLES, book_of, sample

DRAWN = ("planned", "streaks")
"""Worlds of drawn clinics."""


@pytest.fixture(scope="module", params=[*SAMPLES, *DRAWN])
def book(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Book:
    """An invented clinic, or a drawn one of three players."""
    folder = tmp_path_factory.mktemp("clinic")
    if request.param in SAMPLES:
        return book_of(folder, sample(request.param))
    book = open_book(folder)
    put_in(book, record(request.param, clinic(WORLDS[request.param], 7)[:3]), LIBRARY, START)
    return book


def last_reviews(book: Book) -> Iterator[tuple[ReviewPage, StrokeChange, str]]:
    """Of each player, day and stroke the last review, the evening's facts, the day's name."""
    here = lookups.clinics(book)[0]
    dates = lookups.dates(book, here.id)
    for on in dates:
        pages = day_facts(book, here, on, None).players
        changes = {(page.player, c.stroke): c for page in pages for c in page.changes}
        last = {}
        for (round_id,) in book.db.execute(
            "SELECT round.id FROM round JOIN day ON day.id = day_id WHERE date = ?"
            " AND EXISTS (SELECT 1 FROM ball WHERE round_id = round.id AND taken)"
            " ORDER BY court, place",
            [on.isoformat()],
        ):
            live = lookups.live_round(book, round_id)
            last[live.player.shown_name, live.drill.stroke] = round_id
        for key, round_id in last.items():
            yield review(book, here, on, round_id), changes[key], DayNames.of(dates).on(on)


def review(book: Book, here: Clinic, on: date, round_id: int) -> ReviewPage:
    """The page of the review of a round."""
    today = next(day for day in lookups.days(book, here.id) if day.date == on)
    view = cast(CourtView, SimpleNamespace(clinic=here, day=today))
    return page_of(book, view, lookups.live_round(book, round_id), Speak.OFF)


def test_the_last_review_of_a_day_says_the_good_thing_and_the_one_thing_of_the_evenings_page(
    book: Book,
) -> None:
    compared = 0
    for page, change, _ in last_reviews(book):
        told = [line.statement for line in page.aloud]
        evening = [bare(change.good), bare(change.one_thing)]
        said = [bare(s) for s in told if not s.sentence.startswith("Next")]
        assert said == [each for each in evening if each.sentence]
        compared += len(said)
    assert compared > 20


def bare(statement: Statement) -> Statement:
    """The three depths, without what only a table needs."""
    return replace(statement, short="")


def test_against_the_first_yardstick_the_review_says_of_today_what_the_page_says(
    book: Book,
) -> None:
    compared = 0
    for page, change, by_name in last_reviews(book):
        names = {cue.name: cue for cue in change.cues}
        for statement in page.statements:
            label, _, rest = statement.figures.partition(", ")
            if label == "yardstick" and statement.sentence:
                said = names[rest.partition(":")[0]].said.change
                assert statement.sentence.replace("today", by_name) == said.sentence
                assert statement.reason == said.reason
                compared += 1
    assert compared


@pytest.mark.parametrize("width", range(30, 130, 7))
@pytest.mark.parametrize("length", range(4, 60, 5))
def test_a_cues_name_is_cut_only_where_the_columns_leave_no_room(width: int, length: int) -> None:
    name = "racquet under the ball and a good deal further than that, again"[:length].strip()
    counts = ("3 of 4", "37 of 55 (67%)")
    page = ReviewPage((), SILENCE, "", (HEADS, (name, *counts)), ((),), DAY, ())
    lines = [line for line, _ in review_lines(page, width=width)]
    columns = [max(len(head), len(text)) for head, text in zip(HEADS[1:], counts, strict=True)]
    natural = len(name) + 2 + sum(columns) + 2 * (len(columns) - 1)
    assert all(len(line) <= width for line in lines)
    assert (name in lines[2]) or natural > width
    assert "…" not in lines[2] or natural > width
