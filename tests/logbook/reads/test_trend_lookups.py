"""Trends over all clinics of a book: the counts are the book's, and no ball is read for them."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

from courtlog.coaching.game.cards import PlayerCard
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.reads import history_lookups, lookups
from courtlog.logbook.reads.clinic_lookups import FirstDay
from courtlog.logbook.reads.trend_lookups import TrendDate, axis, roster_trends, trend_counts
from courtlog.logbook.rows.row_changes import add_to_roster
from courtlog.logbook.writes import clinic_writer
from courtlog.logbook.writes.people_writer import PeopleWriter
from tests.court import DAY, LIBRARY, START, desk_in, feed, player

MARCH = date(2026, 3, 10)


def another_clinic(desk: Desk, name: str, names: tuple[str, ...] = ("Maren", "Tove")) -> int:
    """A clinic with these players of the one on court, by their own ids."""
    ids = [player(desk, who).id for who in names]
    clinic = clinic_writer.begin_clinic(
        desk.book, Clinic(0, name, "Europe/Lisbon"), FirstDay(), START
    ).id
    with desk.book.writing() as db:
        for who in ids:
            add_to_roster(db, clinic, who)
    return clinic


def play_on(
    desk: Desk,
    clinic: int,
    on: date,
    balls: str,
    drill: str = "forehand/hand-feed",
    who: str = "Maren",
    purpose: Purpose = Purpose.PRACTICE,
) -> None:
    """A round on that date in that clinic; the desk stays there."""
    desk.clinic.open_day(clinic, on, "2", "Ines")
    desk.rounds.start(player(desk, who), LIBRARY.drill(drill), purpose)
    feed(desk, balls)
    desk.rounds.end_round()


def written(desk: Desk, stroke: str = "forehand", who: str = "Maren") -> list[str]:
    """A player's trend in shorthand: `Harbour Week 12 turn 2 of 3`, by date."""
    rows = trend_counts(desk.book, desk.view.clinic.id, None, player(desk, who).id)
    return [
        f"{row.on.clinic} {row.on.date.day} {row.cue} {row.counts.of_words()}"
        for row in rows
        if row.stroke == stroke
    ]


def test_the_same_player_in_two_clinics_by_date(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    here = desk.view.clinic.id
    play_on(desk, another_clinic(desk, "Spring Days"), MARCH, "222 0-1!/ /")
    play_on(desk, here, DAY, "210 220")
    play_on(desk, here, DAY + timedelta(1), "222", who="Tove")
    assert written(desk) == [
        "Spring Days 10 finish 1 of 2",
        "Spring Days 10 spacing 1 of 1",
        "Spring Days 10 turn 1 of 2",
        "Harbour Week 12 finish 0 of 2",
        "Harbour Week 12 spacing 1 of 2",
        "Harbour Week 12 turn 2 of 2",
    ]


def test_every_count_is_a_recount_of_the_balls(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    here, spring = desk.view.clinic.id, another_clinic(desk, "Spring Days")
    for clinic, on in ((spring, MARCH), (spring, MARCH + timedelta(2)), (here, DAY)):
        play_on(desk, clinic, on, "222 2-1!/ _ T 0< 02 /")
        play_on(desk, clinic, on, "012 2 210", "serve/service-line", who="Tove")
    rows = trend_counts(desk.book, here)
    assert len(rows) == 3 * (3 + 3)
    for row in rows:
        history = history_lookups.history(desk.book, row.on.clinic_id, row.player_id, row.stroke)
        assert history.on(row.on.date).counts(row.cue) == row.counts


def test_players_of_other_rosters_stay_out(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    here = desk.view.clinic.id
    elsewhere = another_clinic(desk, "Elsewhere", ())
    PeopleWriter(desk.book).add_players(elsewhere, [PlayerCard(name="Cleo")], START)
    play_on(desk, elsewhere, MARCH, "222", who="Cleo")
    desk.clinic.open_day(here, DAY, "2", "Ines")
    assert written(desk) == []
    assert {row.player_id for row in trend_counts(desk.book, here)} == set()


def test_later_dates_are_left_out(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    here = desk.view.clinic.id
    for days in range(3):
        play_on(desk, here, DAY + timedelta(days), "222")
    rows = trend_counts(desk.book, here, DAY + timedelta(1))
    assert sorted({row.on.date for row in rows}) == [DAY, DAY + timedelta(1)]


def test_a_day_whose_balls_were_all_taken_back_is_no_day(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 <<<")
    assert written(desk) == []


def test_the_axis_runs_clinic_after_clinic() -> None:
    march, may = (
        [TrendDate(number, name, on + timedelta(days)) for days in (0, 40)]
        for number, name, on in ((2, "Spring", MARCH), (1, "Harbour", MARCH + timedelta(9)))
    )
    assert axis([may[1], march[1], may[0], march[0], may[0]]) == (*march, *may)
    assert axis([]) == ()


def test_the_main_stroke_and_the_cues_watched_lately_come_first(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    here, spring = desk.view.clinic.id, another_clinic(desk, "Spring Days")
    play_on(desk, spring, MARCH, "_" * 6, "serve/service-line")
    play_on(desk, here, DAY, "_", "serve/service-line")
    desk.rounds.start(drill=LIBRARY.drill("forehand/hand-feed"), purpose=Purpose.CHOOSING)
    desk.rounds.start(cues=("split-step", "turn", "spacing", "low-to-high"))
    feed(desk, "___")
    maren, tove, _ = roster_trends(desk.book, here)
    assert [stroke.stroke for stroke in maren.strokes] == ["forehand", "serve"]
    assert tove.strokes == ()
    forehand = maren.strokes[0]
    assert [cue.key for cue in forehand.watched_lately(2)] == ["split-step", "turn"]
    desk.rounds.start(cues=("spacing", "finish"), purpose=Purpose.PRACTICE)
    feed(desk, "22")
    forehand = roster_trends(desk.book, here)[0].strokes[0]
    assert [cue.key for cue in forehand.watched_lately(4)] == ["spacing", "finish"]
    latest = forehand.watched_lately(1)[0].latest
    assert latest is not None
    assert latest[1] == Counts(made=4)


def test_no_ball_is_read_and_the_tally_is_searched(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_" * 5)
    asked: list[str] = []
    desk.book.db.set_trace_callback(asked.append)
    roster_trends(desk.book, desk.view.clinic.id, DAY)
    desk.book.db.set_trace_callback(None)
    everything = " ".join(asked)
    assert "FROM tally" in everything
    assert "ball" not in everything
    assert "rating" not in everything
    (sql,) = [sql for sql in asked if "FROM tally" in sql]
    steps = [row[3] for row in desk.book.db.execute(f"EXPLAIN QUERY PLAN {sql}")]
    assert any("SEARCH tally" in step for step in steps)
    assert not any("SCAN tally" in step for step in steps)


def test_the_players_of_a_roster_keep_its_order(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, ("Zoe", "Ada", "Bo"))
    names = [trend.player.name for trend in roster_trends(desk.book, desk.view.clinic.id)]
    assert names == [who.name for who in lookups.players(desk.book, desk.view.clinic.id)]
    assert names == ["Zoe", "Ada", "Bo"]
