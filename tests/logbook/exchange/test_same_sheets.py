"""One paper sheet that was typed into two laptops: once where it says the same, named where not."""

from __future__ import annotations

import contextlib
import itertools
import random
import tempfile
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import settings as asked
from hypothesis import strategies as st

from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.round_versions import Keep
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.coaching.paper.filled_sheet import SheetLines, SheetTask
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.screens.paper.typing_session import TypingSession
from courtlog.errors import BookError
from courtlog.logbook.exchange.join_books import join_book
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.writes.ball_repairs import amend_ball
from courtlog.logbook.writes.disagreements import decide, disagreements
from courtlog.logbook.writes.past_steps import past_steps, take_back_step
from tests.court import DAY, LIBRARY, START, close_look, desk_in
from tests.doses import dose
from tests.logbook.exchange.test_join_books import both_ways, copied, joined, yes
from tests.measures.steady import steady
from tests.stories.test_half_on_paper import on_paper

TASK = SheetTask(
    drill="forehand/racquet-feed", purpose=Purpose.PRACTICE, cues=("turn", "spacing", "finish")
)


def type_in(desk: Desk, number: int, balls: str, keep: Keep = Keep.BOOK) -> str:
    """Type Tove's sheet of that number; what was said of it. `keep` answers where it is asked."""
    session = TypingSession(desk.book, lambda: LIBRARY, close_look(coach="Ines"), desk.clock)
    code = SheetCode.of(SheetKind.COURT, DAY, "Harbour Week", "Tove", number)
    (place,) = session.places(str(code))
    session.open(place)
    session.begin(TASK, SheetLines(court="2", who="Ines"))
    session.switch_keys()
    for key in balls.replace(" ", ""):
        assert session.press(key)
    return session.keep(dict.fromkeys(session.versions(), keep))


def balls_of(book: Book) -> list[str]:
    """The rounds of the day: their balls as a sheet has them."""
    (day,) = day_lookups.record(book, lookups.clinics(book)[-1]).days
    return [" ".join(one.ball.token() for one in round_.balls) for round_ in day.rounds]


def two_desks(home: Path) -> tuple[Desk, Desk]:
    """Two laptops of one clinic, begun apart."""
    one, other = (desk_in(home / name, ("Tove",), drill=None) for name in ("one", "other"))
    return one, other


def joined_balls(one: Desk, other: Desk) -> list[str]:
    """What the first book holds once it has gathered the second."""
    join_book(one.book, other.book.path, yes, START)
    return balls_of(one.book)


def test_the_same_sheet_in_two_books_is_one_round(tmp_path: Path) -> None:
    one, other = two_desks(tmp_path)
    for desk in (one, other):
        type_in(desk, 2, "222 210")
    type_in(other, 1, "222 210")
    both_ways(tmp_path, one, other)
    assert joined_balls(one, other) == ["222 210", "222 210"]
    assert disagreements(one.book) == []
    assert "already" in type_in(one, 2, "222 210")


def test_a_ball_put_right_in_either_book_is_right_and_in_both_is_named(tmp_path: Path) -> None:
    one, other = two_desks(tmp_path)
    for desk in (one, other):
        type_in(desk, 1, "222 210")
    (row,) = other.book.db.execute("SELECT id FROM round").fetchone()
    amend_ball(other.book, row, 2, Ball.from_token("212", 3), "Ines", START)
    both_ways(tmp_path, one, other)
    (row,) = one.book.db.execute("SELECT id FROM round").fetchone()
    third = copied(one, tmp_path / "third")
    assert joined_balls(one, other) == ["222 212"]
    amend_ball(third.book, row, 2, Ball.from_token("002", 3), "Ines", START)
    join_book(one.book, third.book.path, yes, START)
    (named,) = disagreements(one.book)
    assert {named.here, named.elsewhere} == {"212", "002"}


