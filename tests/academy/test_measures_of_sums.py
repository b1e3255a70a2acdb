"""What SQL sums up is what courtlog's own measures are made of."""

from __future__ import annotations

from collections.abc import Sequence

import duckdb
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from courtlog.academy.folder import shipped
from courtlog.academy.season.changes import ChangesOfStroke, StrokeOf
from courtlog.academy.season.drills import drill_changes
from courtlog.coaching.answers.ball_history import BallKind
from courtlog.coaching.answers.comparison import compare
from courtlog.measures.shares.neighbours import Neighbours, neighbours, tie_of_sums
from tests.library.shelf import steady

KIND = BallKind("forehand/hand-feed", 3, "hand", False)


def by_sql(rounds: Sequence[Sequence[int | None]]) -> Neighbours | None:
    """The views and the question over rounds of one cue, as they are shipped."""
    with duckdb.connect() as db:
        db.execute(
            "CREATE TABLE taken_balls (book BIGINT, ball_id BIGINT, round_id BIGINT, number INT)"
        )
        db.execute("CREATE TABLE rating (book INT, ball_id INT, row INT, grade INT)")
        db.execute("CREATE TABLE round_cue (book INT, round_id INT, row INT, cue TEXT)")
        db.execute("CREATE TABLE ball_counts (book INT, round_id INT, balls INT)")
        db.execute(
            "CREATE TABLE rounds AS SELECT 1 AS book, id AS round_id, 1 AS clinic_id, 2 AS"
            f" player_id, 'forehand' AS stroke FROM range({len(rounds)}) AS r(id)"
        )
        for number, grades in enumerate(rounds):
            db.execute("INSERT INTO round_cue VALUES (1, ?, 0, 'turn')", [number])
            db.execute("INSERT INTO ball_counts VALUES (1, ?, ?)", [number, len(grades)])
            for at, grade in enumerate(grades, 1):
                ball = number * 1000 + at
                db.execute("INSERT INTO taken_balls VALUES (1, ?, ?, ?)", [ball, number, at])
                if grade is not None:
                    db.execute("INSERT INTO rating VALUES (1, ?, 0, ?)", [ball, grade])
        db.execute(f"CREATE VIEW cue_counts AS {shipped('views', 'cue_counts')}")
        found = db.execute(shipped("questions", "neighbours")).fetchall()
    return tie_of_sums(*found[0][4:]) if found else None


GRADES = st.sampled_from([0, 1, 2, 2, None])

LONG = [
    [*[2, 2, 2, 0, 0, 0] * 10, *border, *[0, 0, 0, 2, 2, 2] * 12] for border in ([2, 2], [None, 0])
]
"""Rounds of more than 120 balls, since the view has sixty in a number."""


@steady
@example(rounds=LONG, runs=False)
@given(st.lists(st.lists(GRADES, min_size=1, max_size=12), min_size=9, max_size=14), st.booleans())
def test_neighbours_by_sql_are_those_of_the_balls(
    rounds: list[list[int | None]], runs: bool
) -> None:
    """Some drawn so that balls in a row go alike."""
    if runs:
        rounds = [[grade for grade in grades for _ in range(3)] for grades in rounds]
    ours, theirs = neighbours(rounds), by_sql(rounds)
    assert (ours is None) == (theirs is None)
    if ours and theirs:
        assert theirs.correlation == pytest.approx(ours.correlation)


def stroke_that_went(made: int) -> ChangesOfStroke:
    one = compare({KIND: (made, 20)}, {KIND: (10, 20)}, ("later", "earlier"))
    return ChangesOfStroke("Maren", {"turn": one}, 0)


def drills(with_it: tuple[int, int], without: tuple[int, int]) -> tuple[str, str, tuple[int, ...]]:
    """Of those who practised the drill so many of so many went up, and of the others."""
    ups = [
        *(n < with_it[0] for n in range(with_it[1])),
        *(n < without[0] for n in range(without[1])),
    ]
    strokes = {
        StrokeOf(1, player, "forehand"): stroke_that_went(15 if up else 5)
        for player, up in enumerate(ups)
    }
    practised = [(1, player, "forehand", "forehand/fence", 20) for player in range(with_it[1])]
    (one,) = drill_changes(strokes, practised)
    return (
        one.said,
        one.verdict,
        (one.up_with, one.players_with, one.up_without, one.players_without),
    )


def test_a_drill_that_goes_with_a_gain_is_at_most_worth_a_look() -> None:
    """Newcombe's interval of 38 of 40 against 15 of 40 leaves none out by far."""
    said, verdict, counts = drills((38, 40), (15, 40))
    assert (said, verdict) == ("It may go with a gain: keep watching.", "worth a look: up")
    assert counts == (38, 40, 15, 40)


@pytest.mark.parametrize(
    ("with_it", "without", "words"),
    [
        ((15, 40), (38, 40), "It may go with a drop: keep watching."),
        ((20, 40), (20, 40), "These players cannot tell."),
        ((7, 7), (0, 30), "Too few players to tell."),
        ((8, 8), (0, 0), "Too few players to tell."),
    ],
)
def test_else_it_is_said_that_players_cannot_tell(
    with_it: tuple[int, int], without: tuple[int, int], words: str
) -> None:
    assert drills(with_it, without)[0] == words
