"""`courtlog gather`: what two laptops said differently, listed and decided."""

from __future__ import annotations

import sqlite3
from contextlib import closing

import pytest

from courtlog.coaching.plans.court_dealing import CourtGroup
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.logbook.writes.courts.deal_writer import deal_players
from tests.cli.program import Home
from tests.court import DAY, START, desk_in, feed, player
from tests.logbook.exchange.books import content
from tests.logbook.exchange.test_join_books import copied


@pytest.fixture
def joined(home: Home) -> Home:
    """A ball and a card that two laptops changed, joined."""
    one = desk_in(home.folder)
    feed(one, "222 21")
    other = copied(one, home.folder / "other")
    feed(one, "--0")
    feed(other, "--2")
    for desk, hand in ((one, "left"), (other, "right")):
        desk.book.db.execute("UPDATE player SET hand = ? WHERE name = 'Maren'", [hand])
        desk.book.close()
    said = home.run("gather", "other/book.db").lines
    assert said[-1] == "2 things were said differently; --show lists them."
    return home


def test_each_line_is_decided_by_its_number(joined: Home) -> None:
    lines = joined.run("gather", "--show").lines
    assert lines[0] == "1. player Maren, hand: right stands; another book said left."
    assert lines[1].startswith("2. Maren, 2026-05-12, round 1, ball 2: 21")
    assert lines[2].startswith("Change what is wrong")
    assert joined.run("gather", "--decide", "2").lines[1] == lines[1][:-1] + ("; decided.")
    assert joined.run("gather", "--decide", "1").lines == [
        lines[1].replace("2. ", "1. ", 1)[:-1] + "; decided."
    ]
    again = joined.run("gather", "other/book.db").lines
    assert len(again) == 1, "what is decided is not asked about again"


def test_a_line_that_is_not_there_decides_nothing(joined: Home) -> None:
    with closing(sqlite3.connect(joined.book)) as db:
        before = list(db.iterdump())
        refused = joined.run("gather", "--decide", "1", "--decide", "3")
        assert (refused.code, refused.out) == (1, "")
        assert "There is no line 3 in the list." in refused.err
        assert list(db.iterdump()) == before
    assert "First join the books" in joined.run("gather", "other/book.db", "--decide", "1").err


@pytest.fixture
def erased_there(home: Home) -> Home:
    """Two laptops with one book; on the other one Maren was erased, and her name from the notes."""
    one = desk_in(home.folder)
    feed(one, "222 21- 0")
    one.rounds.start(player(one, "Tove"))
    one.balls.note("feeds to Maren")
    other = copied(one, home.folder / "other")
    one.book.close()
    other.book.close()
    home.run("erase", "Maren", "--yes", "--in-notes", "--book", "other/book.db")
    return home


def test_nobody_goes_unasked_whom_another_book_erased(erased_there: Home) -> None:
    before = rows_of(erased_there)
    said = erased_there.run("gather", "other/book.db")
    assert (said.code, said.out) == (1, "")
    assert (
        "The book other/book.db says that Maren (2 balls, since 2026-05-12) was erased" in said.err
    )
    assert "1 text would lose a name that was erased." in said.err
    assert "Nothing was changed." in said.err
    assert rows_of(erased_there) == before


def test_with_yes_they_go_and_the_backup_is_named(erased_there: Home) -> None:
    lines = erased_there.run("gather", "other/book.db", "--yes").lines
    (kept,) = (erased_there.folder / "backups").glob("*.db")
    assert lines[-2:] == [
        "Maren was erased from the other book, and is gone from this one and from 1 backup.",
        f"The backup made before the joining is {kept}.",
    ]
    assert not any("Maren" in line for line in rows_of(erased_there))
    assert erased_there.run("gather", "other/book.db").code == 0, "nobody is left to ask about"


def test_a_name_that_another_book_gives_takes_no_word_out_of_notes_unasked(
    erased_there: Home,
) -> None:
    with closing(sqlite3.connect(erased_there.folder / "other" / "book.db")) as db:
        (row,) = db.execute("SELECT max(player_id) FROM erased").fetchone()
        db.execute("UPDATE erased SET player_id = sign(player_id) * ?", [row + 1])
        db.execute(
            "INSERT INTO former VALUES ('player', json_array(?), 0, ?)",
            [row + 1, '["Maren","","","","","","",""]'],
        )
        db.commit()
    before = rows_of(erased_there)
    said = erased_there.run("gather", "other/book.db", "--apart", "Maren")
    assert said.code == 1
    assert rows_of(erased_there) == before