@pytest.mark.parametrize(
    ("time", "rounds"), [("  time 08:30:00-08:40:00", 1), ("  time 08:30", 1), ("", 2)]
)
def test_a_sheet_of_plain_text_is_one_round_by_its_time_and_two_without(
    tmp_path: Path, time: str, rounds: int
) -> None:
    """Without number and time nothing says that two rounds of the same balls are one."""
    one, other = two_desks(tmp_path)
    for desk in (one, other):
        put_in(desk.book, on_paper("Tove 222 210", time=time), LIBRARY, START, who="Ines")
    both_ways(tmp_path, one, other)
    assert joined_balls(one, other) == ["222 210"] * rounds


def test_two_versions_of_a_sheet_both_count_and_are_named_until_somebody_decides(
    tmp_path: Path,
) -> None:
    one, other = two_desks(tmp_path)
    type_in(one, 2, "222 210")
    type_in(other, 2, "222 211 222")
    both_ways(tmp_path, one, other)
    assert sorted(joined_balls(one, other)) == ["222 210", "222 211 222"]
    (named,) = disagreements(one.book)
    assert named.where == "Tove, 2026-05-12, sheet 2 was read in twice"
    words = {named.here.split("(")[1], named.elsewhere.split("(")[1]}
    assert words == {"2 balls, step 1)", "3 balls, step 2)"} or words == {
        "2 balls, step 2)",
        "3 balls, step 1)",
    }
    third = copied(one, tmp_path / "third")
    step = past_steps(third.book, third.view.clinic)[-1].number
    take_back_step(third.book, step, "Ines", START)
    assert disagreements(third.book) == []
    decide(one.book, [1])
    assert disagreements(one.book) == []
    join_book(one.book, other.book.path, yes, START)
    assert disagreements(one.book) == [], "what was decided stays so"


def test_two_rounds_that_the_coach_kept_are_no_disagreement(tmp_path: Path) -> None:
    one, _ = two_desks(tmp_path)
    type_in(one, 2, "222 210")
    type_in(one, 2, "222 211", Keep.BOTH)
    assert balls_of(one.book) == ["222 210", "222 211"]
    assert disagreements(one.book) == []


ACTIONS = st.lists(
    st.tuples(
        st.integers(0, 3),
        st.sampled_from(["type"] * 6 + ["amend", "back", "fork", "gather", "decide"]),
        st.integers(1, 3),
        st.sampled_from(["222", "210", "222 210"]),
    ),
    min_size=3,
    max_size=9,
)


@given(ACTIONS, st.randoms(use_true_random=False))
@asked(steady, max_examples=dose(12, 60))
def test_sheets_typed_anywhere_join_to_the_same_in_any_order(
    actions: list[tuple[int, str, int, str]], dice: random.Random
) -> None:
    with tempfile.TemporaryDirectory() as scratch:
        home = Path(scratch)
        desks = [*two_desks(home)]
        for which, what, number, balls in actions:
            desk = desks[which % len(desks)]
            rounds = desk.book.db.execute(
                "SELECT id FROM round WHERE id IN (SELECT round_id FROM ball WHERE taken)"
            ).fetchall()
            match what:
                case "type":
                    type_in(desk, number, balls, dice.choice([*Keep]))
                case "amend" if rounds:
                    (row,) = rounds[number % len(rounds)]
                    ball = Ball.from_token("".join(dice.choice("012") for _ in range(3)), 3)
                    amend_ball(desk.book, row, 1, ball, "Ines", START)
                case "back" if steps := past_steps(desk.book, desk.view.clinic):
                    with contextlib.suppress(BookError):
                        take_back_step(desk.book, steps[-1].number, "Ines", START)
                case "decide" if disagreements(desk.book):
                    decide(desk.book, [1])
                case "fork" if len(desks) < 4:
                    desks.append(copied(desk, home / f"copy{len(desks)}"))
                case "gather":
                    other = desks[number % len(desks)]
                    if other is not desk:
                        join_book(desk.book, other.book.path, yes, START)
        paths = [desk.book.path for desk in desks]
        wanted = joined(home, "first", *paths)
        for number, order in enumerate(dice.sample(list(itertools.permutations(paths)), 2)):
            assert joined(home, f"order{number}", *order, *dice.sample(paths, 2)) == wanted
        for desk in desks:
            desk.book.close()
