"""A sheet says what the coach meant, however it was typed, and comes back the same."""

from __future__ import annotations

from datetime import date, datetime, time
from pathlib import Path
from zoneinfo import ZoneInfo, available_timezones

import pytest
from hypothesis import given
from hypothesis import settings as asked
from hypothesis import strategies as st

from courtlog import times
from courtlog.cli.actions.sheets import parse
from courtlog.coaching.game.clinic_record import (
    BallRecord,
    CheckIn,
    CheckInMoment,
    ClinicRecord,
    DayRecord,
    RosterEntry,
    RoundRecord,
)
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.errors import LibraryError
from courtlog.library import sheet_times
from courtlog.library.sheet_in import read_sheet
from courtlog.library.sheet_out import write_sheet
from tests.doses import dose
from tests.library.clinics import DAYS, NASTY, clinics
from tests.library.shelf import shipped, steady

SHEET = """\
clinic Harbour Week          # invented names only
day 2026-05-12  court 2  coach Ines
player Maren   drill forehand/racquet-feed   purpose practice   cues turn spacing finish
222 212 2-0! 022 . 221       # a group is a ball
pain elbow 2   effort 6   note "tension on high balls"
"""

X, N, M, U = Grade.MISSED, Grade.NEAR, Grade.MADE, None
BALLS = ((M, M, M), (M, N, M), (M, U, X), (X, M, M), (U, U, U), (M, M, N))
ROUND = RoundRecord(
    player="Maren",
    drill="forehand/racquet-feed",
    purpose=Purpose.PRACTICE,
    cues=("turn", "spacing", "finish"),
    balls=tuple(BallRecord(Ball(grades, at == 2)) for at, grades in enumerate(BALLS)),
    check_ins=(
        CheckIn(
            player="Maren",
            moment=None,
            pain=2,
            place="elbow",
            effort=6,
            minutes=None,
            note="tension on high balls",
        ),
    ),
)
MEANT = ClinicRecord(
    "Harbour Week",
    "Europe/Lisbon",
    (RosterEntry("Maren"),),
    (DayRecord(date(2026, 5, 12), "2", "Ines", (ROUND,)),),
)


def read(text: str, zone: str = "Europe/Lisbon") -> ClinicRecord:
    return read_sheet(text, "sheet.txt", shipped(), zone)


def told(text: str) -> list[tuple[int, str]]:
    """The line and the sentence of every mistake of a sheet; none when it is a clinic."""
    try:
        assert isinstance(read(text), ClinicRecord)
    except LibraryError as error:
        return [(int(problem.place), problem.sentence) for problem in error.problems]
    return []


def one_round(rest: str, zone: str = "UTC") -> RoundRecord:
    """The round of a sheet that ends in these lines."""
    clinic = read(f"clinic X\nday 2026-05-12\nplayer Bo  drill {rest}", zone)
    (day,) = clinic.days
    (found,) = day.rounds
    return found


def at(clock: str, zone: str = "UTC", day: int = 12) -> int:
    when = datetime.fromisoformat(f"2026-05-{day}T{clock}").replace(tzinfo=ZoneInfo(zone))
    return int(when.timestamp()) * 1000


def test_the_lines_of_a_sheet_read_as_meant() -> None:
    assert read(SHEET) == MEANT


TYPED = {
    "blanks": "  " + SHEET.replace("  ", "       "),
    "tabs": SHEET.replace("  ", "\t").replace("222 212", "222\t212\t").replace("note ", "note\t"),
    "blank lines": SHEET.replace("\n", "\n\n   \n"),
    "indented": "  " + SHEET.replace("\n", "\n\t"),
    "comments": "# mine\n" + SHEET.replace("Ines\n", "Ines # she\n  # nothing\n"),
    "other order": SHEET.replace("court 2  coach Ines", "coach Ines  court 2").replace(
        "pain elbow 2   effort 6", "effort 6   pain elbow 2"
    ),
    "quoted": SHEET.replace("Harbour Week", '"Harbour Week"').replace("Maren", '"Maren"'),
    "one ball a line": SHEET.replace("212 2-0!", "212\n2-0!\n"),
    "no end of line": SHEET.rstrip("\n"),
    "first cues are meant": SHEET.replace("cues turn spacing finish", ""),
    "practice is meant": SHEET.replace("purpose practice", ""),
    "dashes are a ball not seen": SHEET.replace(" . ", " --- "),
}


@pytest.mark.parametrize("how", TYPED)
def test_however_it_was_typed(how: str) -> None:
    assert TYPED[how] != SHEET
    assert read(TYPED[how]) == MEANT


MARK = b"\xef\xbb\xbf"


