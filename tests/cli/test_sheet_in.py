"""`courtlog sheet in` where the book has other balls: shown, refused, decided, taken back."""

from __future__ import annotations

import pytest

from tests.cli.program import Home

HEAD = "clinic Bay  zone UTC\nday 2026-05-12  court 2\n"
ROUND = "player {}  drill forehand/live  cues turn spacing\n{}\n"
BOOK = HEAD + ROUND.format("Bo", "22 21 20! .") + ROUND.format("Cas", "00 11")
SHEET = HEAD + ROUND.format("Bo", "22 11 20 . 22") + ROUND.format("Cas", "00 22")


@pytest.fixture
def bay(home: Home) -> Home:
    (home.folder / "book.txt").write_text(BOOK, encoding="utf-8")
    (home.folder / "sheet.txt").write_text(SHEET, encoding="utf-8")
    assert home.run("sheet", "in", "book.txt").code == 0
    return home


def balls(home: Home) -> list[str]:
    """The lines of balls as they go out."""
    return [line for line in home.run("sheet", "out").lines if line[:1] in ("0", "1", "2")]


def test_both_versions_are_shown_ball_for_ball(bay: Home) -> None:
    before = bay.files()
    said = bay.run("sheet", "in", "sheet.txt")
    assert (said.code, said.out, bay.files()) == (1, "", before)
    assert said.err.splitlines() == [
        "1. Bo, forehand/live: round 1 of Tue 12 May, court 2",
        "   ball 1    book   22 21 20! .",
        "             sheet  22 11 20  . 22",
        "                       ^^ ^^^   ^^",
        "   Book 4 balls, sheet 5 balls; 3 differ.",
        "2. Cas, forehand/live: round 1 of Tue 12 May, court 2",
        "   ball 1    book   00 11",
        "             sheet  00 22",
        "                       ^^",
        "   Book 2 balls, sheet 2 balls; 1 differs.",
        "courtlog: Book and sheet differ in 2 rounds (1 and 2); nothing was written. --keep book,"
        " --keep sheet or --keep both decides all of them, --keep 1=both one.",
    ]


@pytest.mark.parametrize(
    ("keep", "after"),
    [
        (("book",), ["22 21 20! .", "00 11"]),
        (("sheet",), ["22 11 20 . 22", "00 22"]),
        (("both",), ["22 21 20! .", "00 11", "22 11 20 . 22", "00 22"]),
        (("2=sheet", "book"), ["22 21 20! .", "00 22"]),
        (("1=sheet", "2=book"), ["22 11 20 . 22", "00 11"]),
    ],
)
def test_an_option_decides_all_rounds_or_one(
    bay: Home, keep: tuple[str, ...], after: list[str]
) -> None:
    options = [word for option in keep for word in ("--keep", option)]
    said = bay.run("sheet", "in", "sheet.txt", *options)
    assert (said.code, said.err, balls(bay)) == (0, "", after)
    if keep == ("book",):
        assert len(bay.run("history").lines) == 1
    else:
        assert said.lines[-1].startswith("`courtlog history back ")
        step = said.lines[-1].split()[3].rstrip("`")
        assert bay.run("history", "back", step).code == 0
        assert balls(bay) == ["22 21 20! .", "00 11"]
    assert bay.run("doctor").lines == ["The book is sound."]


@pytest.mark.parametrize("keep", ["court", "x=book", "=book", "3=book", "0=book", ""])
def test_an_option_that_decides_nothing_is_refused(bay: Home, keep: str) -> None:
    before = bay.files()
    said = bay.run("sheet", "in", "sheet.txt", "--keep", keep)
    assert (said.code, said.out, bay.files()) == (1, "", before)
    assert "--keep" in said.err


def test_a_sheet_without_court_and_zone_joins_the_day_that_there_is(bay: Home) -> None:
    text = "clinic Bay\nday 2026-05-12\n" + ROUND.format("bo", "22 21 20! .")
    (bay.folder / "sheet.txt").write_text(text + ROUND.format("Dag", "11"), encoding="utf-8")
    said = bay.run("sheet", "in", "sheet.txt", TZ="Asia/Tokyo")
    assert said.lines[1] == "  Dag's round 1 of Tue 12 May, court 2: forehand/live, 1 ball, no time"
    assert said.lines[2:4] == [
        "1 round of the sheet was in the book already:",
        "  Tue 12 May, court 2: Bo, round 1.",
    ]
    assert balls(bay) == ["22 21 20! .", "00 11", "11"]


def test_what_was_there_already_is_told_by_round(bay: Home) -> None:
    """Without numbers, balls alone say which round a look-alike is: so it is named."""
    rounds = [ROUND.format("Bo", "22 21 20! ."), ROUND.format("Cas", "00 11")] * 2
    (bay.folder / "sheet.txt").write_text(HEAD + "".join(rounds), encoding="utf-8")
    assert bay.run("sheet", "in", "sheet.txt", "--keep", "both").code == 0
    lines = bay.run("sheet", "in", "sheet.txt").lines
    assert lines == [
        "Bay: no new round; the book stays as it is.",
        "4 rounds of the sheet were in the book already:",
        "  Tue 12 May, court 2: Bo, rounds 1 and 2.",
        "  Tue 12 May, court 2: Cas, rounds 1 and 2.",
    ]
