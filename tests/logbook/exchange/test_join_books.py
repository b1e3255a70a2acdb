"""Books of two and more laptops joined: the same whatever the order, and nothing lost."""

from __future__ import annotations

import contextlib
import itertools
import random
import sqlite3
import tempfile
from collections.abc import Callable
from datetime import date
from operator import itemgetter
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import settings as asked
from hypothesis import strategies as st

from courtlog.coaching.game.cards import PlayerCard
from courtlog.coaching.game.clinic_record import CheckIn
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.courtside.desk.desk import Desk
from courtlog.errors import BookError, NewerBookError, NotABookError
from courtlog.logbook.exchange import other_book
from courtlog.logbook.exchange.join_books import join_book
from courtlog.logbook.exchange.matching import Question
from courtlog.logbook.exchange.removals import Removal
from courtlog.logbook.file import backups, doctor
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.care_lookups import reds_in_words
from courtlog.logbook.reads.find_person import player_named
from courtlog.logbook.rows import tallies
from courtlog.logbook.schema.schema_check import SCHEMA
from courtlog.logbook.writes import ball_repairs, erasing, round_repairs, undo_amendment
from courtlog.logbook.writes.care_writer import CareWriter
from courtlog.logbook.writes.disagreements import decide, disagreements
from courtlog.logbook.writes.people_writer import PeopleWriter
from tests.court import LIBRARY, START, again, desk_in, feed, player, used
from tests.doses import dose
from tests.logbook.exchange.books import Rows, book_of_version, content, counts, full_book
from tests.measures.steady import steady

DRILL = "forehand/racquet-feed"
LOCAL = {"book", "bookmark", "standing"}


def yes(_question: Question) -> bool:
    return True


def no(_question: Question) -> bool:
    return False


def agreed(_removal: Removal) -> bool:
    return True


def nobody_asks(question: Question) -> bool:
    raise AssertionError(question)


def shared(book: Book) -> Rows:
    """Every row that is not of one laptop alone, and the tallies."""
    rows = {name: found for name, found in content(book.db).items() if name not in LOCAL}
    return rows | {"tally": sorted(counts(book.db), key=repr)}


def copied(desk: Desk, folder: Path) -> Desk:
    """The same book on another laptop."""
    folder.mkdir()
    with contextlib.closing(sqlite3.connect(folder / "book.db")) as target:
        desk.book.db.backup(target)
    other = Desk(
        create_or_open(folder / "book.db", START), lambda: LIBRARY, desk.settings, desk.clock
    )
    other.state.resume()
    return other


def joined(home: Path, name: str, *paths: Path, ask: Callable[[Question], bool] = yes) -> Rows:
    """The rows after a copy of the first book has gathered the others."""
    (home / name).mkdir()
    target = home / name / "book.db"
    closing = contextlib.closing
    with closing(sqlite3.connect(paths[0])) as source, closing(sqlite3.connect(target)) as to:
        source.backup(to)
    book = create_or_open(target, START)
    for path in paths[1:]:
        join_book(book, path, ask, START, agreed)
    assert tallies.proof(book.db) == []
    assert doctor.findings(book) == []
    for (round_id,) in book.db.execute("SELECT id FROM round").fetchall():
        lookups.live_round(book, round_id)
    rows = shared(book)
    book.close()
    return rows


def both_ways(tmp_path: Path, one: Desk, other: Desk) -> Rows:
    """Joined either way, the books hold the same; that is given back."""
    paths = one.book.path, other.book.path
    there = joined(tmp_path, "there", *paths)
    back = joined(tmp_path, "back", *reversed(paths))
    assert there == back
    assert joined(tmp_path, "twice", *paths, *paths) == there
    return there


def test_two_courts_of_one_evening_become_one_day(tmp_path: Path) -> None:
    one = desk_in(tmp_path / "one", ("Maren", "Tove"))
    other = desk_in(tmp_path / "other", ("Anouk", "Maren"))
    feed(one, "222 000 _")
    feed(other, "111 _")
    other.rounds.start(player(other, "Maren"))
    feed(other, "_ _ _ _")
    rows = both_ways(tmp_path, one, other)
    assert [len(rows[name]) for name in ("clinic", "coach", "day", "player")] == [1, 1, 1, 3]
    assert sorted(map(itemgetter(6), rows["round"])) == [1, 2, 3], "places are counted anew"
    assert len(rows["ball"]) == 9
    join_book(one.book, other.book.path, yes, START)
    assert disagreements(one.book) == []


