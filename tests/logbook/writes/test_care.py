"""Reds in the book: written with the check-in, never taken away, and who they take off the feed."""

from __future__ import annotations

import sqlite3
from datetime import date
from pathlib import Path

import pytest

from courtlog.coaching.care.arm_care import CautionLevel
from courtlog.coaching.game.cards import PlayerCard
from courtlog.coaching.game.clinic_record import CheckIn, CheckInMoment, Sign
from courtlog.coaching.game.people import Clinic
from courtlog.courtside.desk.desk import Desk
from courtlog.errors import CourtlogError
from courtlog.library.sheet_in import read_sheet
from courtlog.logbook.reads import care_lookups
from courtlog.logbook.reads.clinic_lookups import FirstDay
from courtlog.logbook.rows.red_flags import flag_reds
from courtlog.logbook.schema.migrations import migrations
from courtlog.logbook.writes import clinic_writer
from courtlog.logbook.writes.care_writer import CareWriter
from courtlog.logbook.writes.people_writer import PeopleWriter
from courtlog.logbook.writes.sheets.take_in import take_in
from tests.court import LIBRARY, START, again, desk_in, open_book, player, used

NIGHT = 24 * 3600


def says(
    desk: Desk, pain: int | None, place: str = "elbow", *signs: Sign, who: str = "Ruben"
) -> str:
    """A check-in; the levels it raises in words."""
    check_in = CheckIn(player=who, moment=CheckInMoment.BREAK, pain=pain, place=place, signs=signs)
    at = desk.clock()
    found = CareWriter(desk.book).add_check_in(desk.view.day.id, player(desk, who).id, check_in, at)
    return " ".join(caution.level for caution in found)


def held(desk: Desk) -> dict[str, str]:
    """Who is held back, by name."""
    view = desk.view
    found = care_lookups.held_back(desk.book, view.clinic.id, view.day.id)
    return {who.name: found[who.id] for who in view.roster if who.id in found}


def sleep(desk: Desk) -> None:
    """The next day begins."""
    desk.clock.pass_seconds(NIGHT)  # type: ignore[attr-defined]
    desk.clinic.begin_day(desk.state.today())


