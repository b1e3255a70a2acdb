"""The short way from balls to sentences is the book's way: the same balls, the same sentences."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.answers.ball_history import History
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.answer_lookups import stroke_histories
from courtlog.reports.facts.change_models import (
    StrokeChange,
)
from courtlog.reports.facts.day_facts import day_facts, player_facts
from tests.claims.claims import claims
from tests.claims.clinics import DAYS, clinic
from tests.claims.histories import CutOnce, history, name_of, record
from tests.claims.sentences import DAY_PAGE, PLAYER_PAGE, Said, sentences
from tests.claims.worlds import WORLDS
from tests.samples.generator import shipped_library

NOW = 1_780_000_000_000
FEW_WORLDS = pytest.mark.parametrize("world", ["one-drill", "worst-of-five", "change-40"])


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return create_or_open(tmp_path / "book.db", NOW)


def renumbered(past: History) -> History:
    """The history with its rounds numbered from 1, and no ids or places that a book gave."""
    ids = {ball.round_id: 0 for ball in past.balls}
    numbers = {round_id: number for number, round_id in enumerate(ids, 1)}
    balls = tuple(
        replace(ball, round_id=numbers[ball.round_id], number=0, ball_id=0) for ball in past.balls
    )
    return History(past.stroke, balls, past.doubts, past.main, past.planned_days).with_ties()


def said_of(change: StrokeChange, curves: bool) -> list[tuple[str, str]]:
    """Cue and sentence as the page has them."""
    return [
        (cue.cue, text)
        for cue in change.cues
        for text in (cue.learned, *cue.more, cue.trend, *[cue.curve_words] * curves)
    ] + [("", change.together), ("", change.whole.sentence)]


def told(said: Iterator[Said], day: int, curves: bool) -> list[tuple[str, str]]:
    """The same from the short way."""
    return [
        (one.cue, one.text)
        for one in said
        if (one.place, one.day) == (PLAYER_PAGE, day)
        and (curves or not one.text.startswith("skill curve"))
    ]


@FEW_WORLDS
def test_the_short_way_and_the_book_have_the_same_balls(book: Book, world: str) -> None:
    players = clinic(WORLDS[world], 0)
    put_in(book, record("Harbour Week", players), shipped_library(), NOW)
    here = lookups.clinics(book)[0]
    for player in players:
        who = lookups.player_on_roster(book, here.id, name_of(player))
        for day, on in enumerate(DAYS, 1):
            (past,) = stroke_histories(book, here.id, who.id, on)
            played = [each for each in player.rounds if each.day <= day]
            assert renumbered(past.history) == renumbered(history(played))
            assert (past.cues, past.dates) == (player.cues, DAYS[:day])


def test_the_short_way_says_what_the_pages_of_day_and_player_say(book: Book) -> None:
    players = clinic(WORLDS["samples"], 1)[:2]
    put_in(book, record("Harbour Week", players), shipped_library(), NOW)
    here = lookups.clinics(book)[0]
    for player in players:
        said = list(sentences(player, curves=(len(DAYS),)))
        for day, on in enumerate(DAYS, 1):
            (page,) = day_facts(book, here, on, name_of(player)).players
            assert said_of(page.changes[0], curves=False) == told(iter(said), day, curves=False)
            assert [page.rung] == [s.text for s in said if (s.place, s.day) == (DAY_PAGE, day)]
        (change,) = player_facts(book, here, name_of(player)).changes
        assert said_of(change, curves=True) == told(iter(said), len(DAYS), curves=True)


def test_what_is_kept_of_a_history_changes_no_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    player = clinic(WORLDS["samples"], 3)[0]
    short = list(sentences(player))

    def plain(past: History, balls: int) -> History:
        return replace(past, balls=past.balls[:balls])

    monkeypatch.setattr(CutOnce, "first", plain)
    assert list(sentences(player)) == short


def test_what_is_read_from_the_words_is_the_verdict_behind_them(book: Book) -> None:
    players = clinic(WORLDS["change-20"], 2)[:3]
    put_in(book, record("Harbour Week", players), shipped_library(), NOW)
    here = lookups.clinics(book)[0]
    for player in players:
        (change,) = player_facts(book, here, name_of(player)).changes
        for cue in change.cues:
            said = [Said(PLAYER_PAGE, 5, 1, cue.cue, text) for text in (cue.learned, *cue.more)]
            read = {claim.kind: claim.strength for claim in claims(said)}
            parts = {
                "yardstick": cue.learning,
                "practice": cue.practice,
                "overnight": cue.overnight,
                "tough": cue.tough,
            }
            verdicts = {kind: part.verdict for kind, part in parts.items() if part is not None}
            assert read == {
                kind: "a real" if words.startswith("clearly") else "may be"
                for kind, words in verdicts.items()
                if words.endswith((" up", " down"))
            }
