"""A sheet without a time is the round of its number, however much it looks like another one."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.coaching.paper.filled_sheet import SheetLines, SheetTask
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.screens.paper.typing_session import TypingSession
from courtlog.logbook.reads import day_lookups
from courtlog.logbook.writes.past_steps import past_steps, take_back_step
from tests.court import DAY, LIBRARY, close_look, desk_in, feed, player

CUES = ("turn", "spacing", "finish")
KINDS = (
    ("forehand/racquet-feed", Purpose.PRACTICE),
    ("forehand/racquet-feed", Purpose.TRANSFER),
    ("forehand/hand-feed", Purpose.PRACTICE),
)
Round = tuple[tuple[str, Purpose], int]
"""Drill and purpose, and how many balls, all of them made."""
rounds = st.lists(st.tuples(st.sampled_from(KINDS), st.integers(1, 2)), min_size=1, max_size=5)


def play(desk: Desk, day: list[Round]) -> None:
    """Tove's rounds at the court."""
    for (drill, purpose), balls in day:
        desk.rounds.start(player(desk, "Tove"), LIBRARY.drill(drill), purpose, CUES)
        feed(desk, " ".join(["222"] * balls))
        desk.rounds.end_round()


def typing(
    desk: Desk, number: int, round_: Round, made: bool = True, court: str = "2", began: str = ""
) -> TypingSession:
    """Tove's sheet of that number, typed as far as its last row."""
    session = TypingSession(desk.book, lambda: LIBRARY, close_look(coach="Ines"), desk.clock)
    code = SheetCode.of(SheetKind.COURT, DAY, "Harbour Week", "Tove", number)
    (place,) = session.places(str(code))
    session.open(place)
    (drill, purpose), balls = round_
    task = SheetTask(drill=drill, purpose=purpose, cues=CUES)
    session.begin(task, SheetLines(court=court, who="Ines", began=began))
    session.switch_keys()
    for key in ("222" if made else "000") * balls:
        assert session.press(key)
    return session


def day_of(desk: Desk) -> list[Round]:
    """Tove's rounds as the book has them."""
    (day,) = day_lookups.record(desk.book, desk.view.clinic).days
    assert all(record.ball.token() == "222" for round_ in day.rounds for record in round_.balls)
    return [((round_.drill, round_.purpose), len(round_.balls)) for round_ in day.rounds]


@settings(deadline=None, max_examples=25)
@given(day=rounds, data=st.data())
def test_look_alikes_of_other_numbers_come_in_and_the_same_sheet_twice_is_once(
    day: list[Round], data: st.DataObject
) -> None:
    live = data.draw(st.integers(0, len(day) - 1))
    with tempfile.TemporaryDirectory() as folder:
        desk = desk_in(Path(folder), drill=None)
        play(desk, day[:live])
        for number in range(live + 1, len(day) + 1):
            for _ in range(2):
                session = typing(desk, number, day[number - 1])
                assert session.versions() == []
                session.keep()
                assert day_of(desk) == day[:number]
        desk.book.close()


@settings(deadline=None, max_examples=25)
@given(day=rounds, data=st.data())
def test_sheets_typed_in_any_order_all_come_in_and_each_of_them_once(
    day: list[Round], data: st.DataObject
) -> None:
    """However much they look alike: the number on the sheet says which it is."""
    order = data.draw(st.permutations(range(1, len(day) + 1)))
    with tempfile.TemporaryDirectory() as folder:
        desk = desk_in(Path(folder), drill=None)
        for done, number in enumerate(order, 1):
            session = typing(desk, number, day[number - 1])
            assert session.versions() == []
            assert "already" not in session.keep()
            assert day_of(desk) == [day[one - 1] for one in sorted(order[:done])]
        kept = day_of(desk)
        for number in data.draw(st.permutations(order)):
            session = typing(desk, number, day[number - 1])
            assert session.versions() == []
            assert "already" in session.keep()
            (versions,) = typing(desk, number, day[number - 1], made=False).versions()
            assert versions.place == number, "asked about that sheet's round"
        assert day_of(desk) == kept
        desk.book.close()


def test_a_sheet_typed_in_for_another_court_is_the_same_sheet(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    round_ = (KINDS[0], 2)
    typing(desk, 1, round_).keep()
    desk.clinic.open_day(desk.view.clinic.id, DAY, "3", "Ines")
    session = typing(desk, 1, round_, court="3")
    assert session.versions() == []
    assert "already" in session.keep()
    (versions,) = typing(desk, 1, round_, made=False, court="3").versions()
    assert (versions.court, versions.place) == ("2", 1)


@pytest.mark.parametrize("began", ["", "9:40"])
def test_a_number_says_more_than_a_time(tmp_path: Path, began: str) -> None:
    """Sheet 1 without a time is never the round that sheet 2 was kept as, and the other way."""
    desk = desk_in(tmp_path, drill=None)
    round_ = (KINDS[0], 2)
    typing(desk, 2, round_, began=began).keep()
    session = typing(desk, 1, round_, began="" if began else "9:40")
    assert session.versions() == []
    assert "already" not in session.keep()
    (versions,) = typing(desk, 1, round_, made=False, began="17:00").versions()
    assert versions.place == 1, "sheet 1 stands before sheet 2"


@settings(deadline=None, max_examples=25)
@given(day=rounds, data=st.data())
def test_a_round_already_played_is_settled_by_its_number(
    day: list[Round], data: st.DataObject
) -> None:
    number = data.draw(st.integers(1, len(day)))
    with tempfile.TemporaryDirectory() as folder:
        desk = desk_in(Path(folder), drill=None)
        play(desk, day)
        session = typing(desk, number, day[number - 1])
        assert session.versions() == []
        assert "the book had it already" in session.keep()
        (versions,) = typing(desk, number, day[number - 1], made=False).versions()
        assert versions.place == number
        assert day_of(desk) == day
        desk.book.close()


@settings(deadline=None, max_examples=15)
@given(day=rounds, number=st.integers(1, 8), sheet=st.tuples(st.sampled_from(KINDS), st.just(1)))
def test_what_does_not_follow_the_numbers_is_asked_about_and_never_swallowed(
    day: list[Round], number: int, sheet: Round
) -> None:
    """Rounds that were skipped or changed at the court: the number names no round like this."""
    with tempfile.TemporaryDirectory() as folder:
        desk = desk_in(Path(folder), drill=None)
        play(desk, day)
        session = typing(desk, number, sheet)
        others = [kind for kind, _ in day]
        of_number = others[number - 1] if number <= len(day) else None
        if session.versions():
            assert sheet[0] in others
            assert number != len(day) + 1
        else:
            told = session.keep()
            assert ("already" in told) == (day[number - 1 : number] == [sheet])
            if of_number != sheet[0] and number != len(day) + 1:
                assert sheet[0] not in others
            if "already" not in told:
                assert sorted(day_of(desk)) == sorted([*day, sheet])
                step = past_steps(desk.book, desk.view.clinic)[-1].number
                take_back_step(desk.book, step, "Ines", desk.clock())
        assert day_of(desk) == day
        desk.book.close()
