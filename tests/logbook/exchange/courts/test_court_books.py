"""Whatever courts do with players and stick, in whatever order: the evening has one book."""

from __future__ import annotations

import contextlib
import random
import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NoReturn

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from courtlog.coaching.game.people import Player
from courtlog.courtside.screens.courts.trade_session import TradeSession
from courtlog.errors import CourtlogError
from courtlog.logbook.exchange.courts.court_books import write_court_books
from courtlog.logbook.exchange.courts.court_files import file_of
from courtlog.logbook.exchange.courts.stick import note_joined
from courtlog.logbook.exchange.join_books import join_book
from courtlog.logbook.exchange.matching import Question
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads.care_lookups import held_back_on
from courtlog.logbook.reads.courts.court_groups import court_groups, readings
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.soundness import faults
from courtlog.logbook.schema.tables import tables
from tests.court import DAY, START, feed
from tests.doses import dose
from tests.logbook.exchange.books import Rows, content, counts
from tests.logbook.exchange.courts.court_books import Courts, dealt_courts

GROUPS = {"c1": "Maren Tove", "c2": "Ruben Aino", "c3": "Jorun Berit"}

LOCAL = {"book", "bookmark", "standing"}
"""What a book knows of itself alone."""


def nobody_asks(question: Question) -> NoReturn:
    raise AssertionError(f"asked about {question}")


def gathered(folder: Path, paths: list[Path]) -> Rows:
    """The rows after a copy of the first book has gathered the others, with nothing asked."""
    folder.mkdir()
    closing = contextlib.closing
    with closing(sqlite3.connect(paths[0])) as source, closing(sqlite3.connect(folder / "b")) as to:
        source.backup(to)
    book = create_or_open(folder / "b", START)
    for path in paths[1:]:
        join_book(book, path, nobody_asks, START)
    assert tallies.proof(book.db) == []
    assert list(faults(book.db, tables(book.db))) == []
    rows = {name: one for name, one in content(book.db).items() if name not in LOCAL}
    rows["tally"] = sorted(counts(book.db), key=repr)
    book.close()
    return rows


def any_here(courts: Courts, court: str, which: int) -> Player | None:
    """One of the players of a court; None where there is none."""
    roster = courts.desks[court].view.rotation.court.roster
    return roster[which % len(roster)] if roster else None


def play(courts: Courts, court: str, act: str, which: int) -> str:
    """Do one thing on a court; returns the balls that were fed, as their players' names."""
    desk = courts.desks[court]
    desk.clock.pass_seconds(7)  # type: ignore[attr-defined]
    session = TradeSession(desk)
    player = any_here(courts, court, which)
    others = session.other_courts()
    if act == "feed" and player is not None:
        ladder, card = desk.state.library.drill("forehand/racquet-feed")
        desk.rounds.start(player=player, drill=(ladder, card))
        feed(desk, "_ 210 222")
        return f"{player.name} " * 3
    if act == "red" and player is not None:
        desk.care.set_red(player, f"shin {which}")
    elif act == "hand" and player is not None:
        session.hand_over(player, others[which % len(others)])
    elif act == "pick" and session.elsewhere():
        elsewhere = session.elsewhere()
        session.pick(elsewhere[which % len(elsewhere)][0])
    elif act == "read":
        session.tell_and_read()
    elif act == "out":
        with contextlib.suppress(FileNotFoundError):
            courts.stick.rename(courts.stick.with_name("pocket"))
    elif act == "in":
        with contextlib.suppress(OSError):
            courts.stick.with_name("pocket").rename(courts.stick)
    return ""


ACTS = st.lists(
    st.tuples(
        st.sampled_from("123"),
        st.sampled_from(("feed", "feed", "hand", "pick", "read", "red", "out", "in")),
        st.integers(0, 5),
    ),
    min_size=4,
    max_size=14,
)