def test_two_people_of_one_name_stay_two_when_told(tmp_path: Path) -> None:
    one, other = (desk_in(tmp_path / name, ("Maren",)) for name in ("one", "other"))
    questions: list[Question] = []

    def only_the_clinic(question: Question) -> bool:
        questions.append(question)
        return question.table == "clinic"

    join_book(one.book, other.book.path, only_the_clinic, START)
    assert [question.table for question in questions] == ["clinic", "player"]
    assert len(lookups.players(one.book, lookups.clinics(one.book)[0].id)) == 2
    join_book(one.book, other.book.path, nobody_asks, START)
    join_book(other.book, one.book.path, nobody_asks, START)
    assert shared(one.book) == shared(other.book)


def test_clinics_that_are_two_stay_two(tmp_path: Path) -> None:
    one, other = (desk_in(tmp_path / name, ("Maren",)) for name in ("one", "other"))
    join_book(one.book, other.book.path, no, START)
    assert len(lookups.clinics(one.book)) == 2
    join_book(other.book, one.book.path, nobody_asks, START)
    assert shared(one.book) == shared(other.book)


def test_a_copy_hands_out_ids_of_its_own(tmp_path: Path) -> None:
    """Nothing but the number at the front keeps them apart: the clock of both stands still."""
    one = desk_in(tmp_path / "one")
    feed(one, "_ _")
    other = copied(one, tmp_path / "other")
    feed(one, "000 0")
    feed(other, "111 11")
    rows = both_ways(tmp_path, one, other)
    assert len(rows["ball"]) == 6
    ids = {desk.book.db.execute("SELECT max(id) FROM ball").fetchone() for desk in (one, other)}
    assert len(ids) == 2


def test_a_ball_amended_on_both_is_kept_and_shown(tmp_path: Path) -> None:
    one = desk_in(tmp_path / "one")
    feed(one, "222 21")
    other = copied(one, tmp_path / "other")
    feed(one, "--0")
    feed(other, "--2")
    both_ways(tmp_path, one, other)
    join_book(one.book, other.book.path, nobody_asks, START)
    (found,) = disagreements(one.book)
    assert found.where == "Maren, 2026-05-12, round 1, ball 2"
    assert {found.here, found.elsewhere} == {"210", "212"}
    lines = one.book.db.execute("SELECT after FROM journal").fetchall()
    assert {("210",), ("212",)} <= set(lines), "nothing is lost"


def forked(tmp_path: Path) -> tuple[Desk, Desk]:
    """A ball that two laptops rated otherwise, joined on the first of them."""
    one = desk_in(tmp_path / "one")
    feed(one, "222 21")
    other = copied(one, tmp_path / "other")
    feed(one, "--0")
    feed(other, "--2")
    join_book(one.book, other.book.path, nobody_asks, START)
    one.book.close()
    return again(one), other


@pytest.mark.parametrize("digits", ["210", "212", "111"])
def test_a_ball_put_right_after_joining_is_decided(tmp_path: Path, digits: str) -> None:
    one, other = forked(tmp_path)
    (row,) = one.book.db.execute("SELECT id FROM round").fetchone()
    assert [found.decided for found in disagreements(one.book)] == [False]
    if disagreements(one.book)[0].here == digits:
        ball_repairs.amend_ball(one.book, row, 2, Ball.from_token("000", 3), "Ines", START)
    ball_repairs.amend_ball(one.book, row, 2, Ball.from_token(digits, 3), "Ines", START)
    assert [found for found in disagreements(one.book) if not found.decided] == []
    join_book(other.book, one.book.path, nobody_asks, START)
    assert disagreements(other.book) == disagreements(one.book), "the decision travels"
    join_book(one.book, other.book.path, nobody_asks, START)
    assert shared(one.book) == shared(other.book)


