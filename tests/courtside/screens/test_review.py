"""The quick review at the court: opens by itself, closes with a next-player key, takes the call."""

from __future__ import annotations

from pathlib import Path

from textual.pilot import Pilot

from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.reads import lookups
from courtlog.settings import Settings
from tests.court import LIBRARY, again, desk_in, feed, player
from tests.courtside.screen import on_court, shown

REVIEWED = Settings(review=True)


def on(desk: Desk) -> str:
    """Player, drill and purpose on court, from the book."""
    live = again(desk).view.live
    assert live is not None
    over = " over" if live.ended_at is not None else ""
    return f"{live.player.name} {live.drill.name} {live.purpose}{over}"


def test_the_end_of_a_round_shows_its_review(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    feed(desk, "_ 2-1/ _ 220 _ 211")
    text = on_court(desk, ["z"])
    assert text.splitlines()[1].strip() == "Made most today: turn, 6 of 6 (100%)."
    assert text.index("turn  ") < text.index("spacing  ") < text.index("finish  ")
    assert "Work on: finish. Say “hand over the far shoulder, hold”" in text
    assert "Rung: keep feeding (finish" in text
    assert "Next practice round: say it on 7 of 10 balls" in text
    assert on(desk).endswith("over")


def test_a_next_player_key_ends_the_round_shows_the_review_and_closes_it(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    feed(desk, "___")

    async def tab(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert "Made most today" in shown(app.screen)
        await pilot.press("tab")

    text = on_court(desk, ["tab"], then=tab)
    assert "Made most today" not in text
    assert on(desk) == "Tove forehand/racquet-feed choosing"


def test_enter_plays_the_same_again_and_backspace_goes_back_in(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    feed(desk, "___")
    on_court(desk, ["z", "backspace", "space"])
    live = again(desk).view.live
    assert live is not None
    assert len(live.feeding.taken) == 4
    on_court(again(desk), ["z", "enter"])
    assert on(desk) == "Maren forehand/racquet-feed practice"


def test_nothing_typed_into_a_review_is_a_rating(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    feed(desk, "___")
    on_court(desk, ["z", "o", "k", "space", "t", "escape"])
    assert desk.book.db.execute("SELECT count(*) FROM ball").fetchone() == (3,)


def test_a_rung_call_that_is_taken_is_played_the_next_time(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill="forehand/hand-feed", settings=REVIEWED)
    feed(desk, "_____")
    text = on_court(desk, ["q", "up"])
    assert "Maren goes up to Racquet feed, two spots next time." in text
    clinic = desk.view.clinic.id
    assert lookups.next_drill(desk.book, clinic, player(desk, "Maren").id) == (
        "forehand/racquet-feed"
    )
    on_court(again(desk), ["tab", "tab", "shift+tab"])
    assert on(desk) == "Maren forehand/racquet-feed practice"
    assert lookups.next_drill(desk.book, clinic, player(desk, "Maren").id) is None


def test_a_review_before_the_first_ball_says_so(tmp_path: Path) -> None:
    assert "There is no ball to review yet." in on_court(desk_in(tmp_path), ["q"])


def test_a_round_to_be_compared_counts_what_is_missing(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    text = on_court(desk, ["f2", *"yard", "enter", "space", "space", "2", "z"])
    assert "was seen on 2 balls: a fair comparison needs 14 more, 16 in all." in text
    assert "Work on" not in text, "an uncoached round is not coached afterwards either"


def test_the_first_day_goes_from_choosing_to_the_yardstick_to_practice(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    drill = "forehand/day-one-feed"
    purposes = []
    for _ in range(3):
        ladder, card = LIBRARY.drill(drill)
        desk.rounds.start(drill=(ladder, card))
        live = desk.view.live
        assert live is not None
        purposes.append(f"{live.purpose} {live.planned}")
        feed(desk, "___")
        desk.rounds.end_round()
    assert purposes == ["choosing 20", "yardstick 20", "practice 20"]


def test_every_screen_size_can_show_a_review(tmp_path: Path) -> None:
    for size in ((80, 24), (120, 40), (20, 5)):
        desk = desk_in(tmp_path / f"{size[0]}", settings=REVIEWED)
        feed(desk, "_ 000 111! _ 2")
        on_court(desk, ["q", "down", "escape", "q", "tab"], size=size)
        assert on(desk).startswith("Tove") or on(desk).endswith("over")