@settings(
    max_examples=dose(8, 80),
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(
    acts=ACTS,
    order=st.randoms(use_true_random=False),
    skews=st.tuples(*[st.integers(-900, 900)] * 3),
)
def test_any_day_on_three_courts_is_one_book_in_the_evening(
    acts: list[tuple[str, str, int]],
    order: random.Random,
    skews: tuple[int, ...],
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    """Balls are all there, once each; nothing is asked; the order of gathering changes nothing."""
    folder = tmp_path_factory.mktemp("courts")
    courts = dealt_courts(folder / "day", **GROUPS)
    for desk, skew in zip(courts.desks.values(), skews, strict=True):
        desk.clock.pass_seconds(1000 + skew)  # type: ignore[attr-defined]
    fed = "".join(play(courts, *act) for act in acts)
    play(courts, "1", "in", 0)
    for court in "123123":
        play(courts, court, "read", 0)
    clinic = courts.desks["1"].view.clinic.id
    reds = [held_back_on(desk.book, clinic, DAY) for desk in courts.desks.values()]
    assert reds == [reds[0]] * 3, "a red holds everywhere once the stick went round"
    paths = [desk.book.path for desk in courts.desks.values()]
    courts.close()
    stick = courts.stick
    first = gathered(folder / "first", paths)
    again = [*paths, *sorted(stick.glob("court-*.db")), *paths]
    order.shuffle(again)
    assert gathered(folder / "second", again) == first
    names = {row[0]: row[1] for row in first["player"]}
    rounds = {row[0]: names[row[2]] for row in first["round"]}
    balls = sorted(str(rounds[row[1]]) for row in first["ball"] if row[3])
    assert balls == sorted(fed.split())


@pytest.fixture
def courts(tmp_path: Path) -> Iterator[Courts]:
    """Two courts in the morning."""
    courts = dealt_courts(tmp_path / "day", c1="Maren Tove", c2="Ruben Aino")
    yield courts
    courts.close()


def off(courts: Courts, court: str, name: str) -> str:
    """Why the player is kept off the feed on that court; empty if not."""
    return courts.desks[court].view.rotation.court.off.get(courts.player(name).id, "")


def test_a_court_has_its_group_and_its_own_day(courts: Courts) -> None:
    for court, names in (("1", ["Maren", "Tove"]), ("2", ["Ruben", "Aino"])):
        view = courts.desks[court].view
        assert view.day.court == court
        assert [player.name for player in view.rotation.court.roster] == names
        assert len(view.roster) == 4


def test_a_red_on_one_court_holds_on_the_other_once_the_stick_was_read(courts: Courts) -> None:
    one, two = (TradeSession(courts.desks[court]) for court in "12")
    one.desk.care.set_red(courts.player("Maren"), "knee")
    one.desk.clock.pass_seconds(-600)  # type: ignore[attr-defined]  # its laptop is behind
    assert off(courts, "2", "Maren") == ""
    one.tell_and_read()
    two.tell_and_read()
    assert off(courts, "2", "Maren") == "red today: knee"


def test_a_player_is_handed_over_and_picked_with_all_that_is_known(courts: Courts) -> None:
    one, two = (TradeSession(courts.desks[court]) for court in "12")
    play(courts, "1", "feed", 0)
    one.desk.clock.pass_seconds(600)  # type: ignore[attr-defined]
    one.hand_over(courts.player("Maren"), "2")
    assert one.desk.view.message == "Maren goes to court 2. Carry the stick there: court 2 picks."
    assert one.desk.state.open_round is None
    assert [p.name for p in one.desk.view.rotation.court.roster] == ["Tove"]
    two.desk.clock.pass_seconds(600 + 35 * 60)  # type: ignore[attr-defined]
    two.pick(courts.player("Maren"))
    assert two.desk.view.message == (
        "Maren is on this court now. Known of court 1 as of 08:40, 34 minutes ago."
    )
    assert {p.name for p in two.desk.view.rotation.court.roster} == {"Ruben", "Aino", "Maren"}
    assert two.desk.book.db.execute("SELECT count(*) FROM ball WHERE taken").fetchone() == (3,)


def test_what_was_gathered_is_no_older_than_it_is(courts: Courts) -> None:
    """The head coach gathers at noon, with no stick: the screen must not say it is of 08:30."""
    two = courts.desks["2"]
    two.clock.pass_seconds(3600)  # type: ignore[attr-defined]
    play(courts, "2", "feed", 0)
    two.book.close()
    head = courts.desks["1"].book
    note_joined(head, join_book(head, two.book.path, nobody_asks, START).court)
    assert readings(head)["2"] > START + 3_600_000


def full_stick(courts: Courts, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing more goes on the stick."""

    def full(*_: object) -> NoReturn:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("courtlog.drafts.put", full)


def pulled_stick(courts: Courts, _: pytest.MonkeyPatch) -> None:
    courts.stick.rename(courts.stick.with_name("pocket"))


def read_only_stick(courts: Courts, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object, **__: object) -> NoReturn:
        raise PermissionError(30, "Read-only file system")

    monkeypatch.setattr("courtlog.drafts.folder_noted", refused)


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (pulled_stick, "is not there."),
        (full_stick, "cannot be written to (No space left on device)."),
        (read_only_stick, "cannot be written to (Read-only file system)."),
    ],
)
def test_a_stick_that_fails_is_a_sentence_and_costs_nothing(
    courts: Courts,
    monkeypatch: pytest.MonkeyPatch,
    spoil: Callable[[Courts, pytest.MonkeyPatch], None],
    said: str,
) -> None:
    one, two = (TradeSession(courts.desks[court]) for court in "12")
    spoil(courts, monkeypatch)
    one.hand_over(courts.player("Maren"), "2")
    assert said in one.desk.view.message
    assert one.desk.view.message.endswith("Tell court 2 about arm and heat.")
    assert [p.name for p in one.desk.view.rotation.court.roster] == ["Tove"]
    two.pick(courts.player("Maren"))
    assert (
        "Nothing is known of court 1 since 08:30: ask its coach about arm and heat."
        in two.desk.view.message
    )
    assert "Maren" in {p.name for p in two.desk.view.rotation.court.roster}


def test_what_somebody_wrote_in_the_copy_on_the_stick_is_never_written_over(courts: Courts) -> None:
    one = TradeSession(courts.desks["1"])
    copy = file_of(courts.stick, "1")
    by_mistake = create_or_open(copy, START)
    with by_mistake.writing() as db:
        db.execute(
            "INSERT INTO red_flag SELECT ?, id, ?, NULL, 'hip', 1 FROM day",
            [by_mistake.ids.next(START), courts.player("Tove").id],
        )
    by_mistake.close()
    one.hand_over(courts.player("Maren"), "2")
    assert off(courts, "1", "Tove") == ""  # the court shows it at the next key
    one.desk.state.resume()
    assert off(courts, "1", "Tove") == "red today: hip"


def test_the_morning_is_not_written_over_what_a_court_laid_there(
    courts: Courts, tmp_path: Path
) -> None:
    """A second dealing in the day: the stick may have the only copy of court 2's balls so far."""
    head, clinic = courts.desks["1"].book, courts.desks["1"].view.clinic.id
    groups = court_groups(head, clinic, DAY)

    def again(at_ms: int) -> None:
        write_court_books(head, clinic, DAY, groups, "1", courts.stick, at_ms)

    again(START + 1)
    play(courts, "2", "feed", 0)
    TradeSession(courts.desks["2"]).tell_and_read()
    laid = file_of(courts.stick, "2").read_bytes()
    with pytest.raises(CourtlogError, match="holds balls or check-ins that are not in your book"):
        again(START + 2)
    assert file_of(courts.stick, "2").read_bytes() == laid
    TradeSession(courts.desks["1"]).tell_and_read()
    again(START + 3)
    other = dealt_courts(tmp_path / "other", c1="Nils Odd", c2="Signe Una")
    file_of(courts.stick, "2").write_bytes(file_of(other.stick, "2").read_bytes())
    other.close()
    with pytest.raises(CourtlogError, match="is of another clinic"):
        again(START + 4)


def test_a_damaged_copy_is_put_aside_and_a_foreign_one_left_alone(
    courts: Courts, tmp_path: Path
) -> None:
    one, two = (TradeSession(courts.desks[court]) for court in "12")
    file_of(courts.stick, "1").write_bytes(b"half")
    other = dealt_courts(tmp_path / "other", c1="Nils Odd", c2="Signe Una")
    file_of(courts.stick, "9").write_bytes(file_of(other.stick, "2").read_bytes())
    other.close()
    two.tell_and_read()
    assert two.desk.view.message == (
        "Nothing new was read. court-1.db on the stick cannot be read: lay it there again."
        " court-9.db on the stick is of another clinic, and was left alone."
    )
    one.hand_over(courts.player("Maren"), "2")
    assert "Carry the stick there" in one.desk.view.message
    assert [path.name.split("-2026")[0] for path in courts.stick.glob("unreadable*")] == [
        "unreadable-court-1"
    ]


def test_an_assistants_book_sets_nothing_up_until_it_is_free(courts: Courts) -> None:
    desk = courts.desks["2"]
    with pytest.raises(CourtlogError, match="This is court 2's book"):
        desk.people.add("Pelle")
    desk.care.set_red(courts.player("Aino"), "back")
    desk.book.db.execute("UPDATE court_book SET owner = 'free'")
    desk.people.add("Pelle")
    courts.desks["1"].people.add("Nils")


def test_courts_whose_files_many_disks_take_for_one_are_refused(tmp_path: Path) -> None:
    with pytest.raises(CourtlogError, match="capitals"):
        dealt_courts(tmp_path, cA="Maren", ca="Tove")
    assert not list(tmp_path.glob("stick/*"))