def test_a_ball_put_right_on_one_laptop_before_joining_decides_nothing(tmp_path: Path) -> None:
    one = desk_in(tmp_path / "one")
    feed(one, "222 210")
    other = copied(one, tmp_path / "other")
    for desk, digits in ((one, "211"), (other, "200"), (other, "022")):
        (row,) = desk.book.db.execute("SELECT id FROM round").fetchone()
        ball_repairs.amend_ball(desk.book, row, 2, Ball.from_token(digits, 3), "Ines", START)
    both_ways(tmp_path, one, other)
    join_book(one.book, other.book.path, nobody_asks, START)
    assert [found.decided for found in disagreements(one.book)] == [False]


def test_a_decision_goes_with_the_person(tmp_path: Path) -> None:
    one, _ = forked(tmp_path)
    decide(one.book, [1])
    held = "SELECT count(*) FROM former WHERE tbl = 'journal'"
    assert one.book.db.execute(held).fetchone() == (1,)
    erasing.erase(one.book, player_named(one.book, "Maren"), START, False, False)
    assert one.book.db.execute(held).fetchone() == (0,)


def test_what_stands_can_be_decided_as_it_is(tmp_path: Path) -> None:
    """A ball and a row of a card; a later change on a third laptop is a new disagreement."""
    one = desk_in(tmp_path / "one")
    feed(one, "222 21")
    other, third = copied(one, tmp_path / "other"), copied(one, tmp_path / "third")
    feed(one, "--0")
    feed(other, "--2")
    feed(third, "--1")
    who = player(one, "Maren").id
    for desk, hand in ((one, "left"), (other, "right")):
        desk.book.db.execute("UPDATE player SET hand = ? WHERE id = ?", [hand, who])
    join_book(one.book, other.book.path, nobody_asks, START)
    before = [(found.where, found.here) for found in disagreements(one.book)]
    assert len(before) == 2
    decide(one.book, [1, 2])
    (left,) = disagreements(one.book)
    assert (left.where, left.here, left.decided) == (*before[1], True)
    join_book(other.book, one.book.path, nobody_asks, START)
    assert disagreements(other.book) == [left]
    assert shared(one.book) == shared(other.book)
    join_book(one.book, third.book.path, nobody_asks, START)
    assert False in [found.decided for found in disagreements(one.book)]
    with pytest.raises(BookError, match="no line 9"):
        decide(one.book, [1, 9])


def test_the_same_key_taken_back_on_both(tmp_path: Path) -> None:
    one = desk_in(tmp_path / "one")
    feed(one, "222 210")
    other = copied(one, tmp_path / "other")
    feed(one, "<")
    feed(other, "<")
    rows = both_ways(tmp_path, one, other)
    assert len([row for row in rows["journal"] if row[2] == "undo"]) == 2


def test_what_is_newer_wins_over_an_old_copy_and_is_no_conflict(tmp_path: Path) -> None:
    one = desk_in(tmp_path / "one")
    other = copied(one, tmp_path / "other")
    who = player(one, "Maren").id
    for hand in ("right", "left"):
        one.book.db.execute("UPDATE player SET hand = ? WHERE id = ?", [hand, who])
    rows = both_ways(tmp_path, one, other)
    assert rows["conflict"] == []
    assert [row[2] for row in rows["player"] if row[0] == who] == ["left"]


def test_two_words_on_one_player_stand_side_by_side_until_somebody_decides(tmp_path: Path) -> None:
    one = desk_in(tmp_path / "one")
    other = copied(one, tmp_path / "other")
    who = player(one, "Maren").id
    one.book.db.execute("UPDATE player SET hand = 'left', level = 'club' WHERE id = ?", [who])
    other.book.db.execute("UPDATE player SET hand = 'right' WHERE id = ?", [who])
    both_ways(tmp_path, one, other)
    join_book(one.book, other.book.path, nobody_asks, START)
    (found,) = disagreements(one.book)
    assert (found.where, found.here, found.elsewhere) == ("player Maren, hand", "right", "left")
    one.book.db.execute("UPDATE player SET hand = 'left' WHERE id = ?", [who])
    assert disagreements(one.book) == []
    join_book(other.book, one.book.path, nobody_asks, START)
    assert disagreements(other.book) == []
    assert player(other, "Maren").hand == "left"


