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
    CheckIn,
    ClinicRecord,
    DayRecord,
    RosterEntry,
    RoundRecord,
)
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.round_versions import Keep
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.courtside.desk.book_sync import BookSync
from courtlog.courtside.desk.desk import Desk
from courtlog.errors import BookError, ChangedElsewhereError
from courtlog.library.sheet_in import read_sheet
from courtlog.logbook.exchange.join_books import join_book
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.soundness import faults
from courtlog.logbook.schema.tables import tables
from courtlog.logbook.writes.ball_repairs import amend_ball
from courtlog.logbook.writes.erasing import erase
from courtlog.logbook.writes.past_steps import past_steps, take_back_step
from courtlog.logbook.writes.sheets.take_in import versions_to_decide
from courtlog.reports.facts.day_facts import day_facts
from courtlog.settings import Settings
from courtlog.values import jsonable
from tests.court import DAY, LIBRARY, NAMES, START, Clock, again, begin_clinic, feed, player
from tests.doses import dose
from tests.stories.test_whole_days import play_round, sample

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
    folder.mkdir(exist_ok=True)
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


def test_halves_in_two_books_are_the_day_once_they_are_joined(tmp_path: Path) -> None:
    for seed in range(dose(4, 60)):
        dice = random.Random(f"books {seed}")
        clinic = drawn_day(dice)
        rounds = clinic.days[0].rounds
        live = court_book(tmp_path / f"live {seed}", clinic)
        play(live, rounds)
        at_court = [round_ for round_ in rounds if dice.random() < 0.5]
        halves = court_book(tmp_path / f"halves {seed}", clinic)
        play(halves, at_court)
        assistant = create_or_open(tmp_path / f"paper {seed}.db", EVENING)
        others = [round_ for round_ in rounds if round_ not in at_court]
        put_in(assistant, with_rounds(clinic, others), LIBRARY, EVENING, who="Ines")
        assistant.close()
        join_book(halves.book, tmp_path / f"paper {seed}.db", lambda question: True, EVENING)
        assert facts(halves.book) == facts(live.book), seed
        check(halves.book)
        halves.book.close()
        live.book.close()


def test_a_joined_book_keeps_the_places_that_a_sheet_was_given(tmp_path: Path) -> None:
    """Untimed rounds stand where their sheet has them, also after a joining counts places again."""
    clinic = drawn_day(random.Random(5))
    rounds = clinic.days[0].rounds
    assert len(rounds) > 4
    halves = court_book(tmp_path, clinic)
    play(halves, rounds[::2])
    untimed = [replace(round_, started=None, ended=None) for round_ in rounds]
    answers = dict.fromkeys(
        versions_to_decide(halves.book, with_rounds(clinic, untimed)), Keep.BOTH
    )
    put_in(halves.book, with_rounds(clinic, untimed), LIBRARY, EVENING, answers, "Ines")
    before = [round_.balls for round_ in sheet_of(halves.book).days[0].rounds]
    assert sorted(map(str, before)) == sorted(str(round_.balls) for round_ in rounds)
    assert before == [round_.balls for round_ in rounds]
    other = court_book(tmp_path / "other", replace(clinic, name="Elsewhere"))
    other.book.close()
    join_book(halves.book, other.book.path, lambda question: True, EVENING)
    joined = next(each for each in lookups.clinics(halves.book) if each.name == clinic.name)
    (day,) = day_lookups.record(halves.book, joined).days
    assert [round_.balls for round_ in day.rounds] == before


@pytest.mark.parametrize("seed", range(dose(6, 100)))
def test_a_sheet_twice_is_once_and_taken_back_it_was_never_there(tmp_path: Path, seed: int) -> None:
    dice = random.Random(f"twice {seed}")
    clinic = drawn_day(dice)
    rounds = clinic.days[0].rounds
    desk = court_book(tmp_path, clinic)
    play(desk, [round_ for round_ in rounds if dice.random() < 0.5])
    guest = replace(rounds[-1], player="Guest", started=(rounds[-1].ended or 0) + 1000, ended=None)
    said = CheckIn(player="Guest", pain=2, place="elbow")
    sheet = with_rounds(clinic, [*rounds, guest])
    sheet = replace(sheet, days=(replace(sheet.days[0], check_ins=(said,)),))
    was, was_out = facts(desk.book), sheet_of(desk.book)
    put_in(desk.book, sheet, LIBRARY, EVENING, who="Ines")
    once, once_out = facts(desk.book), sheet_of(desk.book)
    assert len(once_out.days[0].rounds) == len(rounds) + 1
    rows = list(desk.book.db.iterdump())
    again = put_in(desk.book, sheet, LIBRARY, EVENING + HOUR, who="Ines")
    assert (again.rounds, again.balls, again.amendment_id) == (0, 0, None)
    out = put_in(desk.book, once_out, LIBRARY, EVENING + HOUR, who="Ines")
    assert (out.rounds, out.balls, out.amendment_id) == (0, 0, None)
    assert list(desk.book.db.iterdump()) == rows
    number = past_steps(desk.book, lookups.clinics(desk.book)[-1])[-1].number
    take_back_step(desk.book, number, "Ines", EVENING + HOUR)
    assert (facts(desk.book), sheet_of(desk.book)) == (was, was_out)
    check(desk.book)
    take_back_step(desk.book, number + 1, "Ines", EVENING + HOUR)
    assert (facts(desk.book), sheet_of(desk.book)) == (once, once_out)
    check(desk.book)


