"""Who belongs to which court is stored, the latest row counts, and ids of courts never meet."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.game.court_book import Arrival
from courtlog.coaching.plans.court_dealing import CourtGroup
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.reads.courts.court_groups import (
    court_groups,
    group_of_book,
    others_of_book,
    player_courts,
)
from courtlog.logbook.rows.ids import COURTS, LAST_TAG, copied_court_tag, court_tag
from courtlog.logbook.writes.courts.deal_writer import deal_players, move_player
from tests.court import DAY, START, desk_in, player


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    desk = desk_in(tmp_path)
    yield desk
    desk.book.close()


def dealt(desk: Desk, **courts: str) -> int:
    """`c1="Maren Tove"` deals the two to court 1."""
    groups = [
        CourtGroup(court[1:], tuple(player(desk, name) for name in names.split()))
        for court, names in courts.items()
    ]
    return deal_players(desk.book, desk.view.clinic.id, DAY, groups, START)


def shown(desk: Desk) -> dict[str, str]:
    """The names of each court."""
    groups = court_groups(desk.book, desk.view.clinic.id, DAY)
    return {group.court: " ".join(p.name for p in group.players) for group in groups}


def test_players_are_dealt_once_and_again_only_where_it_changes(desk: Desk) -> None:
    assert dealt(desk, c1="Maren Tove", c2="Ruben") == 3
    assert dealt(desk, c1="Maren Tove", c2="Ruben") == 0
    assert dealt(desk, c1="Maren", c2="Ruben Tove", c10="") == 1
    assert shown(desk) == {"1": "Maren", "2": "Tove Ruben"}


def test_the_latest_move_counts_though_a_clock_is_behind(desk: Desk) -> None:
    dealt(desk, c1="Maren Tove", c2="Ruben")
    tove = player(desk, "Tove").id
    for court, kind, at in (("2", "handed", START + 60_000), ("2", "picked", START - 60_000)):
        move_player(desk.book, desk.view.clinic.id, DAY, tove, court, Arrival(kind), at)
    now = player_courts(desk.book, desk.view.clinic.id, DAY)[tove]
    assert (now.court, now.kind, now.before) == ("2", "picked", "1")
    assert shown(desk) == {"1": "Maren", "2": "Tove Ruben"}


def test_a_book_of_a_court_has_its_group_and_knows_the_others(desk: Desk) -> None:
    clinic = desk.view.clinic.id
    assert group_of_book(desk.book, clinic, DAY) is None
    dealt(desk, c1="Maren", c2="Ruben")
    assert group_of_book(desk.book, clinic, DAY) is None, "no court's book"
    desk.book.db.execute("INSERT INTO court_book VALUES (1, '1', 'head', 1, '', 0)")
    # Nobody dealt Tove: whoever comes later belongs to the court that writes the name down.
    assert set(group_of_book(desk.book, clinic, DAY) or ()) == {
        player(desk, name).id for name in ("Maren", "Tove")
    }
    assert [(p.name, at.court) for p, at in others_of_book(desk.book, clinic, DAY)] == [
        ("Ruben", "2")
    ]


def test_a_court_once_dealt_is_never_changed(desk: Desk) -> None:
    dealt(desk, c1="Maren Tove", c2="Ruben")
    for change in ("UPDATE player_court SET court = '3'", "DELETE FROM player_court"):
        with pytest.raises(sqlite3.IntegrityError, match="stays as it was dealt"):
            desk.book.db.execute(change)


@given(
    tag=st.integers(1, LAST_TAG),
    rises=st.lists(st.tuples(st.integers(0, COURTS - 1), st.booleans()), max_size=40),
)
def test_no_two_courts_ever_take_ids_of_one_number(tag: int, rises: list[tuple[int, bool]]) -> None:
    """Whatever each has seen of the others: a court's numbers are its own by what is left over."""
    highest = dict.fromkeys(range(COURTS), tag)
    for court, is_copy in rises:
        above = max(highest.values())
        taken = copied_court_tag(above, court) if is_copy else court_tag(above, court)
        assert taken % COURTS == court
        assert 0 < taken <= LAST_TAG
        assert taken > above or above > LAST_TAG - 2 * COURTS
        highest[court] = taken
