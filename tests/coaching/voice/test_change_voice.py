"""Whether a cue changed, as it is read: counts first, and no more than they can bear."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from courtlog.coaching.answers.ball_history import Doubt, History
from courtlog.coaching.answers.overnight import overnight
from courtlog.coaching.answers.player_answer import cue_answer, stroke_answer
from courtlog.coaching.voice import change_voice
from courtlog.coaching.voice.day_names import DayNames
from tests.past import day, one_cue, past

DAYS = tuple(day(number) for number in range(1, 6))
WEEKDAYS = DayNames.of(DAYS)


def yardsticks(late: str, early: str, purpose: str = "yardstick") -> History:
    """The turn in the first yardstick and in a round of the last day, given as `made/seen`."""
    (made, seen), (made_early, seen_early) = (map(int, s.split("/")) for s in (late, early))
    rounds = f"1 yardstick {one_cue(made_early, seen_early)}", f"5 {purpose} {one_cue(made, seen)}"
    return past(*rounds, cues=("turn",))


def change(history: History, name: str = "turn", days: DayNames = WEEKDAYS) -> str:
    """What is said first of the turn."""
    answer = cue_answer(history, days.dates, "turn", with_curve=False)
    return change_voice.cue_change(answer, name, days).sentence


CANNOT_TELL = "Up, down or the same: these balls cannot tell."
CANNOT_TELL_TOUGH = "More often made or less: these balls cannot tell."


@pytest.mark.parametrize(
    ("late", "early", "words"),
    [
        ("16/19", "6/19", "6 of 19 balls on Monday, 16 of 19 on Friday, same feed, no help."
         " That is a real gain."),
        ("6/19", "16/19", "16 of 19 balls on Monday, 6 of 19 on Friday, same feed, no help."
         " That is a real drop."),
        ("11/19", "9/19", f"9 of 19 balls on Monday, 11 of 19 on Friday, same feed, no help."
         f" {CANNOT_TELL}"),
        ("19/19", "19/19", f"19 of 19 balls on Monday, 19 of 19 on Friday, same feed, no help."
         f" {CANNOT_TELL}"),
        ("0/19", "0/19", f"0 of 19 balls on Monday, 0 of 19 on Friday, same feed, no help."
         f" {CANNOT_TELL}"),
        ("4/4", "0/1", f"0 of 1 ball on Monday, 4 of 4 on Friday, same feed, no help."
         f" {CANNOT_TELL}"),
        ("40/40", "0/15", f"0 of 15 balls on Monday, 40 of 40 on Friday, same feed, no help."
         f" {CANNOT_TELL}"),
    ],
)  # fmt: skip
def test_two_yardsticks(late: str, early: str, words: str) -> None:
    assert change(yardsticks(late, early), "room for the arm") == f"Room for the arm: {words}"


def test_a_hold_is_at_most_a_look() -> None:
    """What was not chosen beforehand is never called real."""
    assert change(yardsticks("40/40", "0/40", "hold")).endswith(
        "40 of 40 on Friday, same feed, no help. That may be a gain: keep watching."
    )
    assert change(yardsticks("0/40", "40/40", "hold")).endswith(
        " That may be a drop: keep watching."
    )


@pytest.mark.parametrize(
    ("rounds", "words"),
    [
        (["1 practice 2*20"], "Turn: not tested at the start, so then and now cannot be compared."),
        (["1 yardstick 2*6 0*13"], "Turn: 6 of 19 balls on Monday, no help."
         " Play that round again to see a change."),
        (["1 yardstick 2"], "Turn: 1 of 1 ball on Monday, no help."
         " Play that round again to see a change."),
        (["1 yardstick -*9"], "Turn: not tested at the start, so then and now cannot be compared."),
        (["1 yardstick 2*20", "5 yardstick @forehand/live 2*20"],
         "Turn: no balls of one kind on two days, so nothing can be compared."),
    ],
)  # fmt: skip
def test_nothing_to_compare(rounds: list[str], words: str) -> None:
    assert change(past(*rounds, cues=("turn",))) == words


def test_days_have_dates_in_a_clinic_of_over_a_week() -> None:
    assert change(yardsticks("16/19", "6/19"), days=DayNames.of((*DAYS, day(8)))) == (
        "Turn: 6 of 19 balls on 11 May, 16 of 19 on 15 May, same feed, no help."
        " That is a real gain."
    )


def test_the_names_of_days() -> None:
    week, longer = DayNames.of(DAYS, today=DAYS[4]), DayNames.of((day(1), day(8)))
    assert (week.on(day(1)), week.on(day(5))) == ("on Monday", "today")
    assert (week.evening(day(4)), week.morning(day(5))) == ("on Thursday evening", "this morning")
    assert WEEKDAYS.morning(day(5)) == "on Friday morning"
    assert (longer.on(day(8)), longer.evening(day(7)), longer.morning(day(8))) == (
        *("on 18 May", "late on 17 May", "early on 18 May"),
    )


@pytest.mark.parametrize("span", range(9))
def test_a_weekday_names_one_date_of_the_clinic_alone(span: int) -> None:
    dates = [date(2026, 5, 11) + timedelta(days=n) for n in range(span + 1)]
    assert len({DayNames.of(dates).name(on) for on in dates}) == len(dates)


def test_a_cue_that_two_ratings_see_two_ways_claims_nothing() -> None:
    history = replace(yardsticks("19/19", "0/19"), doubts={"turn": Doubt(0.1, 30)})
    answer = cue_answer(history, DAYS, "turn", with_curve=False)
    said = change_voice.cue_change(answer, "turn", WEEKDAYS)
    assert said.sentence.endswith("Rated twice, it came out two ways, so nothing is claimed.")
    assert said.reason.startswith("30 balls were rated twice, and the two did not agree.")


def test_counts_that_mislead_give_way_to_like_for_like() -> None:
    """Better on each drill, and worse in all: Simpson EH 1951, J R Stat Soc B 13:238-241."""
    easy, hard = "@forehand/self-feed", "@forehand/live"
    history = past(
        f"1 practice {easy} {one_cue(80, 100)}",
        f"1 practice {hard} {one_cue(1, 20)}",
        f"5 practice {easy} 2*20",
        f"5 practice {hard} {one_cue(40, 100)}",
        cues=("turn",),
    )
    found = cue_answer(history, DAYS, "turn", with_curve=False).practice
    assert found is not None
    assert found.late.share < found.early.share
    assert change_voice.practice_change(found, "turn", WEEKDAYS).sentence == (
        "Turn: 81 of 120 balls on Monday, 60 of 120 on Friday, like balls, with help."
        " Like for like: that may be a gain: keep watching."
    )


def night(*rounds: str) -> str:
    """What is said of the turn's latest night."""
    found = overnight(past(*rounds, cues=("turn",)), "turn", DAYS)
    return change_voice.overnight_change(found, "turn", WEEKDAYS).sentence


