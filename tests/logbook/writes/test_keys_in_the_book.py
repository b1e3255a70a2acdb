"""What the screen shows is in the book: resume, undo, moves and tallies, key by key."""

from __future__ import annotations

import random
import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.feeding import Rate
from courtlog.coaching.on_court.live_round import Basket
from courtlog.courtside.desk.court_state import earlier_rounds
from courtlog.errors import BookError
from courtlog.logbook.reads import lookups
from courtlog.logbook.rows import tallies
from courtlog.logbook.writes.round_writer import RoundWriter
from tests.court import LIBRARY, again, begin_clinic, desk_in, feed, player, written
from tests.doses import dose


def test_every_key_is_on_disk_before_the_next(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    for key in "222 2-1!/ _ T 0< 02 / @ 1":
        feed(desk, key)
        assert again(desk).view.live == desk.view.live
        assert tallies.proof(desk.book.db) == []


@settings(derandomize=True, deadline=None, max_examples=dose(25, 100))
@given(st.text("0122-_/!T@<<", max_size=40))
def test_any_keys_resume_the_same(tmp_path_factory: pytest.TempPathFactory, keys: str) -> None:
    desk = desk_in(tmp_path_factory.mktemp("any"))
    feed(desk, keys)
    assert again(desk).view.live == desk.view.live
    assert again(desk).view.basket == desk.view.basket
    assert again(desk).view.earlier == desk.view.earlier
    assert tallies.proof(desk.book.db) == []


def test_undo_goes_back_through_the_whole_round_after_a_restart(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 2-1!/ _ 0")
    desk = again(desk)
    for _ in range(20):
        desk.balls.take_back()
    assert desk.view.live is not None
    assert desk.view.live.empty
    assert desk.view.basket == Basket(60, 60)


def test_a_round_of_another_clinic_leaves_the_drill_put_down_in_this_one(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    maren, harbour = player(desk, "Maren").id, desk.view.clinic.id
    RoundWriter(desk.book).set_next_drill(harbour, maren, "forehand/live")
    begin_clinic(desk, "Hill Week", "Europe/Lisbon", "Ines", "1", ["Maren"])
    hill = desk.view.clinic.id
    RoundWriter(desk.book).set_next_drill(hill, maren, "forehand/hand-feed")
    for purpose, kept in ((Purpose.HOLD, "forehand/hand-feed"), (Purpose.PRACTICE, None)):
        desk.rounds.start(player(desk, "Maren"), LIBRARY.drill("forehand/fence"), purpose)
        rows = desk.book.db.execute(
            "SELECT clinic_id, next_drill FROM roster WHERE player_id = ?", [maren]
        ).fetchall()
        assert dict(rows) == {harbour: "forehand/live", hill: kept}


def test_undo_never_destroys_the_old_value(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "0<--2")
    lines = desk.book.db.execute("SELECT kind, before, after FROM journal ORDER BY id").fetchall()
    assert lines == [
        ("key", "---?", "0--?"),
        ("undo", "0--?", "---?"),
        ("key", "---?", "2--?"),
    ]


def test_the_last_balls_move_to_the_player_who_hit_them(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000 111 2")
    desk.balls.note("late")
    desk.amendments().give_last(player(desk, "Tove"), 2)
    assert desk.view.live is not None
    assert desk.view.live.player.name == "Tove"
    assert written(desk.view.live.feeding) == "000 111|2--"
    assert again(desk).view.live == desk.view.live
    assert tallies.proof(desk.book.db) == []
    feed(desk, "<<")
    assert written(desk.view.live.feeding) == "000|11-", "undo goes on through the moved balls"
    notes = desk.book.db.execute(
        "SELECT player_id FROM note JOIN round ON round.id = round_id"
    ).fetchall()
    assert notes == [(player(desk, "Tove").id,)]


@pytest.mark.parametrize("count", [0, -1, 4])
def test_only_balls_that_are_there_can_move(tmp_path: Path, count: int) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "___")
    with pytest.raises(BookError, match="This round has 3 balls"):
        desk.amendments().give_last(player(desk, "Tove"), count)
    assert again(desk).view.live == desk.view.live


def test_a_failed_key_leaves_nothing_behind(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "22")
    before = desk.view
    desk.book.db.execute(
        "CREATE TEMP TRIGGER no BEFORE INSERT ON journal BEGIN SELECT raise(ABORT, 'no'); END"
    )
    with pytest.raises(BookError):
        desk.balls.press(Rate(2, Grade.MADE))
    assert desk.view == before
    assert again(desk).view.live == before.live
    assert tallies.proof(desk.book.db) == []


def test_a_tally_that_was_tampered_with_is_found(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    desk.book.db.execute("UPDATE tally SET made = made + 1 WHERE cue = 'turn'")
    assert len(tallies.proof(desk.book.db)) == 2


def test_the_rounds_of_a_strip_are_found_by_keys_of_the_tables(tmp_path: Path) -> None:
    """A column a round needs rounds, which no tally has: it reads one player's, and no table whole.

    They are read when a round begins; a ball changes the last column alone.
    """
    desk = desk_in(tmp_path)
    feed(desk, "_" * 5)
    plan: list[str] = []
    desk.book.db.set_trace_callback(plan.append)
    earlier_rounds(desk.book, desk.view.clinic, desk.view.day, desk.view.live)
    desk.book.db.set_trace_callback(None)
    (asked,) = plan
    steps = [row[3] for row in desk.book.db.execute(f"EXPLAIN QUERY PLAN {asked}")]
    assert not [step for step in steps if step.startswith("SCAN")]
    plan.clear()
    desk.book.db.set_trace_callback(plan.append)
    feed(desk, "__ 1")
    desk.book.db.set_trace_callback(None)
    assert plan
    assert not [sql for sql in plan if "purpose, cue" in sql]


def test_the_clock_may_go_back_and_ids_still_go_up(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    at = desk.clock()
    for back in random.Random(5).sample(range(-10_000_000, 10_000_000), 20):
        desk.state.clock = lambda back=back: at + back  # type: ignore[misc]
        feed(desk, "_")
    ids = [row[0] for row in desk.book.db.execute("SELECT id FROM journal ORDER BY rowid")]
    assert ids == sorted(set(ids))
    balls = desk.book.db.execute("SELECT number FROM ball ORDER BY id").fetchall()
    assert [number for (number,) in balls] == list(range(1, 21))
    assert again(desk).view.live == desk.view.live


def test_a_second_reader_sees_each_key_at_once(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    reader = sqlite3.connect(desk.book.path)
    feed(desk, "21")
    assert reader.execute("SELECT row, grade FROM rating ORDER BY row").fetchall() == [
        (0, 2),
        (1, 1),
    ]
    reader.close()


def test_two_rounds_of_a_drill_keep_its_text_once_and_an_edit_keeps_both(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    live = desk.view.live
    assert live is not None
    desk.rounds.start(player=player(desk, "Tove"))
    assert desk.book.db.execute("SELECT count(*) FROM drill_used").fetchone() == (1,)
    edited = replace(live.drill, drill=replace(live.drill.drill, look="Something else."))
    desk.rounds._writer.start_round(
        live.player.id, edited, live.purpose, live.cue_keys, desk.clock()
    )
    assert desk.book.db.execute("SELECT count(*) FROM drill_used").fetchone() == (2,)
    assert lookups.live_round(desk.book, live.id).drill == live.drill


def test_a_player_of_a_later_clinic_is_the_same_person(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, names=("Maren", "Tove", "Tove"))
    roster = {p.id for p in desk.view.roster}
    assert len(roster) == 3, "two of one name in a clinic are two people"
    begin_clinic(desk, "Autumn", "Europe/Lisbon", "Ines", "1", ("Maren", "Tove", "Ruben"))
    assert [p.id in roster for p in desk.view.roster] == [True, False, False]
