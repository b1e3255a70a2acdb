"""The court screen on feeds: large words for a tough ball, F10, another spot, when to speak."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from courtlog.coaching.game.drills import Order
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.on_court.feed_order import FeedChoice
from courtlog.courtside.app.court_app import CourtlogApp
from tests.court import again, close_look, desk_in, feed
from tests.courtside.screen import line_with, on_court, shown

SIZES = pytest.mark.parametrize("size", [(80, 24), (120, 40)])


@SIZES
def test_the_next_feed_says_that_it_is_to_be_tough(tmp_path: Path, size: tuple[int, int]) -> None:
    desk = desk_in(tmp_path)
    desk.feeds.choose(FeedChoice(Order.SERIAL, 5, 10))
    assert "TOUGH" not in on_court(desk, size=size)
    text = on_court(desk, ["space"], size)
    assert "► TOUGH · short to the middle" in text
    assert "ball ! TOUGH" in text
    assert "TOUGH" not in on_court(desk, ["t"], size), "t takes the flag off"
    assert "TOUGH" not in on_court(again(desk), [], size)


@SIZES
def test_the_plan_says_after_which_balls_to_speak(tmp_path: Path, size: tuple[int, int]) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    desk.rounds.start(purpose=desk.view.live.purpose if desk.view.live else None)
    assert "quiet after ball 1 · next feed" in on_court(desk, size=size)
    assert "quiet after ball 1" in on_court(desk, ["space"], size), "the ball just hit"
    assert "SPEAK after ball 2" in on_court(desk, ["o"], size)
    text = on_court(desk, ["f2", *"hold", "enter", "space"], size)
    assert "SPEAK" not in text
    assert "quiet" not in text


def test_the_band_says_what_was_missed(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=close_look(speak="band"))
    assert "quiet · next feed" in on_court(desk)
    assert "SPEAK now: spacing missed · next feed" in on_court(desk, ["j", "space"])
    assert "quiet · next feed" in on_court(desk, ["space"])


def test_speaking_can_be_left_to_the_coach(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=close_look(speak="off"))
    text = on_court(desk, ["space"])
    assert "SPEAK" not in text
    assert "quiet" not in text


@SIZES
def test_f10_chooses_the_feeds_of_this_round(tmp_path: Path, size: tuple[int, int]) -> None:
    desk = desk_in(tmp_path)

    async def look(pilot: Pilot[None], app: CourtlogApp) -> None:
        text = shown(app.screen)
        assert "3 of 5 rated balls" not in text
        assert "2 of 5 rated balls" in text
        assert "every second ball, one fed in between" in text
        assert "after a miss, or three nears of a cue in a row" in text
        assert "5 balls to rate, 10 to feed. The feeds of this round are drawn again." in text
        await pilot.press("enter")

    keys = ["f10", "right", "down", *["right"] * 4, "down", "right", "down", "right"]
    text = on_court(desk, keys, size, then=look)
    assert desk.view.message.startswith("This round: 10 balls, 5 of them rated, shuffled, 2 tough.")
    live = again(desk).view.live
    assert live is not None
    feeds = live.feeding.feeds
    assert (feeds.kind, feeds.every, feeds.speak) == (Order.SHUFFLED, 2, Speak.BAND)
    assert sum(feeds.tough) == 2
    assert "practice · rate every second ball" in text
    assert "of 10 fed" in text


def test_f10_left_or_unchanged_changes_nothing(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    before = desk.view.live
    on_court(desk, ["f10", "right", "down", "right", "escape"])
    on_court(desk, ["f10", "right", "left", "enter"])
    on_court(desk, ["z", "f10"])
    assert "No round is open" in desk.view.message
    feed(desk, "<")
    assert again(desk).view.live == before


@SIZES
def test_every_second_ball_is_fed_in_between(tmp_path: Path, size: tuple[int, int]) -> None:
    desk = desk_in(tmp_path)
    desk.feeds.choose(FeedChoice(Order.SERIAL, 0, 5, 2))
    text = on_court(desk, ["space"], size)
    assert desk.view.message.endswith("Rate every second ball: feed one in between.")
    assert "SPEAK after ball 1 · same again, then" in text
    assert "► short to the middle" in text
    assert desk.view.basket.left == 58
    text = on_court(desk, ["space", "backspace"], size)
    assert "Taken back: Ball 3 taken" in text
    assert desk.view.basket.left == 58
    text = on_court(desk, ["f2", *"hold", "enter"], size)
    assert "hold · WITHOUT HELP · rate every second ball" in text
    assert "of 40 fed" in text
    feed(desk, "_" * 19)
    assert "40 balls: the round is full." not in desk.view.message
    feed(desk, "_")
    assert "40 balls: the round is full." in desk.view.message


@SIZES
def test_the_arrow_gives_the_next_ball_another_spot(tmp_path: Path, size: tuple[int, int]) -> None:
    desk = desk_in(tmp_path)
    assert "► deep to the forehand corner" in on_court(desk, size=size)
    text = on_court(desk, ["right"], size)
    assert "► short to the middle" in text
    assert "Ball 1 goes to: short to the middle. Ball 2 changes places with it." in text


def test_the_arrow_of_a_number_pad_asks_for_numlock(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=close_look(pad="numbers"))
    assert "NumLock is off" in " ".join(on_court(desk, ["right"]).split())


def test_h_logs_that_the_coach_spoke_and_the_review_tells_it(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    text = on_court(desk, ["h"])
    assert "There is no ball yet to have spoken after." in text
    assert "Ball 1: you spoke, first wording." in on_court(desk, ["space", "h"])
    assert "Ball 1: you spoke, second wording." in on_court(desk, ["h"])
    assert "Ball 1: you did not speak after all." in on_court(desk, ["h"])
    text = on_court(desk, ["h", "space", "h", "h", "space", "q", "f"], size=(120, 50))
    assert "Spoke after 2 of 3 balls (plan: 3); first wording 1, second 1." in text


def test_the_review_of_an_uncoached_round_says_that_it_was_not_purely_so(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    text = on_court(desk, ["f2", *"hold", "enter", "space", "space", "h", "q", "f"], size=(120, 50))
    said = " ".join(text.split())
    assert "You spoke after 1 of 2 balls, so this round was not purely without help." in said
    assert "You spoke after 1 of 2 balls: this round was to be without help, and it was not" in said


def test_a_review_of_every_second_ball_counts_the_rated_ones(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    desk.feeds.choose(FeedChoice(Order.SERIAL, 0, 5, 2))
    text = on_court(desk, ["space", "h", "space", "q", "f"], size=(120, 50))
    assert "practice · 4 balls, 2 rated" in text
    assert "Spoke after 1 of 2 balls (plan: 2)" in text
    assert "turn: made 2 of 2, near 0, missed 0, 2 not seen." in text
    assert "say it on 3 of 5 balls" in text


def test_one_hand_on_the_number_pad_marks_tough_and_logs_what_was_said(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=close_look(pad="numbers"))
    assert "ball ! TOUGH" in on_court(desk, ["full_stop"])
    assert "ball ! TOUGH" not in on_court(desk, ["comma"])
    on_court(desk, ["0", "plus"])
    assert "Ball 1: you spoke, first wording." in desk.view.message
    assert ". or ," in line_with(
        on_court(desk, ["question_mark"]), "the open ball is tough"
    ).replace("t or . or ,", ". or ,")
