"""One clinic on two courts: a trade, a late stick, and a minor's red that one court alone knows.

The head coach is on court 1 with Maren and Tove, an assistant on court 2 with Ruben and Aino.
Tove is a minor.
"""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from courtlog.coaching.game.clinic_record import CheckIn, CheckInMoment
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.screens.courts.trade_session import TradeSession
from courtlog.errors import CourtlogError
from courtlog.logbook.exchange.courts.court_files import file_of
from courtlog.logbook.exchange.join_books import join_book
from courtlog.logbook.reads.courts.court_groups import court_groups
from courtlog.reports.facts.day_facts import day_facts
from courtlog.reports.facts.plan_facts import plan_facts
from courtlog.reports.one_screen.day_page import day_page
from courtlog.reports.pages.plan_text import plan_text
from tests.court import DAY, LIBRARY, START, feed
from tests.logbook.exchange.courts.court_books import Courts, dealt_courts, opened
from tests.logbook.exchange.courts.test_court_books import nobody_asks, off

MINUTE = 60


def plays(courts: Courts, court: str, name: str, balls: str) -> None:
    """The player hits these balls on that court."""
    desk = courts.desks[court]
    ladder, card = desk.state.library.drill("forehand/racquet-feed")
    desk.rounds.start(player=courts.player(name), drill=(ladder, card))
    feed(desk, balls)


def later(courts: Courts, minutes: float) -> None:
    """Time passes on both courts."""
    for desk in courts.desks.values():
        desk.clock.pass_seconds(minutes * MINUTE)  # type: ignore[attr-defined]


def names(desk: Desk) -> set[str]:
    """Who is in the rotation of a court."""
    return {player.name for player in desk.view.rotation.court.roster}


def test_a_trade_a_late_stick_and_a_minors_red(tmp_path: Path) -> None:
    courts = dealt_courts(tmp_path / "day", minor="Tove", c1="Maren Tove", c2="Ruben Aino")
    one, two = (TradeSession(courts.desks[court]) for court in "12")
    plays(courts, "1", "Maren", "_ 210 222")
    plays(courts, "2", "Ruben", "222 000")
    later(courts, 20)
    plays(courts, "1", "Tove", "_ _ 11")

    # 08:50: the assistant needs a fourth, and fetches Tove without the stick, half a ball open.
    one.desk.clock.pass_seconds(5)  # type: ignore[attr-defined]
    one.hand_over(courts.player("Tove"), "2")
    assert one.desk.view.ended, "the round on court has ended with her"
    assert names(one.desk) == {"Maren"}
    courts.stick.rename(tmp_path / "in a pocket")
    two.pick(courts.player("Tove"))
    assert names(two.desk) == {"Ruben", "Aino", "Tove"}
    said = two.desk.view.message
    assert "Nothing is known of court 1 since 08:30: ask its coach about arm and heat." in said
    plays(courts, "2", "Tove", "222 2-1/")

    # Meanwhile court 1 hears of her shoulder: a minor's pain in a joint is red, and only there.
    later(courts, 5)
    shoulder = CheckIn(player="Tove", moment=CheckInMoment.BREAK, pain=2, place="shoulder")
    one.desk.care.check_in(courts.player("Tove"), shoulder)
    assert off(courts, "2", "Tove") == ""

    # 09:00: the stick comes late, and her red holds as soon as it was read, with how old it is.
    (tmp_path / "in a pocket").rename(courts.stick)
    one.tell_and_read()
    later(courts, 5)
    two.tell_and_read()
    two.desk.state.read_rotation()
    reason = off(courts, "2", "Tove")
    assert reason.startswith("red today: ")
    assert reason.endswith("(court 1 as of 08:55, 4 minutes ago)")
    assert names(two.desk) == {"Ruben", "Aino", "Tove"}, "the hand-over read later changes nothing"
    assert courts.player("Tove") not in two.desk.view.rotation.court.queue

    # The assistant sets nothing up, and says stop.
    with pytest.raises(CourtlogError, match="This is court 2's book"):
        two.desk.people.add("Nils")

    # Evening: both books and what lies on the stick, in any order, and nothing is asked.
    other = two.desk.book.path
    courts.close()
    head_book = courts.desks["1"].book.path
    from_stick = [file_of(courts.stick, court) for court in "12"]
    pages = set()
    for order in ([other, *from_stick], [*from_stick, other, other]):
        evening = tmp_path / f"evening-{len(order)}"
        evening.mkdir()
        (evening / "book.db").write_bytes(head_book.read_bytes())
        desk = opened(evening / "book.db")
        clinic = desk.view.clinic
        alone = day_page(day_facts(desk.book, clinic, DAY, None))
        assert "Nothing has come from court 2 yet: Ruben and Aino are missing here." in alone
        for path in order:
            join_book(desk.book, path, nobody_asks, START)
        desk.state.resume()
        groups = court_groups(desk.book, desk.view.clinic.id, DAY)
        assert {group.court: {p.name for p in group.players} for group in groups} == {
            "1": {"Maren"},
            "2": {"Ruben", "Aino", "Tove"},
        }
        balls = desk.book.db.execute(
            "SELECT name, court, count(*) FROM ball JOIN round ON round.id = round_id"
            " JOIN player ON player.id = player_id JOIN day ON day.id = day_id"
            " WHERE taken GROUP BY name, court ORDER BY name, court"
        ).fetchall()
        assert balls == [("Maren", "1", 3), ("Ruben", "2", 2), ("Tove", "1", 3), ("Tove", "2", 2)]
        plan = plan_facts(desk.book, clinic, DAY + timedelta(days=1), LIBRARY)
        pages.add((day_page(day_facts(desk.book, clinic, DAY, None)), plan_text(plan)))
        desk.book.close()

    # One day page and one plan over both courts, whichever book came first.
    ((page, plan_page),) = pages
    assert "courts 1, 2" in page
    assert "Nothing has come" not in page
    assert page.count("Tove ") == 1
    planned = [line.split()[2:] for line in plan_page.splitlines() if line.startswith("  court ")]
    assert sorted(name.strip(",") for court in planned for name in court) == [
        *("Aino", "Maren", "Ruben", "Tove")
    ]
    assert {len(court) for court in planned} == {2}, "the fuller court gave one away"
