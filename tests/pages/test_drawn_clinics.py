"""The drawn clinics hold whoever a page may meet, and are the same in every run."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path

from courtlog.coaching.game.rounds import Purpose
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.history_lookups import doubts
from courtlog.reports.facts.day_facts import day_facts
from tests.pages.drawn_books import in_book
from tests.pages.drawn_clinics import LONG_NAME, Traits, drawn_clinic
from tests.pages.fates import SORE_BALLS, Fate

TEN = range(10)


def test_ten_clinics_have_every_size_fate_trait_and_purpose() -> None:
    ten = [drawn_clinic(number) for number in TEN]
    assert {len(drawn.fates) for drawn in ten} >= {1, 2, 12}
    assert {len(drawn.dates) for drawn in ten} == {1, 2, 3, 4, 5, 9}
    assert {fate for drawn in ten for fate in drawn.fates.values()} == set(Fate)
    for trait in fields(Traits):
        assert {getattr(drawn.traits, trait.name) for drawn in ten} == {True, False}, trait.name
    rounds = [round_ for drawn in ten for day in drawn.record.days for round_ in day.rounds]
    assert {round_.purpose for round_ in rounds} == set(Purpose)
    assert len({round_.drill.partition("/")[0] for round_ in rounds}) > 4
    assert {card.age for drawn in ten for card in drawn.cards} == {"", "minor", "adult"}
    assert any(LONG_NAME in drawn.fates for drawn in ten)


def test_a_clinic_is_drawn_the_same_again() -> None:
    assert drawn_clinic.__wrapped__(3) == drawn_clinic(3)


def test_each_fate_leaves_the_balls_it_says() -> None:
    for drawn in map(drawn_clinic, TEN):
        for name, fate in drawn.fates.items():
            balls = [
                record.ball
                for day in drawn.record.days
                for round_ in day.rounds
                if round_.player == name
                for record in round_.balls
            ]
            grades = {grade for ball in balls for grade in ball.grades}
            known = {
                Fate.ABSENT: not balls,
                Fate.ONE_BALL: len(balls) == 1,
                Fate.SORE: len(balls) == SORE_BALLS,
                Fate.ONLY_MISSES: grades == {0},
                Fate.ONLY_NEAR: grades == {1},
                Fate.ALL_MADE: grades == {2},
                Fate.ONLY_UNSEEN: grades == {None},
            }
            assert known.get(fate, bool(balls)), f"{drawn.number}, {name}: {fate}"


def test_the_book_has_the_cards_main_cues_doubts_reds_and_who_left(tmp_path: Path) -> None:
    mains, doubted, reds = set(), set(), set()
    for number in TEN:
        drawn = drawn_clinic(number)
        (folder := tmp_path / str(number)).mkdir()
        book, here = in_book(folder, drawn)
        rows = book.db.execute("SELECT cue FROM main_cue").fetchall()
        mains.add(bool(rows) is drawn.traits.main_cue)
        anybody = lookups.players(book, here.id)[0].id
        doubted.add(bool(doubts(book, here.id, anybody, drawn.stroke)))
        facts = day_facts(book, here, drawn.dates[0], None)
        reds |= {drawn.fates[p.player] for p in facts.players if p.arm.reds}
        cards = [card.age == "minor" for card in drawn.cards]
        shown = [player.name for player in lookups.players(book, here.id)]
        minors = dict(zip(shown, cards, strict=True))
        assert all(player.minor is minors[player.player] for player in facts.players)
        book.close()
    assert mains == {True}
    assert doubted == {True, False}
    assert Fate.RED in reds
