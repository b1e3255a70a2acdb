"""The laptop dies at noon: what was printed in the morning is typed in by its codes."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from courtlog import times
from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.clinic_record import (
    BallRecord,
    ClinicRecord,
    DayRecord,
    RosterEntry,
    RoundRecord,
)
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.round_versions import Keep
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.paper.filled_sheet import SheetTask
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import PADS
from courtlog.courtside.screens.paper.printed_tasks import printed_task
from courtlog.courtside.screens.paper.typing_session import TypingSession
from courtlog.errors import BookError
from courtlog.logbook.reads import day_lookups
from courtlog.logbook.writes.past_steps import past_steps, take_back_step
from courtlog.reports.paper.court_sheets import court_sheets
from courtlog.reports.paper.paper_text import court_text
from tests.court import DAY, LIBRARY, NAMES, START, close_look
from tests.stories.test_half_on_paper import (
    EVENING,
    check,
    court_book,
    facts,
    play,
)

CODE = re.compile(r"\b[0-9A-Z]{3}-[0-9A-Z]{3}-[0-9A-Z]{3}\b")
PAD = "right"


def morning(folder: Path) -> Desk:
    """The court before the first ball of the second day, so that its rounds are planned."""
    names = NAMES[:3]
    roster = tuple(RosterEntry(name) for name in names)
    clinic = ClinicRecord("Harbour Week", "Europe/Lisbon", roster, (DayRecord(DAY, "2", "Ines"),))
    desk = court_book(folder, clinic)
    before = tuple(
        RoundRecord(
            player=name,
            drill="forehand/racquet-feed",
            purpose=Purpose.PRACTICE,
            cues=("turn", "spacing", "finish")[: index + 1],
            balls=(BallRecord(Ball((Grade.NEAR,) * (index + 1))),) * 20,
        )
        for index, name in enumerate(names)
    )
    day = DayRecord(DAY - timedelta(days=1), "2", "Ines", before)
    put_in(desk.book, replace(clinic, days=(day,)), LIBRARY, START)
    return desk


def day_page(value: object) -> object:
    """The facts without minutes and waits too, which follow from moments."""
    if isinstance(value, dict):
        return {key: day_page(held) for key, held in value.items() if key != "minutes"}
    if isinstance(value, list):
        return [day_page(held) for held in value]
    return value.partition("; longest wait")[0] if isinstance(value, str) else value


def balls_of(desk: Desk) -> list[str]:
    """The rounds of the day: whose, and the balls as a sheet has them."""
    (day,) = day_lookups.record(desk.book, desk.view.clinic, DAY).days
    return [
        " ".join([round_.player, *(record.ball.token() for record in round_.balls)])
        for round_ in day.rounds
    ]


def printed_codes(desk: Desk) -> list[str]:
    """The codes that stand on the printed page, from its top down."""
    sheets = court_sheets(desk.book, desk.view.clinic, DAY, LIBRARY)
    return CODE.findall(court_text(sheets))


def typing(desk: Desk) -> TypingSession:
    """The screen's session, with the coach's own pad."""
    return TypingSession(
        desk.book, lambda: LIBRARY, close_look(pad=PAD, coach="Ines"), lambda: EVENING
    )


def tasks_by_code(desk: Desk) -> Iterator[tuple[str, str, SheetTask]]:
    """Code, player and task of each planned round, in the order of the page."""
    session = typing(desk)
    for code in printed_codes(desk):
        (place,) = session.places(code)
        task = printed_task(desk.book, place, LIBRARY)
        if task is not None:
            yield code, place.owner.player.shown_name, task


def drawn_balls(dice: random.Random, cues: int) -> tuple[BallRecord, ...]:
    """A few balls, often only made ones, so that rounds look alike."""
    grades = [Grade.MADE] if dice.random() < 0.5 else [*Grade, None]
    return tuple(
        BallRecord(Ball(tuple(dice.choice(grades) for _ in range(cues)), dice.random() < 0.1))
        for _ in range(dice.randint(1, 3))
    )


def drawn_rounds(desk: Desk, dice: random.Random) -> list[tuple[str, RoundRecord]]:
    """Each planned round as it was played, with its sheet's code; players take turns."""
    of_player: dict[str, list[tuple[str, str, SheetTask]]] = {}
    for printed in tasks_by_code(desk):
        of_player.setdefault(printed[1], []).append(printed)
    day, at = [], START
    while any(of_player.values()):
        waiting = dice.choice([name for name, left in of_player.items() if left])
        code, name, task = of_player[waiting].pop(0)
        at += 60_000
        round_ = RoundRecord(
            player=name,
            drill=task.drill,
            purpose=task.purpose,
            cues=task.cues,
            balls=drawn_balls(dice, len(task.cues)),
            started=at,
            ended=at + 420_000,
        )
        day.append((code, round_))
        at += 420_000
    return day


