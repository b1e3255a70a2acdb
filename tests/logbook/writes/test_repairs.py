"""Putting right afterwards: no ball is lost or counted twice, and everything goes back.

The model beside the book is a list of rounds, each a list of balls; it knows nothing of SQL.
"""

from __future__ import annotations

import contextlib
from dataclasses import dataclass, replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courtlog.coaching.game.clinic_record import ClinicRecord
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.courtside.desk.desk import Desk
from courtlog.errors import BookError
from courtlog.logbook.file import doctor
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.rows import tallies
from courtlog.logbook.writes import amendments, ball_repairs, round_repairs, undo_amendment
from courtlog.logbook.writes.sheets.sheet_numbers import day_of_number, numbers_of_day
from tests.court import again, desk_in, feed, open_book, player, used, written
from tests.doses import dose

WHO = "Ines"
DRILLS = ("forehand/racquet-feed", "forehand/hand-feed", "forehand/day-one-feed")
PURPOSES = (Purpose.PRACTICE, Purpose.HOLD)
TOKENS = ("222", "000", "2-1!", ".", "-0-")

deeds = st.lists(
    st.tuples(
        st.sampled_from(["amend", "strike", "move", "split", "join", "drill", "purpose"]),
        st.integers(0, 30),
        st.integers(0, 30),
        st.integers(0, 30),
    ),
    max_size=12,
)


@dataclass(frozen=True, slots=True)
class Played:
    """A round of the model: the ids and tokens of its balls in order."""

    id: int
    player: int
    drill: str
    purpose: str
    balls: tuple[tuple[int, str], ...]


def rounds_in(desk: Desk) -> list[Played]:
    """The day's rounds in order as the book has them, empty ones too."""
    return [
        Played(
            round_id,
            who,
            drill,
            purpose,
            tuple(
                (row, amendments.current_ball(desk.book.db, row)[0].token())
                for (row,) in desk.book.db.execute(
                    "SELECT id FROM ball WHERE round_id = ? AND taken ORDER BY number", [round_id]
                ).fetchall()
            ),
        )
        for round_id, who, drill, purpose in desk.book.db.execute(
            "SELECT round.id, player_id, name, purpose FROM round"
            " JOIN drill_used ON drill_used.id = drill_id ORDER BY place"
        ).fetchall()
    ]


def record(desk: Desk) -> ClinicRecord:
    """All that a sheet would say."""
    return day_lookups.record(desk.book, desk.view.clinic)


def sound(desk: Desk) -> None:
    """Tallies are the balls', nothing fits badly, and the screen would show the same again."""
    assert tallies.proof(desk.book.db) == []
    assert doctor.findings(desk.book) == []


def do(desk: Desk, model: list[Played], deed: tuple[str, int, int, int]) -> list[Played]:
    """One deed on the book and on the model; the model after it. Raises BookError."""
    name, first, second, third = deed
    at = first % len(model)
    one = model[at]
    number = second % max(1, len(one.balls)) + 1
    clock = desk.clock()
    before, after = model[:at], model[at + 1 :]

    def twin(row: int, who: int, chosen: range | list[int]) -> list[Played]:
        gone = tuple(ball for n, ball in enumerate(one.balls, 1) if n in chosen)
        left = tuple(ball for n, ball in enumerate(one.balls, 1) if n not in chosen)
        other = replace(one, id=row, player=who, balls=gone)
        return [*before, replace(one, balls=left), other, *after]

    match name:
        case "amend":
            ball = Ball.from_token(TOKENS[third % len(TOKENS)], 3)
            ball_repairs.amend_ball(desk.book, one.id, number, ball, WHO, clock)
            balls = list(one.balls)
            balls[number - 1] = (balls[number - 1][0], ball.token())
            return [*before, replace(one, balls=tuple(balls)), *after]
        case "strike":
            ball_repairs.strike_ball(desk.book, one.id, number, WHO, clock)
            left = one.balls[: number - 1] + one.balls[number:]
            return [*before, replace(one, balls=left), *after]
        case "move":
            numbers = sorted({number, third % max(1, len(one.balls)) + 1})
            who = desk.view.roster[third % len(desk.view.roster)].id
            row = round_repairs.move_balls(desk.book, one.id, numbers, who, WHO, clock)
            return twin(row, who, numbers)
        case "split":
            row = round_repairs.split_round(desk.book, one.id, number, WHO, clock)
            return twin(row, one.player, range(number, len(one.balls) + 1))
        case "join":
            other = model[second % len(model)]
            round_repairs.join_rounds(desk.book, one.id, other.id, WHO, clock)
            joined = replace(one, balls=tuple(sorted(one.balls + other.balls)))
            put = {one.id: joined, other.id: replace(other, balls=())}
            return [put.get(round_.id, round_) for round_ in model]
        case "drill":
            card = used(DRILLS[third % len(DRILLS)])
            round_repairs.change_drill(desk.book, one.id, card, WHO, clock)
            return [*before, replace(one, drill=card.name), *after]
        case _:
            purpose = PURPOSES[third % len(PURPOSES)]
            round_repairs.change_purpose(desk.book, one.id, purpose, WHO, clock)
            return [*before, replace(one, purpose=str(purpose)), *after]


