"""The trend screens: keys pressed, then the words on the screen, held against the book."""

from __future__ import annotations

import asyncio
import json
import subprocess
import sys
import threading
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from textual.events import Key
from textual.pilot import Pilot

from courtlog.coaching.answers.cue_curve import Curve
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.view import ClinicNow
from courtlog.courtside.screens import trend_player
from courtlog.courtside.surface import trend_charts
from courtlog.courtside.surface.trend_lines import shared_axis, trend_spark
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.cue_round_lookups import cue_rounds
from courtlog.logbook.reads.trend_lookups import CueTrend, TrendDate, roster_trends
from courtlog.reports.layout.cue_strip import cue_strip
from courtlog.reports.layout.signs import bar
from tests.court import DAY, again, desk_in, feed, player, written
from tests.courtside import screen
from tests.courtside.screen import line_with, on_court, shown, stands_in
from tests.logbook.reads.test_trend_lookups import MARCH, another_clinic, play_on


async def worked_out(_: Pilot[None], app: CourtlogApp) -> None:
    """Wait for the curve."""
    await app.workers.wait_for_complete()


def two_clinics(folder: Path) -> Desk:
    """Maren in March and in May, Tove in May only; Maren on court with a ball half rated."""
    desk = desk_in(folder)
    here, spring = desk.view.clinic.id, another_clinic(desk, "Spring Days")
    play_on(desk, spring, MARCH, "022 022 222 222")
    play_on(desk, spring, MARCH + timedelta(1), "222 222 022 002 222")
    play_on(desk, here, DAY - timedelta(1), "200 222", who="Tove")
    play_on(desk, here, DAY, "_" * 3 + "000 222", who="Tove")
    play_on(desk, here, DAY, "220 222 020 222 220 2")
    desk.rounds.start()
    feed(desk, "21")
    return desk


def test_everyone_has_a_line_with_the_days_and_todays_counts(tmp_path: Path) -> None:
    text = on_court(two_clinics(tmp_path), ["f5"])
    assert "Trends · Harbour Week · day 2 · Tue 12 May" in text
    maren, tove, ruben = (
        next(line for line in text.splitlines() if name in line)
        for name in ("Maren", "Tove", "Ruben")
    )
    assert "►Maren" in maren
    assert maren.split("turn")[1].split("spac")[0].split() == ["▅▅|·▇", "5", "of", "6"]
    assert tove.split("turn")[1].split("spac")[0].split() == ["··|█▇", "4", "of", "5"]
    assert ruben.split() == ["Ruben", "none"]
    assert "5 of 6 (83%) today" in text


def test_every_bar_is_the_share_in_the_book(tmp_path: Path) -> None:
    desk = two_clinics(tmp_path)
    trends = roster_trends(desk.book, desk.view.clinic.id)
    places = shared_axis(trends)
    assert [place.date.day for place in places] == [10, 11, 11, 12]
    for trend in trends:
        for cue in (cue for stroke in trend.strokes for cue in stroke.cues):
            bars = trend_spark(cue, places).replace("|", "")
            for place, drawn in zip(places, bars, strict=True):
                made, seen = desk.book.db.execute(
                    "SELECT sum(grade = 2), count(grade) FROM day JOIN round ON day_id = day.id"
                    " JOIN ball ON round_id = round.id AND taken JOIN round_cue USING (round_id)"
                    " JOIN rating ON ball_id = ball.id AND rating.row = round_cue.row"
                    " WHERE player_id = ? AND cue = ? AND clinic_id = ? AND date = ?",
                    [trend.player.id, cue.key, place.clinic_id, place.date.isoformat()],
                ).fetchone()
                assert drawn == bar(made / seen if seen else None)


