"""The quick review at the court: opens by itself, closes with a next-player key, takes the call."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from textual.pilot import Pilot

from courtlog.coaching.plans.rotation import Presence
from courtlog.coaching.voice.court_voice import KEEP_QUIET
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.commands.table import BY_KEY
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.surface.large_letters import drawn
from courtlog.logbook.reads import lookups
from tests.court import LIBRARY, again, close_look, desk_in, feed, player
from tests.courtside.screen import flat, on_court, shown

REVIEWED = close_look(review=True)


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
    assert text.index("turn  ") < text.index("spacing  ") < text.index("finish  ")
    assert "Say “hand over the far shoulder, hold” or" in text
    flat = " ".join(text.split())
    assert "stay on Racquet feed, two spots: finish, 3 of the last 6 balls." in flat
    assert "Next practice round: say it on 7 of 10 balls" in text
    assert on(desk).endswith("over")


def test_a_next_player_key_ends_the_round_shows_the_review_and_closes_it(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    feed(desk, "___")

    async def tab(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert "▀ yardstick  ▬ today" in shown(app.screen)
        await pilot.press("tab")

    text = on_court(desk, ["tab"], then=tab)
    assert "▀ yardstick  ▬ today" not in text
    assert on(desk) == "Tove forehand/racquet-feed choosing"


@pytest.mark.parametrize("keys", [["tab"], ["escape", "tab"], ["backspace", "tab", "tab"]])
def test_whom_the_coach_chose_hits_next_after_the_review(keys: list[str], tmp_path: Path) -> None:
    """The queue's next one would take balls of the player who was called to the feed."""
    desk = desk_in(tmp_path, ("Ruben", "Ilse", "Anouk", "Maren"), settings=REVIEWED)
    feed(desk, "222")

    async def next_key(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert "Maren next: Tab" in flat(shown(app.screen))
        await pilot.press(*keys)

    on_court(desk, ["y", *"maren", "enter"], then=next_key)
    assert on(desk).startswith("Maren ")
    assert desk.view.rotation.next_up == player(desk, "Ilse"), "the queue again"


def test_who_was_chosen_and_is_not_there_is_not_next(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, ("Ruben", "Ilse", "Maren"))
    desk.state.choose_next(player(desk, "Maren"))
    desk.state.read_rotation()
    assert desk.view.rotation.next_up == player(desk, "Maren")
    desk.rotation.attend(player(desk, "Maren"), Presence.LATE)
    assert desk.view.rotation.next_up == player(desk, "Ilse")


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
    text = on_court(desk, ["f2", *"yard", "enter", "space", "u", "space", "2", "z"])
    assert "was seen on 2 balls: a fair comparison needs 14 more, 16 in all." in text
    assert "Say “" not in text, "an uncoached round is not coached afterwards either"
    assert KEEP_QUIET in text


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


THREE_LINES = ("GOOD TURN 6 OF 6", "WORK FINISH 3 OF 6", "NEXT TOVE CHOOSING")


@pytest.mark.parametrize(("size", "rows"), [((80, 24), 3), ((100, 30), 3), ((120, 40), 5)])
def test_three_lines_to_read_aloud_stand_first_in_large_letters(
    tmp_path: Path, size: tuple[int, int], rows: int
) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    feed(desk, "_ 2-1/ _ 220 _ 211")
    screen = [line.strip() for line in on_court(desk, ["z"], size=size).splitlines()]
    for words in THREE_LINES:
        large = drawn(words, rows)
        assert large is not None
        assert len(large) == rows
        top = screen.index(large[0].strip())
        assert screen[top : top + rows] == [row.strip() for row in large]
        del screen[: top + rows]


@pytest.mark.parametrize("size", [(79, 24), (80, 23), (40, 16)])
def test_a_small_terminal_has_the_same_three_lines_in_its_own_letters(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    feed(desk, "_ 2-1/ _ 220 _ 211")
    text = on_court(desk, ["z"], size=size)
    sentences = (
        "Good: shoulder turn, all 6 balls.",
        "One thing: finish, 3 of 6 balls. Say “hand over the far shoulder, hold” or",
        "Next: Tove, choosing on Racquet feed, two spots.",
    )
    at = [flat(text).index(words) for words in sentences]
    assert at == sorted(at)
    above = text[: text.index("this round")] if "this round" in text else text
    assert not set("▀▄█") & set(above), "the strips below it are drawn of blocks too"


def test_the_coach_asks_for_the_reason_and_for_the_figures_of_each_line(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    feed(desk, "_ 2-1/ _ 220 _ 21!1 _")
    reasons = (
        "Good: shoulder turn, all 7 balls.",
        "The good thing is the cue made most often that day",
        "Fewest balls come first, then the longest wait. Why choosing: first day",
        "Only practice balls on this drill count",
        "What is said gets less over a day's rounds of a drill.",
    )
    figures = (
        "finish: made 4 of 7 (57%), near 2, missed 1.",
        "10 balls to rate.",
        "Rung: keep feeding (finish",
        "tough, finish: 0 of 1 on tough balls, 4 of 6 on usual ones: too few balls to tell",
    )
    for keys, asked in (("", ""), ("w", "w"), ("f", "f"), ("wf", "wf"), ("wfw", "f"), ("wwff", "")):
        text = flat(on_court(again(desk), ["q", *keys], size=(120, 70)))
        assert [words in text for words in reasons] == ["w" in asked] * len(reasons), keys
        assert [words in text for words in figures] == ["f" in asked] * len(figures), keys
        assert "w why f figures" in text


def test_the_one_thing_has_its_phrase_under_it(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    feed(desk, "_ 2-1/ _ 220 _ 211")
    lines = on_court(desk, ["z"]).splitlines()
    large = drawn("WORK FINISH 3 OF 6", 3)
    assert large is not None
    under = [line.strip() for line in lines].index(large[-1].strip()) + 1
    assert lines[under].startswith(" Say “hand over the far shoulder, hold” or")


def test_while_the_cues_are_chosen_next_is_to_pick_them(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    text = on_court(desk, ["f2", *"choos", "enter", "u", "space", "z"])
    large = drawn("PICK CUES (ENTER)", 3)
    assert large is not None
    assert all(row.strip() in text for row in large)
    assert "Then: Tove, choosing on Racquet feed, two spots." in text
    assert KEEP_QUIET in text
    assert "Say “" not in text, "nothing is taught before the yardstick"


def test_next_is_what_the_key_for_the_next_player_does(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    for _ in range(4):
        feed(desk, "___")
        small = flat(on_court(desk, ["z"], size=(70, 20)))
        on_court(again(desk), ["tab"])
        desk = again(desk)
        live = desk.view.live
        assert live is not None
        assert f": {live.player.name}, {live.purpose} on {live.drill.drill.name}." in small


def test_marks_of_tough_balls_in_a_yardstick_are_not_told(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    feed(desk, "_ _ _ 000! 000!")
    assert "tough balls" in on_court(desk, ["q"], size=(100, 40))
    yard = ["f2", *"yard", "enter", "space", "t", "2", "1", "z", "f"]
    text = on_court(again(desk), yard, size=(100, 40))
    assert "yardstick" in text
    assert "tough" not in text


@pytest.mark.parametrize(
    ("balls", "first"),
    [
        ("/ / /", "NEXT TOVE CHOOSING"),
        ("000 000", "WORK TURN 0 OF 2"),
        ("1--/ 100", "TURN NEAR 2 OF 2"),
        ("___", "GOOD TURN 3 OF 3"),
    ],
)
def test_a_review_opens_with_something_good_that_is_true_or_with_nothing(
    tmp_path: Path, balls: str, first: str
) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    feed(desk, balls)
    large = drawn(first, 3)
    assert large is not None
    assert on_court(desk, ["q"]).splitlines()[0].strip() == large[0].strip()


@pytest.mark.parametrize(
    ("name", "large", "small"),
    [
        ("Zoë", "NEXT ZOE CHOOSING", ""),
        ("Maximiliane", "NEXT MAXIMILIANE", ""),
        ("Anna Katharina Wertheim-Lindqvist", "NEXT ANNA CHOOSING", ""),
        ("張偉", "", "NEXT 張偉 CHOOSING"),
        ("[red]x[/]", "", "NEXT [RED]X[/] CHOOSING"),
    ],
)
def test_a_name_is_shortened_before_the_letters_are_and_never_lost(
    tmp_path: Path, name: str, large: str, small: str
) -> None:
    desk = desk_in(tmp_path, names=("Maren", name), settings=REVIEWED)
    feed(desk, "___")
    text = on_court(desk, ["q"])
    for row in drawn(large, 3) or (small,):
        assert row.strip() in text


def test_every_screen_size_can_show_a_review(tmp_path: Path) -> None:
    for size in ((80, 24), (120, 40), (20, 5)):
        desk = desk_in(tmp_path / f"{size[0]}", settings=REVIEWED)
        feed(desk, "_ 000 111! _ 2")
        on_court(desk, ["q", "down", "escape", "q", "tab"], size=size)
        assert on(desk).startswith("Tove") or on(desk).endswith("over")


def first_round_over(folder: Path) -> Desk:
    """Three balls on the first drill, before any cue was picked; the round is over."""
    folder.mkdir(exist_ok=True)
    desk = desk_in(folder, drill=None, settings=REVIEWED)
    desk.rounds.start(drill=LIBRARY.drill("forehand/hand-feed"))
    feed(desk, "222 000 111")
    desk.rounds.end_round()
    return desk


def test_every_key_that_the_review_asks_for_does_its_work_from_there(tmp_path: Path) -> None:
    named = re.findall(r"\w+", on_court(first_round_over(tmp_path), ["q", "w"], size=(78, 40)))
    asked = {key for key, command in BY_KEY.items() if len(key) > 1 and command.shown in named}
    assert "tab" in asked
    for key in sorted({*asked, "f2", "f3", "f4"} - {"escape"}):
        left = on_court(first_round_over(tmp_path / key), ["q", key])
        assert "f figures" not in left, key


def test_the_cues_are_picked_from_the_review(tmp_path: Path) -> None:
    desk = first_round_over(tmp_path)
    words = flat(on_court(desk, ["q"], size=(78, 24)))  # too narrow for large letters
    assert "pick two or three cues with Enter" in words
    text = on_court(again(desk), ["q", "f3"])
    assert "Cues: " in text
    foot = "".join(on_court(again(desk), ["q"]).splitlines()[-3:])
    assert "Pick the cues: Enter" in foot
    assert "c cues" in foot


def test_balls_of_the_wrong_player_are_moved_from_the_review(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=REVIEWED)
    feed(desk, "222 000 111")
    assert "F4" not in on_court(desk, ["z"]), "the way without a function key is behind Esc"
    on_court(desk, ["escape", "w", "1", "enter"])
    assert on(desk) == "Tove forehand/racquet-feed practice over"
    feed_next = desk_in(tmp_path / "f4", settings=REVIEWED)
    feed(feed_next, "222 000 111")
    on_court(feed_next, ["z", "f4", *"tov", "enter", "enter"])
    assert on(feed_next) == "Tove forehand/racquet-feed practice over"