def played(folder: Path) -> Desk:
    """Three short rounds of two players, the last one on court with an open ball and notes."""
    desk = desk_in(folder)
    feed(desk, "222 2-1! / _ 012")
    desk.balls.note("late")
    desk.clock.pass_seconds(60)  # type: ignore[attr-defined]
    desk.rounds.start(player(desk, "Tove"))
    feed(desk, "_ 000")
    desk.rounds.start(player(desk, "Maren"), purpose=Purpose.PRACTICE)
    feed(desk, "__ 111 2")
    return desk


def steps(desk: Desk) -> list[int]:
    """All deeds, newest first."""
    rows = desk.book.db.execute("SELECT id FROM amendment ORDER BY id DESC").fetchall()
    return [row for (row,) in rows]


@settings(derandomize=True, deadline=None, max_examples=dose(10, 25))
@given(deeds)
def test_any_deeds_are_the_models_and_all_go_back(
    tmp_path_factory: pytest.TempPathFactory, chosen: list[tuple[str, int, int, int]]
) -> None:
    desk = played(tmp_path_factory.mktemp("any"))
    first, model = record(desk), rounds_in(desk)
    everyone = {ball for round_ in model for ball, _ in round_.balls}
    for deed in chosen:
        desk.clock.pass_seconds(7)  # type: ignore[attr-defined]
        with contextlib.suppress(BookError):
            model = do(desk, model, deed)
        assert rounds_in(desk) == model
        sound(desk)
        struck = desk.book.db.execute("SELECT id FROM ball WHERE number < 0").fetchall()
        there = {ball for round_ in model for ball, _ in round_.balls}
        assert there | {row for (row,) in struck} == everyone
    done = steps(desk)
    for row in done:
        undo_amendment.take_back_amendment(desk.book, row, WHO, desk.clock())
        sound(desk)
    assert record(desk) == first
    for row in steps(desk)[: len(done)]:
        undo_amendment.take_back_amendment(desk.book, row, WHO, desk.clock())
        sound(desk)
    assert rounds_in(desk) == model, "taking back what took back does it all again"


@settings(derandomize=True, deadline=None, max_examples=dose(10, 25))
@given(
    st.lists(
        st.one_of(
            deeds.map(lambda chosen: chosen[:1]),
            st.text("012_/!T<<", max_size=4),
            st.integers(0, 9),
        ),
        max_size=14,
    )
)
def test_keys_deeds_and_takings_back_in_any_order_keep_every_ball(
    tmp_path_factory: pytest.TempPathFactory,
    chosen: list[list[tuple[str, int, int, int]] | str | int],
) -> None:
    desk = played(tmp_path_factory.mktemp("mixed"))
    for step in chosen:
        desk.clock.pass_seconds(7)  # type: ignore[attr-defined]
        known = {row for (row,) in desk.book.db.execute("SELECT id FROM ball")}
        try:
            if isinstance(step, str):
                feed(desk, step)
            elif isinstance(step, int):
                for row in steps(desk)[step : step + 1]:
                    undo_amendment.take_back_amendment(desk.book, row, WHO, desk.clock())
            else:
                for deed in step:
                    do(desk, rounds_in(desk), deed)
        except BookError:
            pass
        if not isinstance(step, str):
            desk.state.resume()
        sound(desk)
        assert again(desk).view.live == desk.view.live
        assert known <= {row for (row,) in desk.book.db.execute("SELECT id FROM ball")}


def live(desk: Desk) -> str:
    """The round on court as a sheet writes it."""
    assert desk.view.live is not None
    return written(desk.view.live.feeding)


def test_an_amended_ball_is_on_court_at_once_and_backspace_takes_it_back_first(
    tmp_path: Path,
) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000 111")
    assert desk.view.live is not None
    ball_repairs.amend_ball(desk.book, desk.view.live.id, 2, Ball.from_token("20-!", 3), WHO, 5)
    desk.state.resume()
    assert live(desk) == "222 20-! 111"
    feed(desk, "<")
    assert live(desk) == "222 000 111"
    feed(desk, "<")
    assert live(desk) == "222 000|11-"
    feed(desk, "--0")
    assert live(again(desk)) == "222 000 110"
    sound(desk)