@pytest.mark.parametrize(
    "data",
    [
        pytest.param(SHEET.encode().replace(b"\n", b"\r\n"), id="CRLF"),
        pytest.param(SHEET.encode().replace(b"\n", b"\r"), id="CR"),
        pytest.param(MARK + SHEET.encode(), id="BOM"),
        pytest.param(MARK + SHEET.encode().replace(b"\n", b"\r\n"), id="both"),
    ],
)
def test_whatever_editor_saved_it(tmp_path: Path, data: bytes) -> None:
    file = tmp_path / "sheet.txt"
    file.write_bytes(data)
    assert parse(file, shipped(), "Europe/Lisbon") == MEANT


def test_times_clips_notes_pauses_and_spots() -> None:
    found = one_round(
        "forehand/racquet-feed  cues turn  time 09:30-09:38:20  paused 95  order 1221\n"
        '2 0!@09:31:07 "late" "again" . # no clip\n"on the third"\n'
        'note "round"\nnote "and more"\n1\n'
        'effort 7  time 09:35\nminutes 30 when end note "tired"'
    )
    assert found == RoundRecord(
        player="Bo",
        drill="forehand/racquet-feed",
        purpose=Purpose.PRACTICE,
        cues=("turn",),
        balls=(
            BallRecord(Ball((M,))),
            BallRecord(Ball((X,), True, at("09:31:07")), ("late", "again")),
            BallRecord(Ball((U,)), ("on the third",)),
            BallRecord(Ball((N,))),
        ),
        started=at("09:30:00"),
        ended=at("09:38:20"),
        paused=95,
        order=(0, 1, 1, 0),
        notes=("round", "and more"),
        check_ins=(
            CheckIn(player="Bo", effort=7, at_ms=at("09:35:00")),
            CheckIn(player="Bo", moment=CheckInMoment.END, minutes=30, note="tired"),
        ),
    )


def test_a_round_past_midnight_ends_on_the_next_day() -> None:
    found = one_round("serve/baseline  time 23:50-00:10\n222@00:05 222@23:55")
    assert (found.started, found.ended) == (at("23:50:00"), at("00:10:00", day=13))
    assert [ball.ball.clip for ball in found.balls] == [at("00:05:00", day=13), at("23:55:00")]


def test_a_check_in_after_midnight_is_of_the_next_day() -> None:
    found = one_round("serve/baseline  time 23:50-00:10\n222\npain elbow 2  time 00:05")
    assert found.check_ins[0].at_ms == at("00:05:00", day=13)


def test_a_round_that_lay_open_for_days_comes_back_the_same() -> None:
    line = "time 09:30:00-2026-05-14T10:00:00  paused 172800"
    found = one_round(f"serve/baseline  {line}\n222 222@2026-05-13T10:00:00")
    assert (found.started, found.ended) == (at("09:30:00"), at("10:00:00", day=14))
    assert found.balls[1].ball.clip == at("10:00:00", day=13)
    day = DayRecord(date(2026, 5, 12), "", "", (found,))
    written = write_sheet(ClinicRecord("X", "UTC", (RosterEntry("Bo"),), (day,)))
    assert line in written
    assert "222@2026-05-13T10:00:00" in written
    assert read(written).days == (day,)


def test_a_round_begun_after_midnight_on_the_day_before_comes_back_the_same() -> None:
    found = one_round("serve/baseline  time 2026-05-13T00:10:00-00:20:00\n222@00:15")
    assert (found.started, found.ended) == (at("00:10:00", day=13), at("00:20:00", day=13))
    assert found.balls[0].ball.clip == at("00:15:00", day=13)
    day = DayRecord(date(2026, 5, 12), "", "", (found,))
    written = write_sheet(ClinicRecord("X", "UTC", (RosterEntry("Bo"),), (day,)))
    assert "time 2026-05-13T00:10:00-00:20:00" in written
    assert read(written).days == (day,)


def test_the_zone_of_the_sheet_comes_before_the_laptops() -> None:
    line = "day 2026-05-12\nplayer Bo  drill forehand/live  time 09:30\n222\n"
    here, there = read("clinic X\n" + line), read("clinic X  zone Asia/Tokyo\n" + line)
    assert (here.zone, there.zone) == ("Europe/Lisbon", "Asia/Tokyo")
    assert here.days[0].rounds[0].started == at("09:30:00", "Europe/Lisbon")
    assert there.days[0].rounds[0].started == at("09:30:00", "Asia/Tokyo")


def test_times_above_the_clinic_line_are_in_its_zone_or_a_mistake() -> None:
    text = "day 2026-05-12\nplayer Bo  drill forehand/live  time 09:30\nclinic X  zone Asia/Tokyo\n"
    try:
        found = read(text)
    except LibraryError:
        return
    assert found.days[0].rounds[0].started == at("09:30:00", "Asia/Tokyo")


def test_two_courts_on_one_date_and_everyone_on_the_roster() -> None:
    found = read(
        "clinic X\nroster Tove  hand left\n"
        "day 2026-05-12  court 1\nplayer Bo  drill serve/baseline\n"
        "day 2026-05-12  court 2\ncheckin Cas  pain 0\nplayer Bo  drill serve/baseline\n"
    )
    assert found.roster == (RosterEntry("Tove", "left"), RosterEntry("Bo"), RosterEntry("Cas"))
    assert [(day.court, len(day.rounds)) for day in found.days] == [("1", 1), ("2", 1)]
    assert found.days[1].check_ins == (CheckIn(player="Cas", pain=0),)