@pytest.mark.parametrize(
    ("rounds", "words"),
    [
        (["2 hold 0*20"], ""),
        (["1 practice 0", "1 hold 2*10", "2 hold 2*5 0*15"], "Turn: 10 of 10 balls on Monday"
         " evening, 0 of 15 on Tuesday morning, no help. That may be a drop: keep watching."),
        (["1 practice 0", "1 hold 2*5 0*5", "2 hold 2*13 0*7"], "Turn: 5 of 10 balls on Monday"
         f" evening, 8 of 15 on Tuesday morning, no help. {CANNOT_TELL}"),
        (["1 practice 2*20", "2 hold 0*20"], "Turn: 20 of 20 balls on Monday evening with help,"
         " then 0 of 20 on Tuesday morning without. These two cannot be compared."),
    ],
)  # fmt: skip
def test_a_night(rounds: list[str], words: str) -> None:
    assert night(*rounds) == words


def test_tough_balls() -> None:
    def told(balls: str) -> str:
        answer = cue_answer(past(f"1 practice {balls}", cues=("turn",)), DAYS, "turn", False)
        return change_voice.tough_change(answer.tough, "turn").sentence

    assert told("2*30 0!*30") == (
        "Turn: 0 of 30 tough balls, 30 of 30 usual ones. It may be harder on tough balls."
    )
    assert told("0*30 2!*30").endswith(" It may be better on tough balls.")
    assert told("2*30 2!*30").endswith(f" {CANNOT_TELL_TOUGH}")


def test_all_cues_at_once_name_how_many_there_are() -> None:
    history = past("1 yardstick 222*6 220*14", "5 yardstick 222*16 022*4")
    answer = stroke_answer(history, DAYS, ("turn", "spacing", "finish"), curves=False)
    assert change_voice.whole_change(answer.whole, 3, WEEKDAYS).sentence == (
        "All three at once: 6 of 20 balls on Monday, 16 of 20 on Friday, same feed, no help."
        " That may be a gain: keep watching."
    )
    assert change_voice.whole_change(answer.whole, 2, WEEKDAYS).sentence.startswith("Both at once:")
    assert not change_voice.whole_change(None, 3, WEEKDAYS)


@pytest.mark.parametrize(("late", "early"), [("11/19", "9/19"), ("4/4", "1/4"), ("0/40", "0/40")])
def test_what_cannot_be_told_is_never_called_no_change(late: str, early: str) -> None:
    """An interval that holds zero shows no equality: Altman, Bland 1995, BMJ 311:485."""
    answer = cue_answer(yardsticks(late, early), DAYS, "turn", with_curve=False)
    said = change_voice.cue_change(answer, "turn", WEEKDAYS)
    assert "no change" not in f"{said.sentence} {said.reason}".lower()
    assert CANNOT_TELL in said.sentence


def test_the_reason_tells_the_range_in_parts_of_the_balls() -> None:
    answer = cue_answer(yardsticks("16/19", "6/19"), DAYS, "turn", with_curve=False)
    assert change_voice.cue_change(answer, "turn", WEEKDAYS).reason == (
        "Better by something between a fifth and three quarters of the balls."
        " Chance alone makes at most 1 in 20 look so."
    )


def test_a_trend() -> None:
    def told(*rounds: str) -> str:
        answer = cue_answer(past(*rounds, cues=("turn",)), DAYS, "turn", with_curve=False)
        return change_voice.trend_change(answer.trend, "turn").sentence

    assert told("1 yardstick 2*20") == ""
    days = [f"{n} hold {one_cue(made, 20)}" for n, made in ((2, 6), (3, 12), (4, 18))]
    assert told("1 yardstick 0*20", *days) == "Turn, day by day with no help: it may be rising."
    assert told("1 yardstick 2*9 0*9", "2 hold 2*9 0*9") == (
        "Turn, day by day with no help: these balls cannot tell."
    )