def test_what_is_deleted_stays_so_and_what_is_needed_comes_back(tmp_path: Path) -> None:
    one = desk_in(tmp_path / "one")
    other = copied(one, tmp_path / "other")
    one.rounds.start(player(one, "Tove"))  # the round without a ball is forgotten here
    feed(other, "222")
    rows = both_ways(tmp_path, one, other)
    assert len(rows["round"]) == 2
    assert len(rows["ball"]) == 1


def test_a_round_that_one_book_forgot_comes_back_for_a_note(tmp_path: Path) -> None:
    one = desk_in(tmp_path / "one")
    other = copied(one, tmp_path / "other")
    one.rounds.start(player(one, "Tove"))
    other.balls.note("stands too close")
    other.rounds.start(player(other, "Tove"))
    rows = both_ways(tmp_path, one, other)
    assert [row[3] for row in rows["note"]] == ["stands too close"]
    forgotten = {row[1] for row in rows["note"]}
    assert len(rows["round"]) == 3, "the one with the note, and Tove's two"
    assert forgotten <= {row[0] for row in rows["round_cue"]}, "with its cues"


def test_the_other_book_and_a_failed_joining_change_nothing(tmp_path: Path) -> None:
    one, other = (desk_in(tmp_path / name, ("Maren",)) for name in ("one", "other"))
    feed(one, "_")
    feed(other, "_")
    other.book.close()
    there, here = other.book.path.read_bytes(), shared(one.book)

    class NoMore(Exception):  # noqa: N818
        pass

    def leaves(_question: Question) -> bool:
        raise NoMore

    with pytest.raises(NoMore):
        join_book(one.book, other.book.path, leaves, START)
    assert shared(one.book) == here
    triggers = one.book.db.execute("SELECT count(*) FROM sqlite_master WHERE type = 'trigger'")
    assert triggers.fetchone()[0] > 20
    join_book(one.book, other.book.path, yes, START)
    assert other.book.path.read_bytes() == there
    assert [path.name for path in other.book.path.parent.iterdir()] == ["book.db"]
    assert backups.backup_paths(backups.folder_of(one.book.path)), "a backup was made before"
    one = again(one)
    feed(one, "222 <")
    assert again(one).view.live == one.view.live


def test_what_is_no_sound_book_is_refused(tmp_path: Path) -> None:
    one = desk_in(tmp_path / "one")
    (tmp_path / "text.db").write_text("a shopping list")
    with pytest.raises(NotABookError):
        join_book(one.book, tmp_path / "text.db", yes, START)
    with pytest.raises(BookError, match="There is no book"):
        join_book(one.book, tmp_path / "none.db", yes, START)
    with pytest.raises(BookError, match="with itself"):
        join_book(one.book, one.book.path, yes, START)
    other = desk_in(tmp_path / "other")
    feed(other, "_")
    other.book.db.execute("UPDATE ball SET number = 7")
    with pytest.raises(BookError, match="is not sound"):
        join_book(one.book, other.book.path, yes, START)


@pytest.mark.parametrize("version", range(1, SCHEMA))
def test_a_book_of_an_earlier_shape_joins_as_it_would_after_it_was_brought_up(
    tmp_path: Path, version: int
) -> None:
    one = desk_in(tmp_path / "one", ("Maren", "Anouk"))
    feed(one, "222 000")
    was = desk_in(tmp_path / "was")
    feed(was, "210 -- 1! _ @")
    was.balls.note("late")
    with was.book.writing():
        was.book.db.execute(
            "INSERT INTO check_in (id, day_id, player_id, moment, pain, place, note, at)"
            " VALUES (1, ?, ?, 'arrival', 6, 'elbow', '', ?)",
            [was.view.day.id, player(was, "Tove").id, START],
        )
    old = book_of_version(was.book, tmp_path / "old.db", version)
    before = old.read_bytes()
    there = joined(tmp_path, "there", one.book.path, old)
    assert old.read_bytes() == before
    assert sorted(path.name for path in tmp_path.glob("old*")) == ["old.db"]
    assert len(there["ball"]) == 2 + len(was.book.db.execute("SELECT 1 FROM ball").fetchall())
    place = "" if version == 1 else "elbow "
    assert [row[4] for row in there["red_flag"]] == [f"pain {place}6, more than 5"]
    assert there["conflict"] == []
    create_or_open(old, START).close()
    assert old.read_bytes() != before, "brought up now"
    assert joined(tmp_path, "later", one.book.path, old) == there
    assert joined(tmp_path, "back", old, one.book.path) == there
    assert joined(tmp_path, "twice", tmp_path / "there" / "book.db", old) == there