def balls_of(book: Book) -> list[str]:
    """The rounds of the latest day: whose, and the balls as a sheet has them."""
    (day,) = day_lookups.record(book, lookups.clinics(book)[-1]).days
    return [
        f"{round_.player} {' '.join(record.ball.token() for record in round_.balls)}"
        for round_ in day.rounds
    ]


def on_paper(*lines: str, time: str = "") -> ClinicRecord:
    """A sheet of that day: each line a player and the balls of a round of racquet feed."""
    text = "clinic Harbour Week  zone Europe/Lisbon\nday 2026-05-12\n"
    for line in lines:
        name, _, balls = line.partition(" ")
        text += (
            f"player {name}  drill forehand/racquet-feed  purpose practice"
            f"  cues turn spacing finish{time}\n{balls}\n"
        )
    return read_sheet(text, "a sheet", LIBRARY, "Europe/Lisbon")


def test_the_laptop_dies_at_noon_and_the_afternoon_comes_from_a_sheet(tmp_path: Path) -> None:
    """The first day of the invented clinic; the last round of the morning is cut short."""
    week = sample("harbour-week.txt")
    clinic = replace(week, days=(replace(week.days[0], check_ins=()),), planned_days=None)
    day = clinic.days[0]
    noon = len(day.rounds) // 2
    whole = court_book(tmp_path / "whole", clinic, day.rounds[0].started or 0)
    play(whole, day.rounds)
    morning = court_book(tmp_path / "morning", clinic, day.rounds[0].started or 0)
    play(morning, day.rounds[:noon])
    feeding_order = [round_.order for round_ in sheet_of(whole.book).days[0].rounds]
    assert any(feeding_order)
    afternoon = with_rounds(clinic, [bare(round_) for round_ in day.rounds[noon:]])
    came = put_in(morning.book, afternoon, LIBRARY, EVENING, who="Ines")
    assert came.rounds == len(day.rounds) - noon
    players = [round_.player for round_ in day.rounds]
    assert [placed.place for placed in came.placed] == [
        players[: place + 1].count(player) for place, player in enumerate(players) if place >= noon
    ], "counted as on paper: by player"
    assert facts(morning.book) == facts(whole.book)
    reopened = again(morning)  # the court goes on from there
    reopened.rounds.start(player(reopened, day.rounds[0].player))
    feed(reopened, "222")
    assert len(balls_of(reopened.book)) == len(day.rounds) + 1
    check(reopened.book)


def bare(round_: RoundRecord) -> RoundRecord:
    """The round as keys can play it: without check-ins and the order drawn that day."""
    return replace(round_, check_ins=(), order=())


def test_both_halves_overlap_and_the_coach_decides(tmp_path: Path) -> None:
    """Maren's round stopped at ball 2 when the laptop died; the assistant has all five balls."""
    desk = court_book(tmp_path, on_paper("Maren 222", "Tove 222", "Ruben 222"))
    cues = ("turn", "spacing", "finish")
    drill = LIBRARY.drill("forehand/racquet-feed")
    desk.rounds.start(player(desk, "Maren"), drill, Purpose.PRACTICE, cues)
    feed(desk, "222 210 1")
    sheet = on_paper("Maren 222 211 000! 111 .", "Tove 222 222")
    (versions,) = versions_to_decide(desk.book, sheet)
    before = list(desk.book.db.iterdump())
    with pytest.raises(BookError, match="Maren's round 1"):
        put_in(desk.book, sheet, LIBRARY, EVENING, who="Ines")
    assert list(desk.book.db.iterdump()) == before
    court = "Maren 222 210"
    paper = "Maren 222 211 000! 111 ."
    for keep, expected in (
        (Keep.BOOK, [court, "Tove 222 222"]),
        (Keep.SHEET, [paper, "Tove 222 222"]),
        (Keep.BOTH, [court, paper, "Tove 222 222"]),
    ):
        came = put_in(desk.book, sheet, LIBRARY, EVENING, {versions: keep}, "Ines")
        assert balls_of(desk.book) == expected
        check(desk.book)
        number = past_steps(desk.book, lookups.clinics(desk.book)[-1])[-1].number
        assert came.amendment_id is not None
        take_back_step(desk.book, number, "Ines", EVENING)
        assert balls_of(desk.book) == [court]
        check(desk.book)
    reopened = again(desk)
    assert reopened.view.live is not None
    assert reopened.view.live.feeding.open.token() == "1--"