@given(clinics())
@asked(steady, max_examples=dose(40, 100))
def test_a_clinic_written_and_read_is_the_same(clinic: ClinicRecord) -> None:
    text = write_sheet(clinic)
    again = read(text)
    assert again == clinic
    assert write_sheet(again) == text
    assert all(character.isprintable() for character in text.replace("\n", ""))


KEYWORDS = ("clinic", "roster", "day", "player", "pain", "checkin", "drill", "purpose", "cues")
VALUES = ("2026-05-12", "forehand/live", "practice", "hold", "turn", "spacing", "right", "UTC")
TOKENS = ("222", "2-0!", ".", "222@09:31", "09:30-09:40", "23:50-00:10", "elbow", "11", '"', '"x"')
WORDS = st.sampled_from((*KEYWORDS, *VALUES, *TOKENS, *NASTY, "time", "order", "when", "note"))
LINES = st.lists(WORDS, max_size=8).map(" ".join) | st.sampled_from(SHEET.split("\n"))
SHEETS = st.lists(LINES, max_size=12).map("\n".join)


@given(st.text() | SHEETS)
@asked(steady, max_examples=dose(200, 600))
def test_any_text_is_a_clinic_or_a_list_of_mistakes(text: str) -> None:
    places = [place for place, _ in told(text)]
    assert places == sorted(places)
    assert all(1 <= place <= text.count("\n") + 1 for place in places)
    assert all(sentence.endswith(".") for _, sentence in told(text))


GOOD_WORDS = st.sampled_from((*TOKENS[:4], '"x"', '"\\u001b"', "2-0", "000!@23:59:59"))
GOOD_LINES = st.one_of(
    st.lists(GOOD_WORDS, min_size=1, max_size=5).map(" ".join),
    st.sampled_from(
        (
            *SHEET.split("\n")[2:],
            'effort 3 when break note "#"',
            "checkin Bo",
            "note 222",
            "player Bo drill forehand/live time 23:50-00:10 order 11 paused 3",
            "day 2026-05-13 court  two  words",
            "roster Bo hand left",
        )
    ),
)


@given(st.lists(GOOD_LINES, max_size=10).map("\n".join))
@steady
def test_what_was_read_is_written_so_that_it_reads_the_same(rest: str) -> None:
    try:
        clinic = read("\n".join([*SHEET.split("\n")[:3], rest]))
    except LibraryError:
        return
    assert read(write_sheet(clinic)) == clinic


@pytest.mark.parametrize("day", ["9999-12-31", "0001-01-01"])
def test_the_ends_of_the_calendar_are_a_mistake_or_come_back(day: str) -> None:
    text = f"clinic X\nday {day}\nplayer Bo  drill forehand/live  time 01:00-00:00\n"
    for zone in ("Asia/Tokyo", "America/St_Johns"):
        if not told(text.replace("X", f"X  zone {zone}")):
            assert read(write_sheet(read(text, zone)), zone) == read(text, zone)


def test_half_a_character_is_a_mistake() -> None:
    with pytest.raises(LibraryError):
        read(SHEET.replace("tension", "\\ud800"))


def test_the_hour_that_comes_twice_is_told_apart() -> None:
    """Lisbon puts its clocks back on 25 October 2026 at 01:00 UTC (IANA tz database)."""
    lines = "clinic X  zone Europe/Lisbon\nday 2026-10-25\nplayer Bo  drill forehand/live  "
    found = read(f"{lines}time 01:50-01:10\n222@01:05\n").days[0].rounds[0]
    first = int(datetime.fromisoformat("2026-10-25T00:50:00+00:00").timestamp()) * 1000
    assert (found.started, found.ended) == (first, first + 20 * 60_000)
    assert found.balls[0].ball.clip == first + 15 * 60_000
    second = read(f"{lines}time 2026-10-25T01:10:00Z\n222\n")
    assert second.days[0].rounds[0].started == first + 20 * 60_000
    assert "time 2026-10-25T01:10:00Z\n" in write_sheet(second)


@given(
    st.sampled_from(sorted(available_timezones() - {"localtime"})),
    DAYS,
    st.integers(-10, 50 * 60),
    st.integers(0, 5 * 60),
)
@asked(steady, max_examples=dose(400, 1500))
def test_any_span_in_any_zone_comes_back(zone: str, on: date, begun: int, lasted: int) -> None:
    """Minutes from the local midnight on, in every zone of the IANA database."""
    place = times.zone(zone)
    started = times.moment(on, time(0), place) + begun * 60_000
    ended = started + lasted * 60_000
    written = sheet_times.span_words(started, ended, on, place)
    assert sheet_times.span(written, on, place) == (started, ended), written
