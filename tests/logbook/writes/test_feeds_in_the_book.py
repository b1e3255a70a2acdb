"""Feeds are in the book: the plan after a restart, two balls a key, other spots, what was said."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courtlog.coaching.game.drills import Order
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.speaking import Wording
from courtlog.coaching.on_court import feeding
from courtlog.coaching.on_court.feed_order import FeedChoice, Feeds, draw_feeds
from courtlog.coaching.on_court.live_round import Basket, LiveRound
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.courtside.desk.desk import Desk
from courtlog.errors import BookError, ChangedElsewhereError, CourtlogError
from courtlog.library.sheet_in import read_sheet
from courtlog.library.sheet_out import write_sheet
from courtlog.logbook.reads import day_lookups
from courtlog.logbook.rows import tallies
from courtlog.logbook.writes.clinic_writer import keep_plan
from courtlog.logbook.writes.feeds_writer import FeedsWriter
from tests.court import LIBRARY, SHIPPED, again, desk_in, feed, keys, play, player, written
from tests.doses import dose

CHOICE = FeedChoice(Order.SHUFFLED, 3, 10)
EVERY_SECOND = FeedChoice(Order.SERIAL, 2, 5, 2)


def fed(folder: Path, choice: FeedChoice = CHOICE, drill: str = "forehand/racquet-feed") -> Desk:
    """A desk whose first round is fed as chosen."""
    desk = desk_in(folder, drill=drill)
    desk.feeds.choose(choice)
    return desk


def on(desk: Desk) -> LiveRound:
    assert desk.view.live is not None
    return desk.view.live


def rounds(desk: Desk) -> int:
    (count,) = desk.book.db.execute("SELECT count(*) FROM round").fetchone()
    return int(count)


def test_a_longer_planned_round_is_drawn_in_full(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    maren = desk.view.roster[0]
    long = PlannedRound(maren, "forehand/racquet-feed", Purpose.PRACTICE, 30)
    keep_plan(desk.book, desk.view.clinic.id, desk.view.day.date, (), [long], desk.clock())
    desk.rounds.start(player=maren)
    live = on(again(desk))
    feeds = live.feeding.feeds
    assert len(feeds.spots) == len(feeds.tough) == live.planned == 30
    card = live.drill.drill
    assert feeds == draw_feeds(card, Purpose.PRACTICE, feeds.choice(card), feeds.seed, 30)


def test_the_feeds_of_a_round_are_those_of_its_seed_and_come_back(tmp_path: Path) -> None:
    desk = fed(tmp_path)
    live = on(desk)
    feeds = live.feeding.feeds
    assert feeds == draw_feeds(live.drill.drill, Purpose.PRACTICE, CHOICE, feeds.seed)
    assert sum(feeds.tough) == 3
    for _ in range(12):
        feed(desk, "_")
        assert on(again(desk)) == on(desk)
        assert again(desk).view.live == desk.view.live
    taken = on(desk).feeding.taken
    assert [ball.tough for ball in taken] == [feeds.is_tough(n) for n in range(1, 13)]


def test_what_is_held_against_the_yardstick_has_no_tough_ball_planned(
    tmp_path: Path,
) -> None:
    desk = desk_in(tmp_path, drill=None)
    ladder, drill = SHIPPED.drill("forehand/racquet-feed")
    planned = {}
    for purpose in Purpose:
        desk.rounds.start(drill=(ladder, drill), purpose=purpose)
        planned[purpose] = sum(on(desk).feeding.feeds.tough)
    assert planned == {
        Purpose.CHOOSING: 0,
        Purpose.YARDSTICK: 0,
        Purpose.PRACTICE: 2,
        Purpose.HOLD: 0,
        Purpose.TRANSFER: 4,  # the same share of twenty
    }


@settings(derandomize=True, deadline=None, max_examples=dose(25, 100))
@given(st.text("0122-_/!T@<<", max_size=40), st.sampled_from((CHOICE, EVERY_SECOND)))
def test_any_keys_give_the_pure_state_and_taken_back_the_fresh_round(
    tmp_path_factory: pytest.TempPathFactory, pressed: str, choice: FeedChoice
) -> None:
    desk = fed(tmp_path_factory.mktemp("any"), choice)
    fresh = on(desk)
    feed(desk, pressed)
    assert on(desk).feeding == play(fresh.feeding, pressed)
    assert on(again(desk)) == on(desk)
    assert again(desk).view.basket == desk.view.basket
    assert tallies.proof(desk.book.db) == []
    for _ in range(len(keys(pressed))):
        desk.balls.take_back()
    assert on(desk) == on(again(desk)) == fresh
    assert fresh.empty
    assert desk.view.basket == Basket(60, 60)
    assert tallies.proof(desk.book.db) == []


def test_an_untouched_planned_ball_is_not_taken_when_its_round_is_left(tmp_path: Path) -> None:
    desk = fed(tmp_path)
    tough = on(desk).feeding.feeds.tough.index(True)
    feed(desk, "_" * tough)
    assert on(desk).feeding.open.tough
    desk.balls.note("late")
    ball = "SELECT number FROM note JOIN ball ON ball.id = ball_id"
    assert desk.book.db.execute(ball).fetchone() == (tough,), "the note is on the ball before"
    desk.rounds.start(player=player(desk, "Tove"))
    (count,) = desk.book.db.execute("SELECT count(*) FROM ball WHERE taken").fetchone()
    assert count == tough


def test_every_second_ball_is_taken_by_itself_in_the_same_transaction(tmp_path: Path) -> None:
    desk = fed(tmp_path, replace(EVERY_SECOND, tough=0))
    feed(desk, "2")
    before = again(desk).view
    feed(desk, "-21")
    assert written(on(desk).feeding) == "221 ."
    assert desk.view.basket.left == 58
    assert on(desk).feeding.number == 3
    assert again(desk).view.live == desk.view.live
    feed(again(desk), "")
    desk = again(desk)
    feed(desk, "<<")
    assert on(desk) == before.live
    assert desk.view.basket.left == 60
    feed(desk, "-22 _ T")
    kinds = "SELECT kind, number FROM journal JOIN ball ON ball.id = ball_id ORDER BY journal.id"
    assert desk.book.db.execute(kinds).fetchall()[-3:] == [("key", 3), ("key", 4), ("key", 3)]
    assert written(on(desk).feeding) == "222 . 222! ."
    assert tallies.proof(desk.book.db) == []
    row = desk.book.db.execute("SELECT made, unseen FROM tally WHERE cue = 'turn' AND NOT tough")
    assert row.fetchone() == (1, 2), "a ball fed in between was not seen"


def test_a_key_of_two_balls_that_fails_at_the_second_leaves_nothing_behind(tmp_path: Path) -> None:
    desk = fed(tmp_path, EVERY_SECOND)
    before = desk.view
    desk.book.db.execute(
        "CREATE TEMP TRIGGER no BEFORE INSERT ON journal WHEN"
        " (SELECT number FROM ball WHERE id = new.ball_id) = 2"
        " BEGIN SELECT raise(ABORT, 'no'); END"
    )
    with pytest.raises(BookError):
        desk.balls.press(feeding.CleanBall())
    assert desk.view == before
    assert on(again(desk)) == before.live
    desk.book.db.execute("DROP TRIGGER no")
    feed(desk, "_")
    desk.book.db.execute(
        "CREATE TEMP TRIGGER no BEFORE INSERT ON journal WHEN"
        " (SELECT number FROM ball WHERE id = new.ball_id) = 1"
        " BEGIN SELECT raise(ABORT, 'no'); END"
    )
    with pytest.raises(BookError):
        desk.balls.take_back()
    assert written(on(again(desk)).feeding) == "222 ."
    assert tallies.proof(desk.book.db) == []


def test_balls_of_a_round_with_every_second_rated_move_by_twos(tmp_path: Path) -> None:
    desk = fed(tmp_path, EVERY_SECOND)
    feeds = on(desk).feeding.feeds
    feed(desk, "222 000 111 2")
    with pytest.raises(BookError, match="an even number"):
        desk.amendments().give_last(player(desk, "Tove"), 3)
    desk.amendments().give_last(player(desk, "Tove"), 4)
    assert written(on(desk).feeding).startswith("000")
    assert on(desk).feeding.feeds == feeds.begun_at(3)
    assert on(again(desk)) == on(desk)
    assert [ball.grades[0] is None for ball in on(desk).feeding.taken] == [False, True] * 2
    feed(desk, "<<<")
    assert on(desk).feeding.number == 3
    assert tallies.proof(desk.book.db) == []


def test_feeds_chosen_before_a_ball_rewrite_the_round_and_after_one_begin_another(
    tmp_path: Path,
) -> None:
    desk = desk_in(tmp_path)
    desk.balls.note("windy")
    first = on(desk).id
    desk.feeds.choose(CHOICE)
    assert on(desk).id == first
    assert on(desk).feeding.feeds.choice(on(desk).drill.drill) == CHOICE
    feed(desk, "2<")
    desk.feeds.choose(EVERY_SECOND)
    assert on(desk).id != first, "a key taken back has left its lines in the journal"
    assert on(desk).feeding.feeds.every == 2
    feed(desk, "_")
    desk.feeds.choose(CHOICE)
    assert (rounds(desk), on(desk).empty, on(desk).feeding.feeds.every) == (3, True, 1)
    assert on(again(desk)) == on(desk)


def test_the_next_round_of_the_drill_goes_on_with_what_was_chosen(tmp_path: Path) -> None:
    desk = fed(tmp_path, replace(EVERY_SECOND, speak=None))
    feed(desk, "_")
    desk.rounds.start(player=player(desk, "Tove"), purpose=Purpose.YARDSTICK)
    assert on(desk).feeding.feeds.every == 2
    assert not any(on(desk).feeding.feeds.tough)
    feed(desk, "_")
    desk.rounds.start(purpose=Purpose.TRANSFER)
    feeds = on(desk).feeding.feeds
    assert (feeds.kind, sum(feeds.tough), len(feeds.tough)) == (Order.SERIAL, 8, 40)
    desk.rounds.start(drill=LIBRARY.drill("forehand/hand-feed"), purpose=Purpose.PRACTICE)
    assert on(desk).feeding.feeds.every == 1, "another drill has its own card"
    ladder, card = LIBRARY.drill("forehand/racquet-feed")
    edited = replace(card, order=Order.BLOCKED)
    desk.rounds.start(drill=(ladder, edited), purpose=Purpose.PRACTICE)
    assert on(desk).feeding.feeds.kind is Order.BLOCKED, "an edited card begins anew"


def test_another_spot_is_in_the_book(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    assert on(desk).next_feed() == "deep to the forehand corner"
    desk.feeds.other_spot()
    assert on(desk).next_feed() == "short to the middle"
    assert on(again(desk)) == on(desk)
    spots = on(desk).feeding.feeds.spots
    assert spots == (1, 0, 0, 1, 0, 1, 0, 1, 0, 1)
    assert "Ball 1 goes to: short to the middle. Ball 2 changes places" in desk.view.message
    other = again(desk)
    feed(desk, "_")
    desk.feeds.other_spot()
    with pytest.raises(ChangedElsewhereError):
        FeedsWriter(other.book).replace_feeds(on(other).id, on(other).feeding.feeds, Feeds())
    feed(desk, "_" * 8)
    desk.feeds.other_spot()
    assert desk.view.message == "Ball 10 goes to: deep to the forehand corner."


def test_a_drill_of_one_spot_has_no_other(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill="forehand/hand-feed")
    before = on(desk)
    desk.feeds.other_spot()
    assert desk.view.message.startswith("This drill has one spot: ")
    assert on(again(desk)) == before


def test_what_was_said_is_logged_on_the_ball_in_hand(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feeds = desk.feeds
    with pytest.raises(CourtlogError, match="no ball yet"):
        feeds.mark_spoken()
    feed(desk, "_")
    feeds.mark_spoken()
    assert on(desk).wordings_said == ((1, Wording.INNER),)
    feed(desk, "2")
    feeds.mark_spoken()
    feeds.mark_spoken()
    assert on(desk).wordings_said == ((1, Wording.INNER), (2, Wording.OUTER))
    assert on(again(desk)) == on(desk)
    assert on(desk).spoken == (Wording.INNER,), "the open ball is not hit yet"
    feeds.mark_spoken()
    assert on(desk).wordings_said == ((1, Wording.INNER),)
    feed(desk, "<<")
    assert on(desk).spoken == (), "a ball taken back was not spoken after"


def test_speaking_in_an_uncoached_round_is_told(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    desk.rounds.start(purpose=Purpose.HOLD)
    feed(desk, "_")
    desk.feeds.mark_spoken()
    said = "Ball 1: you spoke, first wording. This round was to be without help."
    assert desk.view.message == said
    assert desk.view.advice is None


def test_each_practice_round_of_the_day_is_spoken_on_less(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill="backhand-one/live")
    spoken = []
    for _ in range(4):
        advised = 0
        for _ in range(8):
            feed(desk, "_")
            assert desk.view.advice is not None
            advised += desk.view.advice.speak
        assert again(desk).view.advice == desk.view.advice
        spoken.append(advised)
        desk.rounds.start(purpose=Purpose.PRACTICE)
    assert spoken == [8, 6, 4, 2]
    desk.rounds.start(player=player(desk, "Tove"), purpose=Purpose.PRACTICE)
    assert on(desk).share == 1, "another player begins at the first"


def test_a_sheet_carries_the_balls_and_the_order_but_not_the_plan(tmp_path: Path) -> None:
    desk = fed(tmp_path, EVERY_SECOND)
    feed(desk, "222 21-/ 0!22")
    desk.feeds.mark_spoken()
    desk.rounds.end_round()
    record = day_lookups.record(desk.book, desk.view.clinic)
    sheet = write_sheet(record)
    tokens = [ball.token() for ball in on(desk).feeding.taken]
    assert tokens[1::2] == ["."] * 3
    assert " ".join(tokens) in sheet
    assert read_sheet(sheet, "out.txt", LIBRARY, "UTC") == record