def rows_of(home: Home) -> list[str]:
    """Every line of the coach's book."""
    with closing(sqlite3.connect(home.book)) as db:
        return list(db.iterdump())


PRACTICE = "drill forehand/racquet-feed  purpose practice  cues turn spacing"
HEAD = "clinic Harbour Week  zone UTC  days 3\nroster Maren\nroster Tove\nroster Ruben\n"


def courts_of_one_day(home: Home) -> list[str]:
    """A head coach's book dealt to three courts, and the books of courts 2 and 3 with their day."""
    (home.folder / "sheet").write_text(
        f"{HEAD}day 2026-05-12  court 1  coach Ines\nplayer Maren  {PRACTICE}\n22 00 22\n"
    )
    home.run("sheet", "in", "sheet")
    book = create_or_open(home.book, START)
    clinic = lookups.clinics(book)[0]
    roster = lookups.players(book, clinic.id)
    groups = [CourtGroup(str(at), (who,)) for at, who in enumerate(roster, 1)]
    deal_players(book, clinic.id, DAY, groups, START)
    book.close()
    names = []
    for court, who in (("2", "Tove"), ("3", "Ruben")):
        (home.folder / f"laptop-{court}").mkdir()
        path = home.folder / f"court-{court}.db"
        path.write_bytes(home.book.read_bytes())
        sheet = home.folder / f"sheet-{court}"
        sheet.write_text(
            f"{HEAD}day 2026-05-12  court {court}  coach Bo\n"
            f"player {who}  {PRACTICE}\n22 22 00 12\n"
        )
        home.run("--book", str(path), "sheet", "in", str(sheet))
        names.append(path.name)
    return names


def test_a_pattern_is_filled_in_and_the_own_book_is_left_out(home: Home) -> None:
    courts_of_one_day(home)
    (home.folder / "court-1.db").symlink_to(home.book)
    said = home.run("gather", "court-*.db").lines
    assert [line for line in said if "balls and" in line] == [
        "court-2.db: 4 balls and 0 keys came in.",
        "court-3.db: 4 balls and 0 keys came in.",
    ]
    assert not [line for line in said if "missing" in line]
    refused = home.run("gather", "laptop-*.db")
    assert refused.code == 1
    assert "No file fits laptop-*.db." in refused.err


def test_a_missing_court_is_named_and_comes_later_with_the_same_result(home: Home) -> None:
    """Any order, any of them first, twice: the same rows and the same pages."""
    names = courts_of_one_day(home)
    before = home.book.read_bytes()
    said = home.run("gather", names[0]).lines
    missing = "Nothing has come from court 3 yet: Ruben is missing here."
    assert said[-1] == f"Tue 12 May: {missing}"
    page = home.run("day").out
    assert missing in page
    assert "No ball that day" not in page
    ends = []
    for order in (names, names[::-1], [*names, *names], [names[1], "court-*.db"]):
        home.book.write_bytes(before)
        for path in home.folder.glob("*.db-*"):
            path.unlink()
        for name in order:
            last = home.run("gather", name).lines[-1]
        assert "missing" not in last
        with closing(sqlite3.connect(home.book)) as db:
            rows = {
                table: rows for table, rows in content(db).items() if table not in ("home", "book")
            }
        ends.append((rows, home.run("day").out, home.run("plan").out))
    assert all(end == ends[0] for end in ends)
    assert "courts 1, 2, 3" in ends[0][1]


def test_the_groups_kept_with_the_plan_are_taken_in_the_morning(home: Home) -> None:
    """Gathered, planned for two courts in place of three, kept, and dealt without a question."""
    courts_of_one_day(home)
    home.run("gather", "court-*.db")
    tomorrow = ("--date", "2026-05-13")
    kept = home.run("plan", "keep", "--courts", "2", *tomorrow).lines
    groups = [line for line in kept if line.startswith("  court ")]
    assert len(groups) == 2
    assert sorted(" ".join(groups).replace(",", "").split())[2:5] == ["Maren", "Ruben", "Tove"]
    dealt = home.run("courts", "2", "--in", "stick", *tomorrow).lines
    assert dealt[0] == "Harbour Week, Wed 13 May, as it was dealt before."
    assert [line.replace("yours: ", "").split() for line in dealt[1:3]] == [
        line.split() for line in groups
    ]
    assert sorted(path.name for path in (home.folder / "stick").glob("court-*.db")) == [
        "court-1.db",
        "court-2.db",
    ]
