"""Who agreed to be filmed: kept each time it is said, the latest counts."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from courtlog.coaching.game.cards import PlayerCard, card_of
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.reads import people_lookups
from courtlog.logbook.rows.ids import COUNT_BITS
from courtlog.logbook.writes.people_writer import PeopleWriter
from tests.court import START, desk_in, player

DAY_MS = 24 * 3600 * 1000


def say(desk: Desk, at: int = START, **values: str) -> PlayerCard:
    """Change Maren's card; returns it as it is read back."""
    clinic, who = desk.view.clinic.id, player(desk, "Maren").id
    card = card_of(values, people_lookups.card(desk.book, clinic, who))
    PeopleWriter(desk.book).edit_card(clinic, who, card, at)
    return people_lookups.card(desk.book, clinic, who)


def test_each_answer_is_kept_and_the_latest_counts(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    assert not say(desk, goal="serve").filming
    assert say(desk, filming="asked").filming_on == "2026-05-12", "the day of the key"
    yes = say(desk, START + DAY_MS, filming="yes", filming_by="herself")
    assert (yes.filming_on, yes.filming_by, yes.may_be_filmed) == ("2026-05-13", "herself", True)
    assert say(desk, START + 2 * DAY_MS, goal="return") == card_of({"goal": "return"}, yes)
    assert say(desk, filming="no", filming_on="2026-05-01").filming_on == "2026-05-01"
    rows = desk.book.db.execute("SELECT answer FROM filming_consent ORDER BY id").fetchall()
    assert [answer for (answer,) in rows] == ["asked", "yes", "no"]
    with pytest.raises(sqlite3.IntegrityError, match="stays as it was said"):
        desk.book.db.execute("DELETE FROM filming_consent")


def test_an_answer_is_taken_back(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    say(desk, filming="yes", filming_by="herself")
    card = say(desk, START + 1, filming="")
    assert (card.filming, card.filming_on, card.filming_by) == ("", "", "")


def test_a_new_player_brings_the_answer_along(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    clinic = desk.view.clinic.id
    card = card_of({"name": "Sunniva", "age": "minor", "filming": "yes", "filming_by": "father"})
    PeopleWriter(desk.book).add_players(clinic, [card], START)
    read = people_lookups.entries(desk.book, clinic)[-1].card
    assert (read.name, read.filming_on, read.may_be_filmed) == ("Sunniva", "2026-05-12", True)


@pytest.mark.parametrize("tag", [1, 1 << 20])
@pytest.mark.parametrize(("later", "answer"), [(1, "no"), (-1, "yes")])
def test_of_two_joined_books_the_later_word_counts(
    tmp_path: Path, tag: int, later: int, answer: str
) -> None:
    """The other book said no; its ids may be above or below those of this one."""
    desk = desk_in(tmp_path)
    say(desk, filming="yes", filming_by="herself")
    with desk.book.writing() as db:
        db.execute(
            "INSERT INTO filming_consent VALUES (?, ?, 'no', '2026-05-12', 'her aunt', ?)",
            [(tag << COUNT_BITS) + 1, player(desk, "Maren").id, START + later],
        )
    clinic = desk.view.clinic.id
    assert people_lookups.card(desk.book, clinic, player(desk, "Maren").id).filming == answer
