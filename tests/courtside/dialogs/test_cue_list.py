"""Picking cues: one is proposed as the main one, m names another, the yardstick settles it."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.reads import people_lookups
from courtlog.reports.facts.day_facts import day_facts
from courtlog.reports.pages.day_text import day_text
from tests.court import DAY, LIBRARY, again, desk_in, feed, player
from tests.courtside.screen import flat, line_with, on_court


def at(cue: str) -> list[str]:
    """The keys that lead to a cue of the forehand in the list."""
    cues = [each.key for each in LIBRARY.ladder("forehand").cues]
    return ["home", *["down"] * cues.index(cue)]


TURN, SPACING, CONTACT, FINISH, SPLIT_STEP = map(
    at, ("turn", "spacing", "contact", "finish", "split-step")
)

NOTHING_TICKED = [*TURN, "space", *SPACING, "space", *FINISH, "space"]
"""The three cues in view are ticked when the list opens; this takes all three out."""


def kept(desk: Desk) -> tuple[tuple[str, ...], str]:
    """The picked cues and the main one, as the book has them."""
    focus = people_lookups.focus(
        desk.book, desk.view.clinic.id, player(desk, "Maren").id, "forehand"
    )
    return focus.cues, focus.main


@pytest.mark.parametrize(
    ("keys", "cues", "main"),
    [
        ([], "turn spacing finish", "turn"),
        ([*FINISH, "m"], "turn spacing finish", "finish"),
        ([*FINISH, "m", *SPACING, "m"], "turn spacing finish", "spacing"),
        ([*CONTACT, "m"], "turn spacing contact finish", "contact"),
        ([*TURN, "space"], "spacing finish", "spacing"),
        ([*FINISH, "m", "space"], "turn spacing", "turn"),
        ([*NOTHING_TICKED, *FINISH, "space", *TURN, "space"], "turn finish", "finish"),
        ([*NOTHING_TICKED, *FINISH, "space", *TURN, "m"], "turn finish", "turn"),
    ],
)
def test_the_first_one_picked_is_the_main_cue_or_the_one_that_m_names(
    tmp_path: Path, keys: list[str], cues: str, main: str
) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["f3", *keys, "enter"])
    assert kept(desk) == (tuple(cues.split()), main)
    live = again(desk).view.live
    assert live is not None
    assert live.cue_keys == tuple(cues.split()), "rows of the pad keep the order of the stroke"


@pytest.mark.parametrize(
    ("keys", "cues", "main"),
    [
        ([], "turn spacing finish", "spacing"),
        ([*SPACING, "space"], "turn finish", "finish"),
        ([*NOTHING_TICKED, *TURN, "space", *FINISH, "space"], "turn finish", "finish"),
        ([*TURN, "m"], "turn spacing finish", "turn"),
    ],
)
def test_after_balls_the_cue_made_least_often_is_proposed(
    tmp_path: Path, keys: list[str], cues: str, main: str
) -> None:
    """Turn 6 of 6, spacing 1 of 6, finish 4 of 6: never silently the best one."""
    desk = desk_in(tmp_path)
    desk.rounds.start(purpose=Purpose.CHOOSING)
    feed(desk, "201 202 202 202 202 221 ")
    text = on_court(again(desk), ["z", "f3"])
    assert "[M] spacing (contact), made 1 of 6, the main cue: made least" in text
    assert "[x] turn (preparation), made 6 of 6 " in text
    text = on_court(again(desk), ["f3", *keys, "enter"])
    assert kept(desk) == (tuple(cues.split()), main)
    assert f"Maren: Racquet feed, two spots, yardstick, main cue {main} (" in flat(text)
    close = on_court(again(desk))
    assert f"WITHOUT HELP · main cue: {main} " in close


def test_the_main_cue_is_told_by_a_letter_and_a_word(tmp_path: Path) -> None:
    text = on_court(desk_in(tmp_path), ["f3", *FINISH, "m"])
    assert "Space ticks, m names the main one, Enter takes" in text
    assert "[M] finish (finish), the main cue" in line_with(text, "finish (")
    assert [line_with(text, f"{cue} (").count("main") for cue in ("turn", "spacing")] == [0, 0]
    assert "[x] turn (" in text


def test_the_list_opens_with_the_main_cue_that_was_named(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["f3", *FINISH, "m", "enter"])
    assert "[M] finish (" in on_court(again(desk), ["f3"])
    on_court(again(desk), ["f3", "enter"])
    assert kept(again(desk)) == (("turn", "spacing", "finish"), "finish")


def test_no_more_are_named_than_can_be_ticked(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    text = on_court(desk, ["f3", *CONTACT, "space", *SPLIT_STEP, "m"])
    assert "At most 4: take one out first." in text
    assert "[M] turn (" in text


def test_once_the_yardstick_has_begun_the_main_cue_stays(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["f3", *FINISH, "m", "enter"])
    desk = again(desk)
    desk.rounds.start(purpose=Purpose.YARDSTICK)
    feed(desk, "_")
    text = on_court(again(desk), ["f3", *SPACING, "m"])
    assert "The main cue stays" in text
    assert "[M] finish (" in text
    text = on_court(again(desk), ["f3", *FINISH, "space"])
    assert "The main cue is left out" in text
    assert "[ ] finish (" in line_with(text, "the main cue")
    on_court(again(desk), ["f3", *FINISH, "space", "enter"])
    cues, main = kept(again(desk))
    assert "finish" not in cues
    assert main == "finish"


def test_where_none_was_named_before_the_yardstick_there_is_none(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    desk.rounds.start(purpose=Purpose.YARDSTICK)
    feed(desk, "_")
    text = on_court(again(desk), ["f3", *SPACING, "m"])
    assert "The main cue stays" in text
    assert "[M]" not in text
    on_court(again(desk), ["f3", *TURN, "space", "enter"])
    cues, main = kept(again(desk))
    assert "turn" not in cues
    assert main == "", "no other is named for the coach"


def test_the_page_of_the_day_and_the_card_name_the_main_cue(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    card = on_court(desk, ["f3", *FINISH, "m", "enter", "f9", "enter"])
    words = "cues: turn, spacing, finish / main: finish"
    assert words in flat(card)
    facts = day_facts(desk.book, desk.view.clinic, DAY, None)
    assert words in flat(day_text(facts))
    assert [look.main for look in facts.players[0].looks] == ["finish"]
