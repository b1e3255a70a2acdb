"""Every entry of the writers changes rows of what it names: this player, day, clinic or round.

The book has three players in two clinics on three days, and each has a row of each kind.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta
from typing import NamedTuple

import pytest

from courtlog.coaching.game.cards import Focus, PlayerCard
from courtlog.coaching.game.clinic_record import CheckIn
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.coaching.plans.rotation import Presence
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.clinic_lookups import planned
from courtlog.logbook.writes import clinic_writer
from courtlog.logbook.writes.care_writer import CareWriter
from courtlog.logbook.writes.feeds_writer import FeedsWriter
from courtlog.logbook.writes.people_writer import PeopleWriter
from courtlog.logbook.writes.rotation_writer import RotationWriter
from courtlog.logbook.writes.round_writer import RoundWriter
from tests.court import DAY, LIBRARY, NAMES, START, Clock, begin_clinic, desk_in, feed, player

OF_THIS_LAPTOP = {"bookmark", "former"}
"""Where the book was left, and earlier versions of rows, which say no player of their own."""


class Named(NamedTuple):
    """Tove in the first clinic, on its second day, in her first round there."""

    book: Book
    clinic_id: int
    day_id: int
    date: date
    player_id: int
    round_id: int


@pytest.fixture(scope="module")
def named(tmp_path_factory: pytest.TempPathFactory) -> Named:
    """The book; every test takes back what it did."""
    desk = desk_in(tmp_path_factory.mktemp("named"), drill=None)
    assert isinstance(desk.clock, Clock)
    harbour, second = desk.view.clinic.id, DAY + timedelta(days=1)
    _two_rounds_each(desk)
    desk.clock.pass_seconds(24 * 3600)
    desk.clinic.open_day(harbour, second, "2", "Ines")
    _two_rounds_each(desk)
    day, tove = desk.view.day.id, player(desk, "Tove").id
    begin_clinic(desk, "Hill Week", "Europe/Lisbon", "Ines", "1", NAMES[::-1])
    _two_rounds_each(desk)
    db = desk.book.db
    with desk.book.writing():
        db.execute("UPDATE roster SET next_drill = 'forehand/live', goal = 'as before'")
        db.execute(
            "INSERT OR REPLACE INTO standing (day_id, player_id, station, since)"
            " SELECT day.id, player_id, 'fence', ? FROM day JOIN roster USING (clinic_id)",
            [START],
        )
        db.execute(
            "INSERT OR REPLACE INTO focus"
            " SELECT clinic_id, player_id, 'forehand', 'x', 'turn', 'y', ? FROM roster",
            [START],
        )
        db.execute(
            "INSERT INTO planned_round SELECT day.id + player_id % 1000, clinic_id, day.date,"
            " roster.place, player_id, 'forehand/live', 'practice', 20"
            " FROM day JOIN roster USING (clinic_id)"
        )
    (first,) = db.execute(
        "SELECT min(id) FROM round WHERE day_id = ? AND player_id = ?", [day, tove]
    ).fetchone()
    return Named(desk.book, harbour, day, second, tove, first)


def _two_rounds_each(desk: Desk) -> None:
    for someone in lookups.players(desk.book, desk.view.clinic.id) * 2:
        desk.rounds.start(someone, LIBRARY.drill("forehand/hand-feed"), Purpose.PRACTICE)
        feed(desk, "2/0/")
        desk.rounds.end_round()


def _kept(n: Named) -> list[PlannedRound]:
    return list(planned(n.book, n.clinic_id, n.date))


def _only_tove(n: Named) -> list[PlannedRound]:
    return [round_ for round_ in _kept(n) if round_.player.id == n.player_id]


NOW = START + 90_000_000
CARD = PlayerCard(name="Tove", hand="left", goal="another", limit=40)
FOCUS = Focus("forehand", "hits hard", ("turn", "finish"), "why", main="finish")

# What is done, and the words of what it names.
SHEET: list[tuple[str, str, Callable[[Named], object]]] = [
    ("attend", "day_id player_id", lambda n: RotationWriter(n.book).set_presence(
        n.day_id, n.player_id, Presence.LEFT, 0, NOW)),
    ("stand", "day_id player_id", lambda n: RotationWriter(n.book).set_stations(
        n.day_id, {n.player_id: "shadow"}, NOW)),
    ("solo", "day_id player_id", lambda n: RotationWriter(n.book).add_solo(
        n.day_id, n.player_id, "fence", 30, NOW)),
    ("check in", "day_id player_id", lambda n: CareWriter(n.book).add_check_in(
        n.day_id, n.player_id, CheckIn(player="Tove", pain=7, place="elbow"), NOW)),
    ("set a red", "day_id player_id", lambda n: CareWriter(n.book).set_red(
        n.day_id, n.player_id, "limps", NOW)),
    ("edit a card", "clinic_id player_id", lambda n: PeopleWriter(n.book).edit_card(
        n.clinic_id, n.player_id, CARD, NOW)),
    ("keep a focus", "clinic_id player_id", lambda n: PeopleWriter(n.book).keep_focus(
        n.clinic_id, n.player_id, FOCUS, NOW)),
    ("change the order", "clinic_id", lambda n: PeopleWriter(n.book).move_in_roster(
        n.clinic_id, n.player_id, 1)),
    ("add a player", "clinic_id", lambda n: PeopleWriter(n.book).add_players(
        n.clinic_id, [PlayerCard(name="Anouk")], NOW)),
    ("put down a drill", "clinic_id player_id", lambda n: RoundWriter(n.book).set_next_drill(
        n.clinic_id, n.player_id, None)),
    ("rest", "round_id day_id", lambda n: RoundWriter(n.book).subtract_idle_time(
        n.round_id, 5000, NOW)),
    ("note", "round_id", lambda n: RoundWriter(n.book).add_note(n.round_id, 1, "late", NOW)),
    ("go to a round", "round_id player_id day_id", lambda n: RoundWriter(n.book).go_to_round(
        n.round_id)),
    ("say", "round_id", lambda n: FeedsWriter(n.book).log_spoken(n.round_id, 1, NOW)),
    ("keep a first plan", "clinic_id player_id", lambda n: clinic_writer.keep_plan(
        n.book, n.clinic_id, n.date + timedelta(days=7), (), _only_tove(n), NOW)),
    ("forget a plan", "clinic_id date", lambda n: clinic_writer.keep_plan(
        n.book, n.clinic_id, n.date, _kept(n), (), NOW)),
    ("keep a plan", "clinic_id date", lambda n: clinic_writer.keep_plan(
        n.book, n.clinic_id, n.date, _kept(n), _only_tove(n), NOW)),
]  # fmt: skip


def rows(book: Book) -> set[tuple[str, tuple[tuple[str, object], ...]]]:
    """Every row of every table with its columns; an id is named after its table."""
    found = set()
    tables = book.db.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
    for (table,) in tables:
        if table in OF_THIS_LAPTOP or table.startswith(("sqlite_", "_")):
            continue
        cursor = book.db.execute(f"SELECT * FROM {table}")
        names = [f"{table}_id" if name == "id" else name for name, *_ in cursor.description]
        found |= {(table, tuple(zip(names, row, strict=True))) for row in cursor}
    return found


def strangers(
    changed: set[tuple[str, tuple[tuple[str, object], ...]]], n: Named, words: str
) -> Iterator[tuple[str, str, object]]:
    """Changed rows of another player, day, clinic or round than the one named."""
    for table, row in changed:
        values = dict(row)
        for name in words.split():
            meant = getattr(n, name)
            meant = meant.isoformat() if isinstance(meant, date) else meant
            if values.get(name, meant) != meant:
                yield table, name, values[name]


@pytest.mark.parametrize(
    ("words", "act"), [pytest.param(w, act, id=name) for name, w, act in SHEET]
)
def test_only_rows_of_what_is_named_change(
    named: Named, words: str, act: Callable[[Named], object]
) -> None:
    before = rows(named.book)
    named.book.db.execute("BEGIN")
    try:
        act(named)
        changed = before ^ rows(named.book)
    finally:
        named.book.db.execute("ROLLBACK")
    assert changed, "nothing was done"
    assert list(strangers(changed, named, words)) == []


def test_a_clinics_order_is_its_own(named: Named) -> None:
    named.book.db.execute("BEGIN")
    try:
        PeopleWriter(named.book).move_in_roster(named.clinic_id, named.player_id, 1)
        orders = [
            [player.name for player in lookups.players(named.book, clinic.id)]
            for clinic in lookups.clinics(named.book)
        ]
    finally:
        named.book.db.execute("ROLLBACK")
    assert orders == [["Maren", "Ruben", "Tove"], ["Ruben", "Tove", "Maren"]]
