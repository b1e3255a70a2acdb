"""Days of which a part was rated at the court, and a part came from a sheet: as if all were one."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.clinic_record import (
    BallRecord,
    ClinicRecord,
    DayRecord,
    RosterEntry,
    RoundRecord,
)
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.soundness import faults
from courtlog.logbook.schema.tables import tables
from courtlog.reports.facts.day_facts import day_facts
from courtlog.settings import Settings
from courtlog.values import jsonable
from tests.court import DAY, LIBRARY, NAMES, START, Clock, begin_clinic
from tests.doses import dose
from tests.stories.test_whole_days import play_round

HOUR = 3_600_000
EVENING = START + 14 * HOUR
DRILLS = (
    "forehand/racquet-feed",
    "forehand/hand-feed",
    "backhand-two/racquet-feed",
    "forehand/live",
)


def drawn_day(dice: random.Random) -> ClinicRecord:
    """A day of some rounds one after another, each with its times."""
    rounds, at = [], START
    for _ in range(dice.randint(2, 7)):
        ladder, _drill = LIBRARY.drill(name := dice.choice(DRILLS))
        cues = tuple(cue.key for cue in ladder.cues[: dice.randint(1, 3)])
        balls = [
            BallRecord(
                Ball(
                    tuple(dice.choice((*Grade, Grade.MADE, None)) for _ in cues),
                    dice.random() < 0.2,
                ),
                ("late",) * (dice.random() < 0.1),
            )
            for _ in range(dice.randint(1, 9))
        ]
        at += 1000 * dice.randint(1, 900)
        ended = at + 1000 * dice.randint(60, 900)
        rounds.append(
            RoundRecord(
                player=dice.choice(NAMES),
                drill=name,
                purpose=dice.choice([*Purpose]),
                cues=cues,
                balls=tuple(balls),
                started=at,
                ended=ended,
                notes=("stiff today",) * (dice.random() < 0.2),
            )
        )
        at = ended
    day = DayRecord(DAY, "2", "Ines", tuple(rounds))
    roster = tuple(RosterEntry(name) for name in NAMES)
    return ClinicRecord("Harbour Week", "Europe/Lisbon", roster, (day,))


def with_rounds(clinic: ClinicRecord, rounds: Sequence[RoundRecord]) -> ClinicRecord:
    """The clinic with only these rounds on its one day."""
    return replace(clinic, days=(replace(clinic.days[0], rounds=tuple(rounds)),))


def court_book(folder: Path, clinic: ClinicRecord, at: int = START) -> Desk:
    """The court on the day of that clinic, before its first ball."""
    desk = Desk(create_or_open(folder / "court.db", at), lambda: LIBRARY, Settings(), Clock(at))
    (day,) = clinic.days
    names = [entry.name for entry in clinic.roster]
    begin_clinic(desk, clinic.name, clinic.zone, day.coach, day.court, names)
    return desk


def play(desk: Desk, rounds: Sequence[RoundRecord]) -> None:
    """These rounds at the court, by keys."""
    for round_ in rounds:
        assert isinstance(desk.clock, Clock)
        play_round(desk, desk.clock, round_, clumsy=False)


def without_moments(value: object) -> object:
    """The facts without the times of day at which keys were pressed: a sheet has none of them."""
    if isinstance(value, dict):
        return {key: without_moments(held) for key, held in value.items() if key != "time"}
    return [without_moments(held) for held in value] if isinstance(value, list) else value


def facts(book: Book) -> object:
    """What `day --json` says of the latest day, apart from moments."""
    clinic = lookups.clinics(book)[-1]
    return without_moments(jsonable(day_facts(book, clinic, None, None)))


def check(book: Book) -> None:
    """Every rule of a sound book."""
    assert tallies.proof(book.db) == []
    assert next(faults(book.db, tables(book.db)), None) is None


def sheet_of(book: Book) -> ClinicRecord:
    """The clinic as it would go out."""
    return day_lookups.record(book, lookups.clinics(book)[-1])


@pytest.mark.parametrize("seed", range(dose(12, 300)))
def test_a_day_in_two_halves_is_the_day_all_live_and_all_by_sheet(
    tmp_path: Path, seed: int
) -> None:
    dice = random.Random(seed)
    clinic = drawn_day(dice)
    rounds = clinic.days[0].rounds
    live = court_book(tmp_path / "live", clinic)
    play(live, rounds)
    on_paper = create_or_open(tmp_path / "paper" / "book.db", EVENING)
    put_in(on_paper, clinic, LIBRARY, EVENING, who="Ines")
    assert facts(on_paper) == facts(live.book)
    at_court = [round_ for round_ in rounds if dice.random() < 0.5]
    others = [round_ for round_ in rounds if round_ not in at_court]
    cut = dice.randint(0, len(others))
    halves = court_book(tmp_path / "halves", clinic)
    play(halves, at_court)
    for part in (others[cut:], others[:cut]):
        put_in(halves.book, with_rounds(clinic, part), LIBRARY, EVENING, who="Ines")
    assert facts(halves.book) == facts(live.book)
    check(halves.book)