def test_counts_of_an_earlier_day_say_so(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    play_on(desk, desk.view.clinic.id, DAY - timedelta(1), "222 222 022", who="Tove")
    play_on(desk, desk.view.clinic.id, DAY, "222")
    text = on_court(desk, ["f5", "down"])
    assert "2 of 3*" in line_with(text, "►Tove")
    assert "2 of 3 on Mon 11 May" in text, "three balls bear no percentage"


def test_a_player_opens_with_all_clinics_on_one_axis(tmp_path: Path) -> None:
    desk = two_clinics(tmp_path)
    text = on_court(desk, ["f5", "enter"], then=worked_out)
    title = " Maren · forehand · 3 days in 2 clinics, made of seen balls, all drills together"
    assert line_with(text, "Maren") == title[:80]
    dates = line_with(text, "10 Mar")
    assert dates.split() == ["10", "Mar", "11", "Mar", "May", "12", "May"]
    turn = line_with(text, "►t· turn")
    assert " ".join(turn.split()[2:]) == "2 of 4 3 of 5 (60%) │ 5 of 6 (83%)"
    date, counts = dates.index("10 Mar") + 3, turn.index("2 of 4") + 3
    assert abs(date - counts) <= 1, "counts stand under their date"
    assert "Skill curve of turn, ball by ball in Harbour Week" in text
    assert "too few balls to tell (20 seen balls are needed)" in text


def test_the_curve_is_drawn_where_the_balls_bear_it(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "002 012 202 222" * 10)
    text = on_court(desk, ["f5", "enter", "f"], then=worked_out)
    assert "►f= finish" in text
    assert "at ball 40 about 9" in text
    assert text.count("●") > 50
    assert text.count("░") > 10
    assert "●" in line_with(text, "Skill curve of finish")
    other = on_court(again(desk), ["f5", "enter", "down"], then=worked_out)
    assert "►s- spacing" in other
    assert "Skill curve of spacing" in other


def test_left_and_right_go_through_the_strokes(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 222 022")
    play_on(desk, desk.view.clinic.id, DAY, "222", "serve/service-line")
    assert "Maren · forehand (1 of 2)" in on_court(again(desk), ["f5", "enter"])
    text = on_court(again(desk), ["f5", "enter", "right"])
    assert "Maren · serve (2 of 2)" in text
    assert "►t· toss" in text
    assert "Maren · forehand (1 of 2)" in on_court(again(desk), ["f5", "enter", "right", "left"])


def test_the_court_goes_on_at_the_same_ball(tmp_path: Path) -> None:
    desk = two_clinics(tmp_path)
    before = replace(desk.view, message="")
    keys = ["f5", "o", "space", "down", "enter", "escape", "up", "enter", "up", "escape", "escape"]
    on_court(desk, keys)
    assert desk.view == before
    on_court(desk, ["f5", "f5", "full_stop"])
    live = again(desk).view.live
    assert live is not None
    assert written(live.feeding) == "212"


def test_keys_typed_faster_than_the_screens_open_reach_them(tmp_path: Path) -> None:
    desk = two_clinics(tmp_path)

    async def burst(pilot: Pilot[None], app: CourtlogApp) -> None:
        for key in ("enter", "s"):
            app.post_message(Key(key, key if len(key) == 1 else None))
        await pilot.pause()
        await pilot.pause()
        assert "►s- spacing" in shown(app.screen)
        for _ in range(2):
            app.post_message(Key("escape", None))
        await pilot.pause()
        await pilot.pause()
        assert len(app.screen_stack) == 2, "each Escape closed one screen"

    assert "next up" in on_court(desk, ["f5"], then=burst)


def test_escape_never_waits_for_the_curve(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    started, go_on = threading.Event(), threading.Event()

    def slow(*asked: object) -> tuple[object, object]:
        started.set()
        go_on.wait(20)
        return asked[-1], trend_player.CurveAnswer(None, "")

    monkeypatch.setattr(trend_player, "work_out_curve", slow)
    monkeypatch.setattr(screen, "at_work", lambda app: False)
    desk = two_clinics(tmp_path)

    async def leave(pilot: Pilot[None], app: CourtlogApp) -> None:
        await asyncio.to_thread(started.wait, 20)
        assert "working it out ..." in shown(app.screen)
        await pilot.press("s")
        assert "►s- spacing" in shown(app.screen)
        await pilot.press("escape")
        assert "►Maren" in shown(app.screen)
        await pilot.press("escape", "full_stop")
        go_on.set()

    text = on_court(desk, ["f5", "enter"], then=leave)
    assert "next up" in text
    live = again(desk).view.live
    assert live is not None
    assert written(live.feeding) == "212"


def test_the_curves_connection_is_closed_and_a_lost_book_is_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_" * 20)
    closed: list[Path] = []
    close = Book.close

    def counted(book: Book) -> None:
        closed.append(book.path)
        close(book)

    monkeypatch.setattr(Book, "close", counted)
    now = ClinicNow(desk.book.path, desk.view.clinic.id, DAY)
    maren = player(desk, "Maren").id
    asked, answer = trend_player.work_out_curve(now, now.clinic_id, maren, ("forehand", "turn"))
    assert asked == ("forehand", "turn")
    assert isinstance(answer.curve, Curve)
    assert closed == [desk.book.path]
    lost = ClinicNow(tmp_path / "gone.db", now.clinic_id, DAY)
    _, refused = trend_player.work_out_curve(lost, now.clinic_id, maren, asked)
    assert "There is no book at" in refused.words


HOSTILE = ("[red]x[/]", "Di\x1b[31m", "張偉張偉張偉張偉張偉", "A very long name indeed " * 4)


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (40, 12), (20, 5), (1, 1)])
def test_any_size_and_any_name_shows_what_fits(tmp_path: Path, size: tuple[int, int]) -> None:
    desk = desk_in(tmp_path, HOSTILE)
    feed(desk, "222 012 /")
    keys = ["f5", "end", "home", "enter", "down", "pagedown", "pageup", "escape", "down"]
    text = on_court(desk, keys, size=size)
    assert "\x1b" not in text
    if size[0] >= 40:
        assert "►Di␛[31m " in text
        assert "[red]x[/]" in text
    assert all(len(line) <= size[0] for line in text.splitlines())


def test_twelve_players_fit_and_the_thirteenth_is_an_arrow_away(tmp_path: Path) -> None:
    names = tuple(f"Player{number:02}" for number in range(1, 18))
    desk = desk_in(tmp_path, names)
    text = on_court(desk, ["f5"])
    assert [name for name in names if f"{name} " in text][:12] == list(names[:12])
    text = on_court(again(desk), ["f5", "end"])
    assert "►Player17" in text
    assert "Player17: none" in text


def test_nobody_and_nothing_are_said_in_words(tmp_path: Path) -> None:
    empty = desk_in(tmp_path, ())
    assert "Nobody is on the roster." in on_court(empty, ["f5", "enter", "down", "end", "home"])
    one = desk_in(tmp_path / "one", ("Ada",))
    text = on_court(one, ["f5", "enter"])
    assert line_with(text, "►Ada").split() == ["►Ada", "none"]
    assert "Ada: none" in text, "there is nothing to open yet"


def test_points_stand_where_their_shares_are() -> None:
    """Eleven rows, so that a row is ten points; two cues on one spot are a star."""
    places = [TrendDate(1, "Spring", MARCH), TrendDate(2, "Harbour", DAY)]
    cues = [
        CueTrend("turn", "turn", True, {places[0]: Counts(8, 0, 2), places[1]: Counts(made=5)}, {}),
        CueTrend(
            "spacing", "spacing", True, {places[0]: Counts(8, 0, 2), places[1]: Counts(5)}, {}
        ),
        CueTrend("finish", "finish", True, {places[1]: Counts(unseen=4)}, {}),
    ]
    slots = trend_charts.axis_slots(places)
    lines = trend_charts.shares_chart(cues, slots, 55, 13)
    left, gap, right = (5 + at for at in trend_charts.middles(slots, 50))
    drawn = {
        (column, 10 - row): character
        for row, line in enumerate(lines[:11])
        for column, character in enumerate(line)
        if column >= 5 and character != " "
    }
    bar_between = {(gap, row): "│" for row in range(11)}
    assert drawn == bar_between | {(left, 2): "*", (right, 10): "t", (right, 0): "s"}
    assert lines[-1].split() == ["10", "Mar", "May", "12", "May"]


def test_many_days_keep_the_last_ones_with_their_names() -> None:
    places = [TrendDate(1, "Spring", MARCH + timedelta(days)) for days in range(30)]
    cue = CueTrend("turn", "turn", True, {place: Counts(made=20, missed=5) for place in places}, {})
    view = trend_player.StrokeView(trend_charts.axis_slots(places), (cue,), 0, "Spring")
    (header, _), (line, chosen) = trend_player.counts_lines(view, 78)
    assert header.split()[-2:] == ["8", "Apr"]
    assert line.startswith("►t· turn")
    assert chosen
    assert line.count("20 of 25") == header.count("Apr") + header.count("Mar")
    dates = trend_charts.shares_chart((cue,), view.slots, 78, 9)[-1]
    assert dates.rstrip().endswith("8 Apr")
    assert len(dates) <= 78


def test_the_list_loads_no_plotting_and_no_numpy() -> None:
    look = (
        "import json, sys; import courtlog.courtside.screens.trends;"
        " print(json.dumps(sorted(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", look], capture_output=True, text=True, check=True)
    assert not set(json.loads(done.stdout)) & {"numpy", "plotext"}


