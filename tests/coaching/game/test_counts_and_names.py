"""Counts and names as they are shown: n = 0 is none, few balls have no percentage, text is text."""

from __future__ import annotations

import pytest

from courtlog.coaching.answers.not_seen import not_seen_words
from courtlog.coaching.game.clinic_record import CheckIn, CheckInMoment
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.drills import Order
from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.on_court.feed_order import feed_order
from courtlog.plain_text import plain
from tests.court import LIBRARY


@pytest.mark.parametrize(
    ("counts", "words"),
    [
        (Counts(), "none"),
        (Counts(unseen=7), "none"),
        (Counts(missed=1, made=3), "3 of 4"),
        (Counts(missed=4), "0 of 4"),
        (Counts(missed=1, near=1, made=3), "3 of 5 (60%)"),
        (Counts(missed=2, near=4, made=14, unseen=3), "14 of 20 (70%)"),
    ],
)
def test_a_share_carries_its_counts(counts: Counts, words: str) -> None:
    assert counts.words() == words


@pytest.mark.parametrize(
    ("counts", "words"),
    [
        (Counts(missed=4, made=12, unseen=4), ""),
        (Counts(missed=3, made=12, unseen=5), "5 of 20 not seen: 12 to 17 made"),
        (Counts(unseen=3), "3 of 3 not seen: 0 to 3 made"),
        (Counts(), ""),
    ],
)
def test_more_than_a_fifth_not_seen_is_told_in_counts(counts: Counts, words: str) -> None:
    assert not_seen_words(counts) == words


def test_not_seen_is_never_missed() -> None:
    counts = Counts.of([Grade.MADE, None, None, Grade.MISSED])
    assert (counts.seen, counts.unseen, counts.share) == (2, 2, 0.5)
    assert Counts.of([None]).share is None


def test_every_grade_has_a_shape_a_letter_and_a_word_of_its_own() -> None:
    for name in ("word", "mark", "letter_mark", "digit"):
        assert len({getattr(look, name) for look in LOOKS.values()}) == 4


@pytest.mark.parametrize("token", ["222", "2-0!", "022", ".", ".!", "--1"])
def test_a_ball_reads_back_from_its_token(token: str) -> None:
    assert Ball.from_token(token, 3).token() == token


@pytest.mark.parametrize("token", ["", "22", "2222", "3--", "2 2", "22x", "!22", "22!!"])
def test_what_is_no_ball_of_three_cues_is_refused(token: str) -> None:
    with pytest.raises(ValueError, match=r"ball|grades"):
        Ball.from_token(token, 3)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("[bold]x[/] \x1b[31m =1+1", "[bold]x[/] ␛[31m =1+1"),
        ("a\tb\nc\x7f", "a␉b␊c␡"),
        ("\u202eabc\u2066", "‹202E›abc‹2066›"),
        ("Zoë Œuvre 山田 👩‍🎾", "Zoë Œuvre 山田 👩‍🎾"),
        ("\x9b31m", "‹009B›31m"),
        ("zero\u200bwidth", "zero‹200B›width"),
    ],
)
def test_hidden_characters_are_shown_and_never_obeyed(text: str, shown: str) -> None:
    assert plain(text) == shown


def test_only_practice_is_coached() -> None:
    assert [purpose for purpose in Purpose if purpose.coached] == [Purpose.PRACTICE]


def test_a_check_in_in_words() -> None:
    check_in = CheckIn(
        player="Maren",
        moment=CheckInMoment.END,
        pain=2,
        place="elbow",
        effort=6,
        minutes=40,
        note="tension on high balls",
    )
    assert check_in.words() == "end: pain elbow 2 · effort 6 · 40 min · “tension on high balls”"


def test_feed_orders_hold_each_spot_fairly_and_come_back_from_their_seed() -> None:
    orders = set()
    for name in LIBRARY.names():
        _, drill = LIBRARY.drill(name)
        order = feed_order(drill, seed=7)
        assert order == feed_order(drill, seed=7)
        assert len(order) == drill.balls
        counts = [order.count(spot) for spot in range(len(drill.spots))]
        assert max(counts) - min(counts) <= 1
        orders.add(drill.order)
    assert orders == set(Order)
