"""The sample clinics are what the generator draws, and they hold everything that they promise."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, time
from functools import cache
from itertools import pairwise

import pytest

from courtlog import times
from courtlog.coaching.game.clinic_record import CheckInMoment, ClinicRecord, DayRecord, RoundRecord
from courtlog.coaching.game.drills import MOST_CUES
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.library.sheet_in import read_sheet
from tests.samples.generator import FOLDER, PLANS, clinic, sheets, shipped_library

HARBOUR, WEEKEND = "harbour-week.txt", "two-court-weekend.txt"
BOTH = pytest.mark.parametrize("file", [HARBOUR, WEEKEND])
FULL_SPEED = ("forehand/racquet-feed", "forehand/day-one-feed", "forehand/live")


@cache
def record(file: str) -> ClinicRecord:
    return clinic(PLANS[file], shipped_library())


def rounds(
    file: str,
    player: str = "",
    purpose: Purpose | None = None,
    days: slice = slice(None),
) -> list[RoundRecord]:
    return [
        round_
        for day in record(file).days[days]
        for round_ in day.rounds
        if player in ("", round_.player) and purpose in (None, round_.purpose)
    ]


def balls(found: Iterable[RoundRecord]) -> list[Ball]:
    return [taken.ball for round_ in found for taken in round_.balls]


def made(round_: RoundRecord, cue: str) -> int:
    row = round_.cues.index(cue)
    return sum(taken.ball.grades[row] is Grade.MADE for taken in round_.balls)


def share_made(found: Iterable[Ball]) -> float:
    seen = [grade for ball in found for grade in ball.grades if grade is not None]
    return sum(grade is Grade.MADE for grade in seen) / len(seen)


def yardsticks(player: str) -> tuple[RoundRecord, RoundRecord]:
    first, last = rounds(HARBOUR, player, Purpose.YARDSTICK)
    return first, last


def change(player: str, cue: str) -> int:
    """Made balls of 20 on the last yardstick more than on the first."""
    first, last = yardsticks(player)
    return made(last, cue) - made(first, cue)


def clock(file: str, at: int | None) -> time:
    assert at is not None
    return times.local(at, times.zone(record(file).zone)).time()


def everyone(file: str) -> list[str]:
    return [entry.name for entry in record(file).roster]


@BOTH
def test_drawing_afresh_gives_the_committed_bytes(file: str) -> None:
    again = "the file is stale: run `python -m tests.samples`"
    assert (FOLDER / file).read_bytes() == sheets()[file].encode("utf-8"), again


@BOTH
def test_the_file_reads_back_as_the_record(file: str) -> None:
    text = (FOLDER / file).read_bytes().decode("utf-8")
    assert read_sheet(text, file, shipped_library(), "UTC") == record(file)


@pytest.mark.parametrize(
    ("file", "fewest", "most", "players"), [(HARBOUR, 2400, 3200, 6), (WEEKEND, 300, 500, 4)]
)
def test_size(file: str, fewest: int, most: int, players: int) -> None:
    assert fewest <= len(balls(rounds(file))) <= most
    assert len(everyone(file)) == players
    assert all(6 <= len(round_.balls) <= 20 for round_ in rounds(file))


@BOTH
def test_every_exception_of_the_plan_is_in_the_record(file: str) -> None:
    for planned, day in zip(PLANS[file].days, record(file).days, strict=True):
        noted = {(round_.player, *round_.notes) for round_ in day.rounds if round_.notes}
        assert noted == {(player, note) for (player, _), note in planned.notes.items()}
        asked = {(check_in.player, check_in.moment) for check_in in day.check_ins}
        assert asked >= set(planned.answers)
        lengths = [(round_.player, len(round_.balls)) for round_ in day.rounds]
        for (player, _), count in planned.shorter.items():
            assert (player, count) in lengths
        said = {(c.player, c.pain) for round_ in day.rounds for c in round_.check_ins}
        assert said == {(player, answer.pain) for (player, _), answer in planned.said.items()}


@BOTH
def test_one_court_holds_one_round_at_a_time_and_no_round_in_the_lunch_hour(file: str) -> None:
    for day in record(file).days:
        spans = [(clock(file, r.started), clock(file, r.ended)) for r in day.rounds]
        assert all(start < end for start, end in spans)
        assert all(end < start for (_, end), (start, _) in pairwise(spans))
        assert spans[0][0] >= time(8, 30)
        assert spans[-1][1] <= time(16, 30)
        assert not any(start < time(14) and end > time(12, 30) for start, end in spans)


@BOTH
def test_feed_orders_go_with_drills_of_several_spots(file: str) -> None:
    library = shipped_library()
    for round_ in rounds(file):
        _, drill = library.drill(round_.drill)
        assert bool(round_.order) == (len(drill.spots) > 1)


@BOTH
def test_notes_clips_tough_balls_and_balls_not_seen(file: str) -> None:
    found = balls(rounds(file))
    tokens = [ball.token().rstrip("!") for ball in found]
    assert any(taken.notes for round_ in rounds(file) for taken in round_.balls)
    assert any(round_.notes for round_ in rounds(file))
    assert sum(ball.tough for ball in found) >= len(found) // 20
    assert "." in tokens
    assert any("-" in token for token in tokens)
    for round_ in rounds(file):
        for ball in balls([round_]):
            assert ball.clip is None or clips_inside(round_, ball.clip)
    assert any(ball.clip is not None for ball in found)


def clips_inside(round_: RoundRecord, at: int) -> bool:
    assert round_.started is not None
    assert round_.ended is not None
    return round_.started <= at <= round_.ended


def test_harbour_week_is_five_days_from_monday() -> None:
    assert [day.date for day in record(HARBOUR).days] == [date(2026, 5, n) for n in range(11, 16)]
    assert {entry.hand for entry in record(HARBOUR).roster} == {"left", "right"}


@pytest.mark.parametrize("day", [1, 2, 3, 4])
def test_a_hold_round_opens_each_later_day_on_last_evenings_drill(day: int) -> None:
    for player in everyone(HARBOUR):
        evening = rounds(HARBOUR, player, days=slice(day - 1, day))[-1]
        morning = rounds(HARBOUR, player, days=slice(day, day + 1))[0]
        assert morning.purpose is Purpose.HOLD
        assert (morning.drill, morning.cues) == (evening.drill, evening.cues)
        assert len(morning.balls) == 20


def test_the_yardstick_is_the_same_on_the_first_and_the_last_day() -> None:
    days = record(HARBOUR).days
    for player in everyone(HARBOUR):
        first, last = yardsticks(player)
        assert first in days[0].rounds
        assert last in days[-1].rounds
        assert first.drill == last.drill == "forehand/day-one-feed"
        assert first.cues == last.cues == ("turn", "spacing", "finish")
        assert len(first.balls) == len(last.balls) == 20


def test_choosing_comes_before_the_yardstick_and_the_yardstick_before_teaching() -> None:
    for player in everyone(HARBOUR):
        purposes = [round_.purpose for round_ in rounds(HARBOUR, player, days=slice(1))]
        assert purposes[:3] == [Purpose.CHOOSING, Purpose.YARDSTICK, Purpose.PRACTICE]
        assert len(rounds(HARBOUR, player)[0].cues) == MOST_CUES
        assert [r.drill for r in rounds(HARBOUR, player, Purpose.TRANSFER)] == ["forehand/live"]


def test_the_ladder_is_climbed_and_two_players_have_another_stroke() -> None:
    practised = [round_.drill for round_ in rounds(HARBOUR, purpose=Purpose.PRACTICE)]
    forehand = [drill for drill in dict.fromkeys(practised) if drill.startswith("forehand/")]
    rungs = ["shadow", "fence", "self-feed", "hand-feed", "racquet-feed", "live"]
    assert forehand == [f"forehand/{rung}" for rung in rungs]
    others = {(r.player, r.drill.partition("/")[0]) for r in rounds(HARBOUR)}
    assert {other for other in others if other[1] != "forehand"} == {
        ("Anouk", "serve"),
        ("Kasimir", "backhand-two"),
    }


def test_the_cues_change_unevenly() -> None:
    assert change("Maren", "spacing") >= 9
    assert abs(change("Maren", "turn")) <= 2
    assert abs(change("Tove", "finish")) <= 2
    assert change("Tove", "turn") >= 4
    assert change("Ilse", "spacing") <= 3


def test_one_is_better_every_evening_and_sags_every_morning() -> None:
    for day in range(4):
        evening = rounds(HARBOUR, "Ilse", Purpose.PRACTICE, slice(day, day + 1))[-1]
        morning = rounds(HARBOUR, "Ilse", Purpose.HOLD, slice(day + 1, day + 2))[0]
        assert made(evening, "spacing") - made(morning, "spacing") >= 5


def test_one_gets_better_on_usual_balls_and_worse_on_tough_ones() -> None:
    def share(days: slice, tough: bool) -> float:
        fed = [r for r in rounds(HARBOUR, "Anouk", days=days) if r.drill in FULL_SPEED]
        return share_made(ball for ball in balls(fed) if ball.tough is tough)

    early, late = slice(0, 2), slice(3, 5)
    assert share(late, tough=True) < share(early, tough=True) - 0.15
    assert share(late, tough=False) > share(early, tough=False) + 0.05


def test_everyone_is_asked_and_one_elbow_goes_up() -> None:
    worst: list[int] = []
    for day in record(HARBOUR).days:
        for moment in (CheckInMoment.ARRIVAL, CheckInMoment.BREAK, CheckInMoment.END):
            asked = [c.player for c in day.check_ins if c.moment is moment]
            assert sorted(asked) == sorted(everyone(HARBOUR))
        worst.append(max(c.pain or 0 for c in day.check_ins if c.place == "elbow"))
    assert worst[:4] == [1, 1, 2, 4]


def test_the_weekend_has_a_late_comer_and_one_who_leaves_at_noon() -> None:
    saturday, sunday = record(WEEKEND).days
    assert [saturday.date, sunday.date] == [date(2026, 6, 6), date(2026, 6, 7)]
    assert clock(WEEKEND, times_of(saturday, "Pilou")[0]) >= time(10, 45)
    assert clock(WEEKEND, times_of(saturday, "Jorun")[-1]) < time(12, 30)
    assert times_of(sunday, "Jorun") == []
    strokes = {round_.drill.partition("/")[0] for round_ in rounds(WEEKEND)}
    assert strokes == {"forehand", "backhand-two"}


def times_of(day: DayRecord, player: str) -> list[int | None]:
    return [round_.started for round_ in day.rounds if round_.player == player]