def test_the_court_that_is_open_meanwhile_shows_the_sheet_at_its_next_key(tmp_path: Path) -> None:
    """New rounds disturb nothing; a round on court that was changed is shown before it goes on."""
    desk = court_book(tmp_path, on_paper("Maren 222", "Tove 222", "Ruben 222"))
    cues = ("turn", "spacing", "finish")
    drill = LIBRARY.drill("forehand/racquet-feed")
    desk.rounds.start(player(desk, "Tove"), drill, Purpose.PRACTICE, cues)
    feed(desk, "222 2")
    sync = BookSync(desk.state)
    beside = create_or_open(desk.book.path, EVENING)
    put_in(beside, on_paper("Maren 000 111"), LIBRARY, EVENING, who="Ines")
    sync.catch_up()
    feed(desk, "-10 _")
    assert balls_of(desk.book) == ["Tove 222 210 222", "Maren 000 111"]
    sheet = on_paper("Tove 222 211 222")
    (versions,) = versions_to_decide(beside, sheet)
    put_in(beside, sheet, LIBRARY, EVENING, {versions: Keep.SHEET}, "Ines")
    with pytest.raises(ChangedElsewhereError):
        sync.catch_up()
    feed(desk, "000")
    assert balls_of(desk.book) == ["Tove 222 211 222 000", "Maren 000 111"]
    feed(desk, "<")
    check(desk.book)
    beside.close()


def test_a_red_that_came_with_a_sheet_stays_when_the_sheet_is_taken_back(tmp_path: Path) -> None:
    desk = court_book(tmp_path, on_paper("Maren 222", "Tove 222"))
    hurt = CheckIn(player="Maren", pain=8, place="elbow")
    sheet = on_paper("Maren 222 111")
    (day,) = sheet.days
    put_in(
        desk.book,
        replace(sheet, days=(replace(day, check_ins=(hurt,)),)),
        LIBRARY,
        EVENING,
        who="Ines",
    )
    take_back_step(desk.book, 1, "Ines", EVENING)
    assert balls_of(desk.book) == []
    (said,) = sheet_of(desk.book).days[0].check_ins
    assert said == hurt
    assert desk.book.db.execute("SELECT count(*) FROM red_flag").fetchone() == (1,)


def test_a_ball_mended_after_the_sheet_is_asked_about_when_it_comes_again(tmp_path: Path) -> None:
    desk = court_book(tmp_path, on_paper("Maren 222"))
    sheet = on_paper("Maren 222 111 000")
    put_in(desk.book, sheet, LIBRARY, EVENING, who="Ines")
    (round_id,) = desk.book.db.execute("SELECT id FROM round").fetchone()
    amend_ball(desk.book, round_id, 2, Ball.from_token("112", 3), "Ines", EVENING)
    (versions,) = versions_to_decide(desk.book, sheet)
    assert versions.book.balls[1].ball.token() == "112"
    take_back_step(desk.book, 1, "Ines", EVENING)
    assert balls_of(desk.book) == []
    take_back_step(desk.book, 3, "Ines", EVENING)
    assert balls_of(desk.book) == ["Maren 222 112 000"]


def test_a_round_seen_on_other_cues_is_replaced_whole_and_comes_back(tmp_path: Path) -> None:
    desk = court_book(tmp_path, on_paper("Maren 222"))
    drill = LIBRARY.drill("forehand/racquet-feed")
    desk.rounds.start(player(desk, "Maren"), drill, Purpose.PRACTICE, ("turn",))
    feed(desk, "2/1/")
    desk.balls.note("late")
    was = facts(desk.book)
    sheet = on_paper("Maren 222 111 000", time="  time 08:30:00-08:40:00")
    (versions,) = versions_to_decide(desk.book, sheet)
    put_in(desk.book, sheet, LIBRARY, EVENING, {versions: Keep.SHEET}, "Ines")
    assert balls_of(desk.book) == ["Maren 222 111 000"]
    check(desk.book)
    take_back_step(desk.book, past_steps(desk.book, desk.view.clinic)[-1].number, "Ines", EVENING)
    assert facts(desk.book) == was
    check(desk.book)


def test_an_erased_player_leaves_the_others_their_sheet(tmp_path: Path) -> None:
    desk = court_book(tmp_path, on_paper("Maren 222", "Tove 222"))
    put_in(desk.book, on_paper("Maren 222", "Tove 111"), LIBRARY, EVENING, who="Ines")
    erase(desk.book, player(desk, "Maren"), EVENING, keep_counts=False, in_notes=False)
    assert balls_of(desk.book) == ["Tove 111"]
    take_back_step(desk.book, 1, "Ines", EVENING)
    assert balls_of(desk.book) == []
    check(desk.book)
