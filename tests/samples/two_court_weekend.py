"""Two-court Weekend: court 1 of it, four invented players, one late and one gone at noon."""

from __future__ import annotations

from datetime import date

from courtlog.coaching.game.clinic_record import CheckInMoment
from courtlog.coaching.game.rounds import Purpose
from tests.samples.plans import Answer, Ask, Block, ClinicPlan, DayPlan, Task
from tests.samples.players import Player, Skill

ARRIVAL, BREAK, END = CheckInMoment.ARRIVAL, CheckInMoment.BREAK, CheckInMoment.END

PICKED = "turn spacing finish"
EARLY = ("Sanne", "Emrik", "Jorun")
STAYING = ("Sanne", "Emrik", "Pilou")
LATE = ("Pilou",)

LOOK = Task("forehand/day-one-feed", 8, PICKED)
DAY_ONE_FEED = Task("forehand/day-one-feed", 20, PICKED)
SHADOW = Task("forehand/shadow", 8, PICKED)
HAND = Task("forehand/hand-feed", 10, PICKED)
RACQUET = Task("forehand/racquet-feed", 10, PICKED)
RACQUET_20 = Task("forehand/racquet-feed", 20, PICKED)
LIVE = Task("forehand/live", 10, PICKED)
BACKHAND = Task("backhand-two/hand-feed", 8, "turn contact finish")


def _player(name: str, hand: str, *starts: float) -> Player:
    turn, spacing, finish = starts
    return Player(
        name,
        hand,
        {
            "forehand": {
                "turn": Skill(turn, 0.006),
                "spacing": Skill(spacing, 0.012),
                "finish": Skill(finish, 0.008),
            },
            "backhand-two": {
                "turn": Skill(turn - 0.3, 0.01),
                "contact": Skill(spacing, 0.01),
                "finish": Skill(finish, 0.01),
            },
        },
    )


SATURDAY = DayPlan(
    date(2026, 6, 6),
    (
        Block("09:10", Purpose.CHOOSING, LOOK, EARLY),
        Block("09:30", Purpose.YARDSTICK, DAY_ONE_FEED, EARLY),
        Block("10:10", Purpose.PRACTICE, SHADOW, EARLY),
        Block("10:45", Purpose.CHOOSING, LOOK, LATE),
        Block("10:52", Purpose.YARDSTICK, DAY_ONE_FEED, LATE),
        Block("11:05", Purpose.PRACTICE, HAND),
        Block("11:40", Purpose.PRACTICE, RACQUET),
        Block("14:00", Purpose.PRACTICE, BACKHAND, STAYING),
        Block("14:35", Purpose.PRACTICE, RACQUET_20, STAYING),
    ),
    (Ask(ARRIVAL, "08:55"), Ask(BREAK, "12:10", 90), Ask(END, "15:30", 50, STAYING)),
    answers={
        ("Pilou", ARRIVAL): Answer(note="train was late", at="10:40"),
        ("Pilou", BREAK): Answer(minutes=55),
        ("Jorun", BREAK): Answer(note="leaves at noon, not back tomorrow"),
        ("Emrik", END): Answer(1, "wrist"),
    },
    notes={
        ("Pilou", "10:52"): "straight from the station, after eight warm-up balls",
        ("Jorun", "11:40"): "last round: keep the room on the short ones",
        ("Emrik", "14:00"): "waits for the ball to come to him",
    },
)

SUNDAY = DayPlan(
    date(2026, 6, 7),
    (
        Block("09:10", Purpose.HOLD, RACQUET_20, STAYING),
        Block("09:45", Purpose.YARDSTICK, DAY_ONE_FEED, STAYING),
        Block("10:40", Purpose.PRACTICE, BACKHAND, STAYING),
        Block("11:15", Purpose.TRANSFER, LIVE, STAYING),
    ),
    (Ask(ARRIVAL, "08:55", who=STAYING), Ask(END, "12:00", 90, STAYING)),
    answers={("Emrik", ARRIVAL): Answer(1, "wrist")},
    notes={("Sanne", "11:15"): "tries to keep the finish in a rally"},
)

TWO_COURT_WEEKEND = ClinicPlan(
    name="Two-court Weekend",
    zone="Europe/Lisbon",
    court="1",
    coach="Bram",
    seed=20260687,
    players=(
        _player("Sanne", "right", 0.6, -0.3, -0.8),
        _player("Emrik", "left", 0.2, -0.6, 0.3),
        _player("Jorun", "right", 0.0, 0.2, -0.2),
        _player("Pilou", "right", -0.4, 0.0, 0.2),
    ),
    days=(SATURDAY, SUNDAY),
)
