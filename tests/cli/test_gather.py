"""`courtlog gather`: what two laptops said differently, listed and decided."""

from __future__ import annotations

import sqlite3
from contextlib import closing

import pytest

from tests.cli.program import Home
from tests.court import desk_in, feed
from tests.exchange.test_gather import copied


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