def test_two_books_call_for_a_red_that_neither_did_alone(tmp_path: Path) -> None:
    """One laptop heard of a sore elbow, the other knows that the player is growing."""
    one = desk_in(tmp_path / "one")
    CareWriter(one.book).add_check_in(
        one.view.day.id,
        player(one, "Ruben").id,
        CheckIn(player="Ruben", pain=1, place="elbow"),
        START,
    )
    other = desk_in(tmp_path / "other")
    PeopleWriter(other.book).edit_card(
        other.view.clinic.id,
        player(other, "Ruben").id,
        PlayerCard(name="Ruben", age="minor"),
        START,
    )
    assert [shared(desk.book)["red_flag"] for desk in (one, other)] == [[], []]
    there = both_ways(tmp_path, one, other)
    ((row, *_, check_in, reason, at),) = there["red_flag"]
    assert (row, reason) == (check_in, "pain elbow 1, in a joint of a growing player")
    assert at == START - START % 1000
    came = join_book(one.book, other.book.path, yes, START)
    assert reds_in_words(one.book, came.reds) == [f"Ruben, Tue 12 May: {reason}"]
    assert join_book(one.book, tmp_path / "there" / "book.db", yes, START + 1).reds == ()
    assert shared(one.book)["red_flag"] == there["red_flag"]