def test_a_ball_struck_out_is_gone_from_the_round_and_not_from_the_book(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000")
    desk.balls.note("a dog ran across")
    feed(desk, "111 2")
    assert desk.view.live is not None
    ball_repairs.strike_ball(desk.book, desk.view.live.id, 2, WHO, 5)
    desk.state.resume()
    assert live(desk) == "222 111|2--"
    feed(desk, "<<")
    assert live(desk) == "222|11-"
    notes = day_lookups.notes_on(desk.book, desk.view.clinic.id, desk.view.day.date)
    assert notes == [], "its note went with it"
    undo_amendment.take_back_amendment(desk.book, steps(desk)[0], WHO, 6)
    desk.state.resume()
    assert live(desk) == "222 000|11-"
    sound(desk)


def test_a_step_on_which_a_later_one_stands_is_refused(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000 111")
    assert desk.view.live is not None
    row = desk.view.live.id
    ball_repairs.amend_ball(desk.book, row, 2, Ball.from_token("200", 3), WHO, 5)
    ball_repairs.amend_ball(desk.book, row, 2, Ball.from_token("210", 3), WHO, 6)
    twin = round_repairs.split_round(desk.book, row, 2, WHO, 7)
    round_repairs.change_purpose(desk.book, twin, Purpose.HOLD, WHO, 8)
    hold, split, second, first = steps(desk)
    with pytest.raises(BookError, match="changed again since"):
        undo_amendment.take_back_amendment(desk.book, first, WHO, 9)
    with pytest.raises(BookError, match="A later step on the same round"):
        undo_amendment.take_back_amendment(desk.book, split, WHO, 9)
    undo_amendment.take_back_amendment(desk.book, hold, WHO, 9)
    undo_amendment.take_back_amendment(desk.book, split, WHO, 9)
    undo_amendment.take_back_amendment(desk.book, second, WHO, 9)
    with pytest.raises(BookError, match="taken back already"):
        undo_amendment.take_back_amendment(desk.book, second, WHO, 9)
    undo_amendment.take_back_amendment(desk.book, first, WHO, 9)
    desk.state.resume()
    assert live(desk) == "222 000 111"
    sound(desk)


def test_only_like_rounds_can_be_joined_and_their_pause_lies_between(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "__")
    one = desk.view.live
    desk.clock.pass_seconds(60)  # type: ignore[attr-defined]
    desk.rounds.end_round()
    desk.clock.pass_seconds(90)  # type: ignore[attr-defined]
    desk.rounds.start(player(desk, "Maren"), purpose=Purpose.PRACTICE)
    feed(desk, "000")
    two = desk.view.live
    desk.clock.pass_seconds(30)  # type: ignore[attr-defined]
    desk.rounds.start(player(desk, "Tove"))
    three = desk.view.live
    assert one is not None
    assert two is not None
    assert three is not None
    with pytest.raises(BookError, match="can be joined"):
        round_repairs.join_rounds(desk.book, one.id, three.id, WHO, 5)
    with desk.book.writing() as db:  # as if the second came from paper sheet 2
        db.execute(
            "INSERT INTO sheet_round SELECT ?1, 2, '', min(id), 3 FROM ball WHERE round_id = ?1",
            [two.id],
        )
    round_repairs.join_rounds(desk.book, one.id, two.id, WHO, 5)
    day, maren = desk.view.day, player(desk, "Maren").id
    assert numbers_of_day(desk.book.db, day.id) == {one.id: {2}}, "typed again it is known"
    assert day_of_number(desk.book.db, day.clinic_id, day.date, maren, 2) == (day.id, day.court)
    (played_,) = day_lookups.rounds_on(desk.book, desk.view.clinic.id, desk.view.day.date)
    assert (played_.balls, played_.minutes) == (3, 1.5)
    sound(desk)


def test_a_drill_of_another_stroke_is_refused(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    assert desk.view.live is not None
    with pytest.raises(BookError, match="same stroke"):
        round_repairs.change_drill(desk.book, desk.view.live.id, used("serve/service-line"), WHO, 5)


def test_a_deed_that_fails_leaves_nothing_behind(tmp_path: Path) -> None:
    desk = played(tmp_path)
    before, model = record(desk), rounds_in(desk)
    desk.book.db.execute(
        "CREATE TEMP TRIGGER no BEFORE INSERT ON amended BEGIN SELECT raise(ABORT, 'no'); END"
    )
    for name in ("amend", "strike", "move", "split", "join", "drill", "purpose"):
        with pytest.raises(BookError):
            do(desk, model, (name, 0, 2, 1))
        assert (record(desk), rounds_in(desk), steps(desk)) == (before, model, [])
        sound(desk)


def test_every_ball_keeps_the_spot_it_was_fed_to(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_" * 9)
    assert desk.view.live is not None
    row = desk.view.live.id
    fed = spots(desk)
    assert len(set(fed.values())) > 1
    ball_repairs.strike_ball(desk.book, row, 2, WHO, 5)
    twin = round_repairs.move_balls(desk.book, row, [1, 4], player(desk, "Tove").id, WHO, 6)
    assert spots(desk).items() <= fed.items()
    assert len(spots(desk)) == 8
    assert lookups.live_round(desk.book, twin).player.name == "Tove"
    open_book(tmp_path).close()


def spots(desk: Desk) -> dict[int, int]:
    """The spot of every taken ball by its id."""
    found = {}
    for round_ in rounds_in(desk):
        feeds = lookups.live_round(desk.book, round_.id).feeding.feeds
        for number, (ball, _) in enumerate(round_.balls, 1):
            found[ball] = feeds.spot(number)
    return found