def keys_of(ball: Ball) -> list[str]:
    """The keys of the pad for a row of the paper."""
    keys = ["t"] * ball.tough
    seen = [(row, grade) for row, grade in enumerate(ball.grades) if grade is not None]
    keys += [PADS[PAD].key_of(row, grade) for row, grade in seen] or ["-"]
    return keys if ball.complete else [*keys, "enter"]


def type_rows(desk: Desk, code: str, balls: Sequence[BallRecord], began: str = "") -> TypingSession:
    """The sheet of that code, typed as far as its last row: nothing else is asked."""
    session = typing(desk)
    (place,) = session.places(code)
    assert not session.open(place)
    assert session.strange_day() == ""
    task = printed_task(desk.book, place, LIBRARY)
    assert task is not None
    session.begin(task, session.first_lines())
    session.write_lines(replace(session.in_hand.lines, began=began))
    for record in balls:
        for key in keys_of(record.ball):
            assert session.press(key)
    return session


@pytest.mark.parametrize("seed", range(4))
def test_the_afternoon_typed_in_by_its_codes_is_the_day_all_live(tmp_path: Path, seed: int) -> None:
    """Every second time nobody wrote down when a round began."""
    dice = random.Random(seed)
    court = morning(tmp_path / "court")
    day = drawn_rounds(court, dice)
    noon = dice.randint(1, len(day) - 1)
    rounds = [round_ for _, round_ in day]
    whole = morning(tmp_path / "whole")
    with closing(whole.book), closing(court.book):
        play(whole, rounds)
        play(court, rounds[:noon])
        for code, round_ in day[noon:]:
            clock = times.minute_words(round_.started or 0, court.view.clinic.place)
            session = type_rows(court, code, round_.balls, "" if seed % 2 else clock)
            assert session.versions() == []
            assert "takes it back" in session.keep()
        assert day_page(facts(court.book)) == day_page(facts(whole.book))
        check(court.book)
        for code, round_ in day[noon:]:
            if seed % 2:
                again = type_rows(court, code, round_.balls)
                assert "the book had it already, ball for ball" in again.keep()
        assert day_page(facts(court.book)) == day_page(facts(whole.book))


def test_a_sheet_of_a_round_half_rated_live_is_asked_about(tmp_path: Path) -> None:
    """The assistant wrote the whole round; the court has its first ball, and another mark."""
    court = morning(tmp_path / "court")
    dice = random.Random(3)
    (code, first), *_ = drawn_rounds(court, dice)
    grades = [Grade.MADE] * len(first.cues)
    made = BallRecord(Ball(tuple(grades)))
    missed = BallRecord(Ball((Grade.MISSED, *grades[1:])))
    live, paper = (made, made), (made, missed, missed)
    with closing(court.book):
        play(court, [replace(first, balls=live)])
        was, rows = facts(court.book), list(court.book.db.iterdump())
        session = type_rows(court, code, paper)
        (versions,) = session.versions()
        assert (versions.place, versions.book.balls, versions.sheet.balls) == (1, live, paper)
        with pytest.raises(BookError, match="round 1"):
            session.keep()
        assert list(court.book.db.iterdump()) == rows
        words = [
            " ".join([first.player, *(record.ball.token() for record in balls)])
            for balls in (live, paper)
        ]
        for keep, expected in (
            (Keep.BOOK, words[:1]),
            (Keep.SHEET, words[1:]),
            (Keep.BOTH, words),
        ):
            told = session.keep({versions: keep})
            assert balls_of(court) == expected
            check(court.book)
            if keep is not Keep.BOOK:
                step = past_steps(court.book, court.view.clinic)[-1].number
                assert f"history back {step}" in told
                take_back_step(court.book, step, "Ines", EVENING)
            assert (facts(court.book), balls_of(court)) == (was, words[:1])
            check(court.book)