def test_a_book_of_a_later_courtlog_is_refused_and_nothing_changes(tmp_path: Path) -> None:
    one, other = (desk_in(tmp_path / name, ("Maren",)) for name in ("one", "other"))
    feed(other, "222")
    other.book.db.execute("UPDATE book SET app_version = '9.9'")
    other.book.db.execute(f"PRAGMA user_version = {SCHEMA + 1}")
    for desk in (one, other):
        desk.book.close()
    before = {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    book = create_or_open(one.book.path, START)
    with pytest.raises(NewerBookError, match=r"of a later courtlog \(9\.9\)"):
        join_book(book, other.book.path, nobody_asks, START)
    book.close()
    after = {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    assert after == before, "not even a backup was made"


def test_somebody_who_was_erased_does_not_come_back(tmp_path: Path) -> None:
    one = desk_in(tmp_path / "one")
    feed(one, "222")
    other = copied(one, tmp_path / "other")
    feed(other, "000")
    who = player_named(one.book, "Maren")
    erasing.erase(one.book, who, START, False, False)
    rows = both_ways(tmp_path, one, other)
    assert "Maren" not in repr(rows)
    assert rows["ball"] == []


def erased_on_one(
    tmp_path: Path, keep_counts: bool = False, in_notes: bool = True
) -> tuple[Desk, Desk]:
    """Maren is erased from one book; a copy from before knows her, and goes on with her.

    Her name was another once; it stands in two notes on others, and in one written since.
    """
    one = desk_in(tmp_path / "one", ("Marenka", "Tove"))
    one.book.db.execute("PRAGMA secure_delete = OFF")  # as books were written before
    feed(one, "222 0-1!/")
    one.book.db.execute(
        "UPDATE player SET name = 'Maren', short_name = 'Mazurka' WHERE name = 'Marenka'"
    )
    one.rounds.start(player(one, "Tove"))
    feed(one, "111")
    one.balls.note("feeds to Maren and Marenka")
    one.balls.note("as Mazurka")
    one.book.db.execute("UPDATE note SET text = 'as Mazurka does' WHERE text = 'as Mazurka'")
    other = copied(one, tmp_path / "other")
    other.balls.note("Maren waits")
    other.rounds.start(player(other, "Maren"))
    feed(other, "000")
    other.balls.note("her own")
    erasing.erase(one.book, player_named(one.book, "Maren"), START, keep_counts, in_notes)
    return one, other


@pytest.mark.parametrize("keep_counts", [False, True])
def test_a_name_taken_out_of_notes_stays_out_whoever_joins(
    tmp_path: Path, keep_counts: bool
) -> None:
    one, other = erased_on_one(tmp_path, keep_counts)
    rows = both_ways(tmp_path, one, other)
    assert not {name for name in ("Maren", "Mazurka") if name in repr(rows)}
    texts = {row[3] for row in rows["note"]}
    assert texts == {"feeds to someone and someone", "as someone does", "someone waits"}
    assert rows["conflict"] == []
    kept = [row for row in rows["player"] if row[1] == "someone 1"]
    assert len(kept) == keep_counts
    assert len(rows["ball"]) == (3 if keep_counts else 1)
    for folder in ("there", "back", "twice"):
        book = (tmp_path / folder / "book.db").read_bytes()
        assert b"Maren" not in book
        assert b"Mazurka" not in book


def test_counts_of_nobody_stay_nobodys(tmp_path: Path) -> None:
    """What the stale copy knows of the rounds of the person names nobody again."""
    one, other = erased_on_one(tmp_path, keep_counts=True)
    (nobody,) = one.book.db.execute("SELECT id FROM player WHERE name = 'someone 1'").fetchone()
    rows = both_ways(tmp_path, one, other)
    owners = {row[2] for row in rows["round"]}
    assert owners == {nobody, player(one, "Tove").id}
    assert {row[0] for row in rows["tally"]} == owners


def test_names_in_notes_stay_where_nobody_asked_for_them_to_go(tmp_path: Path) -> None:
    one, other = erased_on_one(tmp_path, in_notes=False)
    rows = both_ways(tmp_path, one, other)
    assert {row[3] for row in rows["note"]} == {
        "feeds to Maren and Marenka",
        "as Mazurka does",
        "Maren waits",
    }
    assert [row[1] for row in rows["player"]] == ["Tove"]


def test_every_table_travels(tmp_path: Path) -> None:
    book = full_book(tmp_path / "full")
    other = desk_in(tmp_path / "other", ("Ilse",), drill=None)
    before = shared(book)
    join_book(other.book, book.path, no, START)
    after = shared(other.book)
    for name in set(before) - {"former", "drill_used", "coach", "day", "round", "matched"}:
        assert {repr(row) for row in before[name]} <= {repr(row) for row in after[name]}, name


def test_whole_tables_are_copied_as_row_by_row(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Balls, grades and lines that are all new here: into an empty book, and into one with some."""
    book = full_book(tmp_path / "full")
    empty = create_or_open(tmp_path / "empty.db", START)
    other = desk_in(tmp_path / "other")
    feed(other, "222 2-1!/ _ 0")
    pairs = [(empty.path, book.path), (book.path, other.book.path), (other.book.path, book.path)]
    whole = [joined(tmp_path, f"whole{at}", *paths) for at, paths in enumerate(pairs)]
    monkeypatch.setattr(other_book, "balls_come_whole", lambda _db: False)
    row_by_row = [joined(tmp_path, f"rows{at}", *paths) for at, paths in enumerate(pairs)]
    assert whole == row_by_row
    assert len(whole[0]["ball"]) == len(content(book.db)["ball"])


ACTIONS = st.lists(
    st.tuples(
        st.integers(0, 3),
        st.sampled_from(
            ["feed"] * 6
            + [
                "start",
                "move",
                "note",
                "hand",
                "fork",
                "fork",
                "gather",
                "day",
                "strike",
                "split",
                "amend",
                "purpose",
                "drill",
                "undo",
            ]
        ),
        st.text("0122-_/!T@<<", min_size=1, max_size=6),
        st.integers(0, 9),
    ),
    min_size=3,
    max_size=14,
)


class Laptops:
    """Up to four laptops, each with a book; a book may be a copy of another."""

    def __init__(self, home: Path) -> None:
        self.home = home
        self.desks = [desk_in(home / "0"), desk_in(home / "1", ("Maren", "Anouk"))]

    def do(self, which: int, what: str, keys: str, number: int) -> None:
        """One action of one coach."""
        desk = self.desks[which % len(self.desks)]
        roster = lookups.players(desk.book, desk.view.clinic.id)
        who = roster[number % len(roster)]
        match what:
            case "feed" if desk.view.live is not None:
                feed(desk, keys)
            case "start":
                desk.rounds.start(who, LIBRARY.drill(DRILL), Purpose.PRACTICE)
            case "move" if desk.view.live is not None and desk.view.live.feeding.taken:
                taken = len(desk.view.live.feeding.taken)
                desk.amendments().give_last(who, 1 + number % taken)
            case "note" if desk.view.live is not None:
                desk.balls.note(keys)
            case "hand":
                desk.book.db.execute(
                    "UPDATE player SET hand = ? WHERE id = ?",
                    [("left", "right")[number % 2], who.id],
                )
                self.desks[which % len(self.desks)] = again(desk)
            case "fork" if len(self.desks) < 4:
                self.desks.append(copied(desk, self.home / str(len(self.desks))))
            case "gather":
                other = self.desks[number % len(self.desks)]
                if other is not desk:
                    join_book(desk.book, other.book.path, yes, START)
                    self.desks[which % len(self.desks)] = again(desk)
            case "day":
                desk.clinic.open_day(
                    desk.view.clinic.id, date(2026, 5, 12 + number % 2), "2", "Ines"
                )
                desk.rounds.start(who, LIBRARY.drill(DRILL), Purpose.PRACTICE)
            case "strike" | "split" | "amend" | "purpose" | "drill" | "undo":
                with contextlib.suppress(BookError):
                    self.put_right(desk.book, what, number)
                self.desks[which % len(self.desks)] = again(desk)

    def put_right(self, book: Book, what: str, number: int) -> None:
        """One deed on a round of the book. Raises BookError when it cannot be done."""
        rounds = book.db.execute("SELECT id FROM round ORDER BY day_id, place").fetchall()
        (row,) = rounds[number % len(rounds)] if rounds else (0,)
        cues = len(lookups.live_round(book, row).cue_keys) if row else 0
        match what:
            case "strike":
                ball_repairs.strike_ball(book, row, 1 + number % 3, "Ines", START)
            case "split":
                round_repairs.split_round(book, row, 1 + number % 4, "Ines", START)
            case "amend":
                ball = Ball.from_token("201"[:cues], cues)
                ball_repairs.amend_ball(book, row, 1 + number % 3, ball, "Ines", START)
            case "purpose":
                round_repairs.change_purpose(book, row, list(Purpose)[number % 5], "Ines", START)
            case "drill":
                name = ("forehand/hand-feed", DRILL)[number % 2]
                round_repairs.change_drill(book, row, used(name), "Ines", START)
            case "undo":
                deeds = book.db.execute("SELECT id FROM amendment ORDER BY id").fetchall()
                if deeds:
                    (last,) = deeds[number % len(deeds)]
                    undo_amendment.take_back_amendment(book, last, "Ines", START)

    def keys(self) -> set[object]:
        """Everything that was ever written into a journal or a note of any book."""
        found: set[object] = set()
        for desk in self.desks:
            found |= set(desk.book.db.execute("SELECT id, before, after, at FROM journal"))
            found |= set(desk.book.db.execute("SELECT id, text FROM note"))
        return found


@given(ACTIONS, st.randoms(use_true_random=False))
@asked(steady, max_examples=dose(12, 40))
def test_any_histories_join_to_the_same_in_any_order(
    actions: list[tuple[int, str, str, int]], dice: random.Random
) -> None:
    with tempfile.TemporaryDirectory() as scratch:
        home = Path(scratch)
        laptops = Laptops(home)
        for action in actions:
            laptops.do(*action)
        paths = [desk.book.path for desk in laptops.desks]
        wanted = joined(home, "first", *paths)
        known: set[object] = {(row[0], row[3], row[4], row[6]) for row in wanted["journal"]}
        known |= {(row[0], row[3]) for row in wanted["note"]}
        assert laptops.keys() <= known, "nothing is lost"
        for number, order in enumerate(dice.sample(list(itertools.permutations(paths)), 2)):
            again_and_again = [*order, *dice.sample(paths, 2)]
            assert joined(home, f"order{number}", *again_and_again) == wanted
        middle = len(paths) // 2
        joined(home, "left", *paths[:middle])
        joined(home, "right", *paths[middle:])
        assert (
            joined(home, "tree", *(home / side / "book.db" for side in ("left", "right"))) == wanted
        )
        for desk in laptops.desks:
            desk.book.close()