def test_a_red_of_today_takes_a_player_off_the_feed_whatever_is_said_later(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    assert (says(desk, 1), held(desk)) == ("", {})
    assert (says(desk, 4), held(desk)) == ("amber", {})
    assert says(desk, 6) == "red"
    why = {"Ruben": "red today: pain elbow 6, more than 5"}
    assert held(desk) == why
    assert says(desk, 0) == ""
    assert held(desk) == held(again(desk)) == why


def test_a_clinicians_word_opens_the_next_day_and_not_this_one(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    says(desk, 6)
    red = care_lookups.reds(desk.book, desk.view.clinic.id, desk.view.day.date)[0]
    sleep(desk)
    assert held(desk) == {
        "Ruben": "red on Tue 12 May, no clinician's word yet: pain elbow 6, more than 5"
    }
    CareWriter(desk.book).add_clinician_word(red.id, "Dr Jorun", "rest the arm this week", START)
    assert held(desk) == {}
    (kept,) = care_lookups.reds(desk.book, desk.view.clinic.id, desk.view.day.date)
    assert (kept.reason, kept.words[0].who) == (red.reason, "Dr Jorun")
    says(desk, None, "", Sign.NUMBNESS)
    assert held(desk) == {"Ruben": "red today: numbness"}
    levels = care_lookups.levels_on(desk.book, desk.view.clinic.id, desk.view.day.id)
    assert levels == {player(desk, "Ruben").id: CautionLevel.RED}


def test_a_word_on_the_same_day_leaves_the_red_of_that_day(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    view = desk.view
    red = CareWriter(desk.book).set_red(view.day.id, player(desk, "Tove").id, " holds it ", START)
    CareWriter(desk.book).add_clinician_word(red, "Dr Jorun", "looked at it", START)
    assert held(desk) == {"Tove": "red today: holds it"}


def test_an_amber_lasts_its_day_and_a_red_stays_in_sight(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    says(desk, 4)
    says(desk, 7, who="Tove")
    ruben, tove = player(desk, "Ruben").id, player(desk, "Tove").id

    def levels() -> dict[int, CautionLevel]:
        return care_lookups.levels_on(desk.book, desk.view.clinic.id, desk.view.day.id)

    assert levels() == {ruben: CautionLevel.AMBER, tove: CautionLevel.RED}
    sleep(desk)
    assert levels() == {tove: CautionLevel.RED}


def test_a_minor_is_red_at_once_and_when_the_card_says_so_later(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    ruben, tove = player(desk, "Ruben").id, player(desk, "Tove").id
    desk.book.db.execute("UPDATE player SET age_group = 'minor' WHERE id = ?", [ruben])
    assert says(desk, 1) == "red"
    assert says(desk, 1, who="Tove") == ""
    with desk.book.writing() as db:
        db.execute("UPDATE player SET age_group = 'minor' WHERE id = ?", [tove])
        for _ in range(2):
            flag_reds(db, desk.view.clinic.id, tove)
    assert held(desk)["Tove"] == "red today: pain elbow 1, in a joint of a growing player"
    with desk.book.writing() as db:
        db.execute("UPDATE player SET age_group = 'adult'")
    assert set(held(desk)) == {"Ruben", "Tove"}, "a red outlives a change of the card"


@pytest.mark.parametrize(("where", "red"), [("elbow", True), ("thigh", False)])
def test_a_card_that_comes_to_say_minor_brings_the_reds_of_earlier_check_ins(
    tmp_path: Path, where: str, red: bool
) -> None:
    desk = desk_in(tmp_path)
    says(desk, 1, where)
    assert held(desk) == {}
    ruben = next(one for one in desk.people.entries() if one.player.name == "Ruben")
    desk.people.save(ruben, {"age": "minor"})
    why = {"Ruben": "red today: pain elbow 1, in a joint of a growing player"}
    assert held(again(desk)) == (why if red else {})


def test_the_card_and_its_reds_are_one_transaction(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    says(desk, 1)
    ruben = next(one for one in desk.people.entries() if one.player.name == "Ruben")
    desk.book.db.execute(
        "CREATE TEMP TRIGGER no_red BEFORE INSERT ON red_flag"
        " BEGIN SELECT RAISE(ABORT, 'the disk is full'); END"
    )
    with pytest.raises(CourtlogError):
        desk.people.save(ruben, {"age": "minor"})
    assert desk.book.db.execute("SELECT DISTINCT age_group FROM player").fetchall() == [("",)]


def test_a_card_filled_in_another_clinic_brings_the_reds_too(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    says(desk, 1)
    clinic = clinic_writer.begin_clinic(desk.book, Clinic(0, "Hill Week", "UTC"), FirstDay(), START)
    PeopleWriter(desk.book).add_players(clinic.id, [PlayerCard(name="Ruben", age="minor")], START)
    assert set(held(desk)) == {"Ruben"}


def test_nothing_is_kept_without_a_reason_or_a_name(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    door, tove = CareWriter(desk.book), player(desk, "Tove").id
    with pytest.raises(CourtlogError, match="needs a reason"):
        door.set_red(desk.view.day.id, tove, "  ", START)
    red = door.set_red(desk.view.day.id, tove, "seen limping", START)
    for who, text in (("", "fine"), ("Dr Jorun", " ")):
        with pytest.raises(CourtlogError, match="both who spoke and what was said"):
            door.add_clinician_word(red, who, text, START)
    assert desk.book.db.execute("SELECT count(*) FROM clinician_word").fetchone() == (0,)


def test_a_check_in_is_all_or_nothing(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    desk.book.db.execute(
        "CREATE TEMP TRIGGER no_red BEFORE INSERT ON red_flag"
        " BEGIN SELECT RAISE(ABORT, 'the disk is full'); END"
    )
    with pytest.raises(CourtlogError):
        says(desk, 8)
    assert desk.book.db.execute("SELECT count(*) FROM check_in").fetchone() == (0,)


def test_a_sheet_brings_its_reds(tmp_path: Path) -> None:
    sheet = """clinic Harbour Week zone Europe/Lisbon
        day 2026-05-12 court 2 coach Ines
        checkin Ruben pain elbow 1 when arrival
        player Ruben drill forehand/racquet-feed
        222
        pain elbow 6 signs swelling, numbness
        day 2026-05-13 court 2 coach Ines
        checkin Tove pain knee 3"""
    book = open_book(tmp_path)
    drills = {"forehand/racquet-feed": used("forehand/racquet-feed")}
    clinic = take_in(book, read_sheet(sheet, "a sheet", LIBRARY, "UTC"), drills, START).clinic_id
    (red,) = care_lookups.reds(book, clinic, date(2026, 5, 13))
    assert (red.date, red.reason) == (
        date(2026, 5, 12),
        "numbness; visible swelling; pain elbow 6, more than 5",
    )


def test_a_book_from_before_gets_its_reds(tmp_path: Path) -> None:
    """A book of the first shape holds a pain of 7 of an hour nobody noted."""
    from courtlog.logbook.schema.database import Database

    db = Database(tmp_path / "old.db")
    first, second, *_ = migrations.pending(db)
    first.fn(db)
    db.executescript(
        "INSERT INTO clinic VALUES (1, 'Harbour Week', 'UTC', NULL);"
        "INSERT INTO coach VALUES (1, 'Ines');"
        "INSERT INTO day VALUES (1, 1, '2026-05-12', '2', 1);"
        "INSERT INTO player VALUES (1, 'Ruben', '');"
        "INSERT INTO check_in VALUES (9, 1, 1, NULL, NULL, 7, 'elbow', NULL, NULL, '', NULL);"
        "INSERT INTO check_in VALUES (8, 1, 1, NULL, NULL, 5, 'elbow', NULL, NULL, '', NULL);"
    )
    second.fn(db)
    rows = db.execute("SELECT check_in_id, reason, at FROM red_flag").fetchall()
    assert rows == [(9, "pain 7, more than 5", 1_778_544_000_000)]


def test_the_book_lets_nobody_take_a_red_away(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    says(desk, 9)
    (red,) = care_lookups.reds(desk.book, desk.view.clinic.id, desk.view.day.date)
    CareWriter(desk.book).add_clinician_word(red.id, "Dr Jorun", "rest", START)
    for amendment in (
        "DELETE FROM red_flag",
        "UPDATE red_flag SET reason = ''",
        "DELETE FROM clinician_word",
        "UPDATE clinician_word SET text = ''",
    ):
        with pytest.raises(sqlite3.IntegrityError, match="stays"):
            desk.book.db.execute(amendment)
