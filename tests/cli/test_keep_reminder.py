"""Who is kept for longer than the laptop is set to: a reminder, and nothing is ever deleted."""

from __future__ import annotations

from datetime import date

import pytest

from courtlog.coaching.game.keeping import KeepTime, months_after
from courtlog.logbook.reads.person.last_days import LastDay
from courtlog.reports.layout.keep_words import reminder
from courtlog.systems.shell_words import quoted
from tests.cli.program import HARBOUR, Home

MAY = date(2026, 5, 15)


@pytest.mark.parametrize(
    ("day", "months", "then"),
    [
        (MAY, 12, date(2027, 5, 15)),
        (date(2026, 8, 31), 6, date(2027, 2, 28)),
        (date(2027, 8, 31), 6, date(2028, 2, 29)),
        (date(2026, 12, 1), 1, date(2027, 1, 1)),
    ],
)
def test_months_are_counted_on_the_calendar(day: date, months: int, then: date) -> None:
    assert months_after(day, months) == then


@pytest.mark.parametrize(
    ("months", "last", "today", "over"),
    [
        (12, MAY, date(2027, 5, 15), False),
        (12, MAY, date(2027, 5, 16), True),
        (0, MAY, date(2099, 1, 1), False),
        (12, None, date(2099, 1, 1), False),
    ],
)
def test_the_time_is_over_the_day_after(
    months: int, last: date | None, today: date, over: bool
) -> None:
    assert KeepTime(months).is_over(last, today) is over


def test_the_reminder_names_three_and_counts_the_rest() -> None:
    everyone = [LastDay(row, name, MAY) for row, name in enumerate(["Ana", "Bo", "Cy", "Di", "Ed"])]
    assert reminder(everyone, KeepTime(1), date(2026, 6, 16)) == (
        "Kept for more than 1 month after the last day: Ana, Bo, Cy and 2 others."
        " `courtlog player Ana --everything` prints what is held,"
        " `courtlog erase Ana` removes it."
    )
    assert reminder(everyone, KeepTime(1), MAY) == ""


OLD = "clinic Old  zone UTC\nroster Ana Berg\nroster Bo\nday 2001-05-12  court 1  coach Ines\n"
NEW = "clinic New  zone UTC\nroster Bo\nday 2190-05-12  court 1  coach Ines\n"


@pytest.fixture
def aged(home: Home) -> Home:
    """A book with a clinic of long ago, and one whose last day is far ahead."""
    for name, text in (("old.txt", OLD), ("new.txt", NEW)):
        (home.folder / name).write_text(text, encoding="utf-8")
        assert home.run("sheet", "in", home.folder / name).lines
    return home


def test_roster_and_doctor_remind_and_whoever_came_again_is_not_named(aged: Home) -> None:
    roster = " ".join(aged.run("roster", "list").out.split())
    said = "Kept for more than 12 months after the last day: Ana Berg."
    assert said in roster
    who = quoted("Ana Berg")
    assert aged.run("doctor").lines == [
        "The book is sound.",
        f"{said} `courtlog player {who} --everything` prints what is held,"
        f" `courtlog erase {who}` removes it.",
    ]
    assert aged.run("settings", "keep_months", "0").lines
    assert aged.run("doctor").lines == ["The book is sound."]
    assert "Kept for" not in aged.run("roster", "list").out


def test_nothing_is_deleted_until_somebody_erases(aged: Home) -> None:
    assert "Ana Berg" in aged.run("player", "Ana Berg", "--everything").out
    assert aged.run("erase", "Ana Berg", "--yes").lines
    assert aged.run("doctor").lines == ["The book is sound."]


def test_the_page_says_until_when(home: Home) -> None:
    assert home.run("sheet", "in", HARBOUR).lines
    assert home.run("settings", "keep_months", "24").lines
    text = " ".join(home.run("player", "Maren", "--everything").out.split())
    assert "It is kept for 24 months after the last day, which was 15 May 2026." in text
    assert home.run("player", "Maren", "--everything", "--why").code == 1
    assert home.run("player", "Maren", "--html", home.folder / "a.html").code == 1
    assert home.run("player", "Maren", "--everything", "--html", home.folder / "a.html").code == 0
    assert "15 May 2026" in (home.folder / "a.html").read_text(encoding="utf-8")