def three_days(folder: Path) -> Desk:
    """Maren with a yardstick, a practice and a round of three balls on each of three days."""
    desk = desk_in(folder)
    here = desk.view.clinic.id
    for days in (2, 1, 0):
        on = DAY - timedelta(days)
        play_on(desk, here, on, "222 222 222 222 000 000 000 000", purpose=Purpose.YARDSTICK)
        play_on(desk, here, on, "222 222 222 222 222 222")
        play_on(desk, here, on, "200 200 200")
    desk.rounds.start()
    return desk


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
def test_the_chosen_players_rounds_stand_as_strips(tmp_path: Path, size: tuple[int, int]) -> None:
    desk = three_days(tmp_path)
    text = on_court(desk, ["f5"], size=size)
    maren = player(desk, "Maren").id
    rounds = cue_rounds(desk.book, maren, "forehand", DAY)
    assert [f"{each.made} of {each.seen}" for each in rounds["turn"]] == [
        "4 of 8",
        "6 of 6",
        "3 of 3",
    ] * 3
    high = 3 if size == (80, 24) else 9
    for cue in rounds.values():
        assert stands_in(cue_strip(cue, DAY, high, 60, 3), text), text
    assert "░ under 5 balls  ▀ yardstick  ▬ today" in text


def test_in_a_wide_terminal_the_strips_stand_beside_the_list(tmp_path: Path) -> None:
    text = on_court(three_days(tmp_path), ["f5"], size=(120, 40))
    assert "Maren · forehand" in line_with(text, "►Maren")
    feet = [row for row, line in enumerate(text.splitlines()) if "▬" in line]
    assert len(feet) == 4, "three cues and the legend"
    assert feet[-2] >= 30, "the height is used"


def test_the_strip_follows_the_chosen_player(tmp_path: Path) -> None:
    desk = two_clinics(tmp_path)
    feed(desk, "222 222 222 200 200 200")
    desk.rounds.end_round()
    for who, keys in (("Maren", ["f5", "home"]), ("Tove", ["f5", "home", "down"])):
        text = on_court(again(desk), keys)
        for name in ("Maren", "Tove"):
            spacing = cue_rounds(desk.book, player(desk, name).id, "forehand")["spacing"]
            assert stands_in(cue_strip(spacing, DAY, 3, 40, 3), text) is (name == who)


def test_twelve_players_and_the_strips_share_a_screen_of_24_lines(tmp_path: Path) -> None:
    names = tuple(f"Player{number:02}" for number in range(1, 13))
    desk = desk_in(tmp_path, names)
    feed(desk, "222 222 222 200 200 200")
    text = on_court(desk, ["f5"])
    assert all(name in text for name in names)
    assert "▬" in text
    assert "6 of 6 (100%) today" in text
