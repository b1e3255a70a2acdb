"""The main cue is one of the picked ones, and the one named before the yardstick's first ball."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from courtlog.coaching.game.cards import Focus
from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.desk.desk import Desk
from courtlog.errors import BookError
from courtlog.logbook.exchange.join_books import join_book
from courtlog.logbook.reads import people_lookups
from courtlog.logbook.reads.answer_lookups import stroke_histories
from courtlog.logbook.writes.people_writer import PeopleWriter
from tests.court import START, again, desk_in, feed, player

PICKED = ("turn", "spacing", "finish")


def name(desk: Desk, main: str, cues: tuple[str, ...] = PICKED, who: str = "Maren") -> None:
    """Keep the picked cues with this main one."""
    focus = Focus("forehand", "calm head", cues, "the arm crowds", main=main)
    clinic, person = desk.view.clinic.id, player(desk, who).id
    PeopleWriter(desk.book).keep_focus(clinic, person, focus, desk.clock())


def yardstick(desk: Desk, balls: str) -> None:
    """Feed these balls in a yardstick."""
    desk.rounds.start(purpose=Purpose.YARDSTICK)
    feed(desk, balls)


def main(desk: Desk, who: str = "Maren") -> str | None:
    """The cue judged first."""
    (past,) = stroke_histories(desk.book, desk.view.clinic.id, player(desk, who).id)
    return past.history.main


def said(desk: Desk) -> str:
    """The main cue as the coach named it."""
    clinic = desk.view.clinic.id
    return people_lookups.focus(desk.book, clinic, player(desk, "Maren").id, "forehand").main


def named(desk: Desk) -> list[str]:
    """Every name that is kept, in the order in which it was given."""
    return [cue for (cue,) in desk.book.db.execute("SELECT cue FROM main_cue ORDER BY id")]


def test_the_last_name_before_the_yardstick_counts_and_every_name_is_kept(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    assert (main(desk), said(desk)) == (None, ""), "nobody named one"
    for cue in ("finish", "finish", "spacing"):
        name(desk, cue)
        assert (main(desk), said(desk)) == (cue, cue)
    yardstick(desk, "_ _")
    assert main(desk) == "spacing"
    assert named(desk) == ["finish", "spacing"], "the same name again is no new one"


def test_after_the_first_yardstick_ball_another_one_is_refused_and_nothing_is_kept(
    tmp_path: Path,
) -> None:
    desk = desk_in(tmp_path)
    name(desk, "finish")
    yardstick(desk, "_")
    with pytest.raises(BookError, match="The main cue stays"):
        name(desk, "turn", cues=("turn",))
    assert people_lookups.focuses(desk.book, desk.view.clinic.id, player(desk, "Maren").id) == [
        Focus("forehand", "calm head", PICKED, "the arm crowds", START, "finish")
    ]
    name(desk, "finish", cues=("turn",))
    name(desk, "", cues=("turn", "spacing"))
    assert (main(desk), named(desk)) == ("finish", ["finish"]), "left out, it is still the main one"


def test_without_a_name_by_then_none_can_be_given_later(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    yardstick(desk, "_")
    with pytest.raises(BookError, match="The main cue stays"):
        name(desk, "finish")
    assert (main(desk), named(desk)) == (None, [])


def test_a_yardstick_ball_taken_back_settles_nothing(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    yardstick(desk, "_<")
    name(desk, "finish")
    yardstick(desk, "_")
    assert main(desk) == "finish"


def test_a_clock_set_back_changes_nothing_of_what_came_first(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    desk.clock.pass_seconds(3600)  # type: ignore[attr-defined]
    name(desk, "finish")
    desk.clock.pass_seconds(-7200)  # type: ignore[attr-defined]
    yardstick(desk, "_")
    assert main(desk) == "finish"


@pytest.mark.parametrize("cue", ["contact", "tu", "turn spacing", " "])
def test_a_main_cue_is_one_of_the_picked_ones(tmp_path: Path, cue: str) -> None:
    desk = desk_in(tmp_path)
    with pytest.raises(BookError, match="one of the picked cues"):
        name(desk, cue)
    assert people_lookups.focuses(desk.book, desk.view.clinic.id, player(desk, "Maren").id) == []


def test_each_player_has_a_main_cue_of_their_own(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    name(desk, "finish", who="Tove")
    yardstick(desk, "_")
    desk.rounds.start(player(desk, "Tove"))
    feed(desk, "_")
    assert (main(desk), main(desk, "Tove")) == (None, "finish")
    name(desk, "spacing", who="Tove")
    assert main(desk, "Tove") == "spacing", "the yardstick was another player's"


def test_what_another_laptop_named_after_the_first_ball_does_not_count(tmp_path: Path) -> None:
    one, other = desk_in(tmp_path / "one"), desk_in(tmp_path / "other")
    one.clock.pass_seconds(60)  # type: ignore[attr-defined]
    name(one, "finish")
    one.clock.pass_seconds(60)  # type: ignore[attr-defined]
    yardstick(one, "_")
    name(other, "turn")
    other.clock.pass_seconds(600)  # type: ignore[attr-defined]
    name(other, "spacing")
    join_book(one.book, other.book.path, lambda question: True, START)
    together = again(one)
    assert sorted(named(together)) == ["finish", "spacing", "turn"]
    assert main(together) == "finish"


def test_each_stroke_has_a_main_cue_of_its_own(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    yardstick(desk, "_")
    clinic, maren = desk.view.clinic.id, player(desk, "Maren").id
    serve = Focus("serve", cues=("toss", "reach"), main="reach")
    PeopleWriter(desk.book).keep_focus(clinic, maren, serve, desk.clock())
    assert people_lookups.focus(desk.book, clinic, maren, "serve").main == "reach"
    assert main(desk) is None, "the name was one of the serve"


def test_cues_picked_after_the_yardstick_keep_the_main_one_whatever_is_asked_for(
    tmp_path: Path,
) -> None:
    desk = desk_in(tmp_path)
    name(desk, "finish")
    yardstick(desk, "_")
    focus = desk.people.keep_cues(player(desk, "Maren"), "forehand", ("turn", "spacing"), "turn")
    assert (focus.main, said(desk), named(desk)) == ("finish", "finish", ["finish"])


@pytest.mark.parametrize("change", ["UPDATE main_cue SET cue = 'turn'", "DELETE FROM main_cue"])
def test_a_name_once_given_stays_in_the_book(tmp_path: Path, change: str) -> None:
    desk = desk_in(tmp_path)
    name(desk, "finish")
    with pytest.raises(sqlite3.IntegrityError, match="stays as it was named"):
        desk.book.db.execute(change)
