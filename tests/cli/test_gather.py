"""`courtlog gather`: what two laptops said differently, listed and decided."""

from __future__ import annotations

import sqlite3
from contextlib import closing

import pytest

from tests.cli.program import Home
from tests.court import desk_in, feed, player
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
