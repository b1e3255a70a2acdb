"""Harbour Week: five days, six invented players, one forehand that changes unevenly."""

from __future__ import annotations

from datetime import date

from courtlog.coaching.game.clinic_record import CheckInMoment
from courtlog.coaching.game.rounds import Purpose
from tests.samples.harbour_players import PLAYERS
from tests.samples.plans import Answer, Ask, Block, ClinicPlan, DayPlan, Task

ARRIVAL, BREAK, END = CheckInMoment.ARRIVAL, CheckInMoment.BREAK, CheckInMoment.END
MORNING = CheckInMoment.MORNING
CHOOSING, YARDSTICK, PRACTICE = Purpose.CHOOSING, Purpose.YARDSTICK, Purpose.PRACTICE
HOLD, TRANSFER = Purpose.HOLD, Purpose.TRANSFER

PICKED = "turn spacing finish"

ALL_FOUR = Task("forehand/day-one-feed", 12, "split-step turn spacing finish")
DAY_ONE_FEED = Task("forehand/day-one-feed", 20, PICKED)
SHADOW = Task("forehand/shadow", 12, PICKED)
FENCE = Task("forehand/fence", 12, "turn spacing")
SELF = Task("forehand/self-feed", 10, PICKED)
HAND = Task("forehand/hand-feed", 10, PICKED)
HAND_20 = Task("forehand/hand-feed", 20, PICKED)
RACQUET = Task("forehand/racquet-feed", 10, PICKED)
RACQUET_20 = Task("forehand/racquet-feed", 20, PICKED)
LIVE = Task("forehand/live", 10, PICKED)
LIVE_8 = Task("forehand/live", 8, PICKED)
LIVE_12 = Task("forehand/live", 12, PICKED)


SERVED = {
    "toss-target": "toss trophy",
    "service-line": "toss trophy reach",
    "baseline": "toss trophy reach",
}


def _own_stroke(serve: str, backhand: str) -> dict[str, Task]:
    """Anouk serves and Kasimir hits backhands while the others stay with the forehand."""
    return {
        "Anouk": Task(f"serve/{serve}", 8, SERVED[serve]),
        "Kasimir": Task(f"backhand-two/{backhand}", 10, "turn contact finish"),
    }


ASKS = (Ask(ARRIVAL, "08:31"), Ask(BREAK, "12:22", 120), Ask(END, "16:20", 80))
AFTER_A_SORE_DAY = (Ask(MORNING, "07:40", who=("Ruben",)), *ASKS)

MONDAY = DayPlan(
    date(2026, 5, 11),
    (
        Block("08:50", CHOOSING, ALL_FOUR),
        Block("09:25", YARDSTICK, DAY_ONE_FEED),
        Block("10:30", PRACTICE, SHADOW),
        Block("11:10", PRACTICE, FENCE),
        Block("11:50", PRACTICE, SELF),
        Block("14:05", PRACTICE, HAND),
        Block("14:55", PRACTICE, HAND),
        Block("15:40", PRACTICE, HAND_20),
    ),
    ASKS,
    answers={("Ruben", END): Answer(1, "elbow")},
    notes={
        ("Maren", "08:50"): "turn is good already, leave it alone",
        ("Maren", "09:25"): "elbow on the ribs whenever the ball comes up",
        ("Tove", "09:25"): "stops at the chest, both on easy and on tough balls",
        ("Kasimir", "10:30"): "likes to call the bounce himself",
        ("Ilse", "15:40"): "best round of the day",
    },
)

TUESDAY = DayPlan(
    date(2026, 5, 12),
    (
        Block("08:50", HOLD, HAND_20),
        Block("09:40", PRACTICE, FENCE),
        Block("10:35", PRACTICE, HAND),
        Block("11:15", PRACTICE, RACQUET),
        Block("11:55", PRACTICE, RACQUET, instead=_own_stroke("toss-target", "hand-feed")),
        Block("14:05", PRACTICE, SELF, instead=_own_stroke("service-line", "hand-feed")),
        Block("14:50", PRACTICE, RACQUET),
        Block("15:40", PRACTICE, RACQUET_20),
    ),
    ASKS,
    answers={
        ("Ruben", ARRIVAL): Answer(1, "elbow"),
        ("Ruben", BREAK): Answer(1, "elbow"),
        ("Ruben", END): Answer(1, "elbow", "only on the deep balls"),
        ("Tove", END): Answer(1, "heel", "new shoes"),
    },
    notes={
        ("Ilse", "08:50"): "half of yesterday evening's room is gone",
        ("Ruben", "11:15"): "tension on high balls",
        ("Anouk", "11:55"): "toss first, nothing else",
        ("Tove", "14:50"): "reminded after every miss; the finish is the same",
    },
)

WEDNESDAY = DayPlan(
    date(2026, 5, 13),
    (
        Block("08:50", HOLD, RACQUET_20),
        Block("09:40", PRACTICE, SHADOW),
        Block("10:35", PRACTICE, RACQUET),
        Block("11:15", PRACTICE, HAND),
        Block("11:50", PRACTICE, LIVE_8, instead=_own_stroke("service-line", "racquet-feed")),
        Block("14:05", PRACTICE, RACQUET, instead=_own_stroke("service-line", "racquet-feed")),
        Block("14:55", PRACTICE, LIVE_8),
        Block("15:40", PRACTICE, RACQUET_20),
    ),
    ASKS,
    answers={
        ("Ruben", ARRIVAL): Answer(1, "elbow"),
        ("Ruben", BREAK): Answer(2, "elbow", "after the deep balls"),
        ("Ruben", END): Answer(2, "elbow"),
        ("Tove", ARRIVAL): Answer(1, "heel"),
        ("Kasimir", END): Answer(1, "shoulder"),
    },
    notes={
        ("Maren", "10:35"): "small steps before the hit, and the room is there",
        ("Anouk", "14:55"): "hurries as soon as the ball is deep",
        ("Ruben", "15:40"): "tension on high balls",
    },
)

THURSDAY = DayPlan(
    date(2026, 5, 14),
    (
        Block("08:50", HOLD, RACQUET_20),
        Block("09:40", PRACTICE, SELF),
        Block("10:35", PRACTICE, RACQUET),
        Block("11:10", PRACTICE, LIVE),
        Block("11:55", PRACTICE, RACQUET),
        Block("14:05", PRACTICE, HAND, instead=_own_stroke("baseline", "racquet-feed")),
        Block("14:50", PRACTICE, LIVE_8),
        Block("15:40", PRACTICE, RACQUET_20),
    ),
    AFTER_A_SORE_DAY,
    answers={
        ("Ruben", MORNING): Answer(1, "elbow"),
        ("Ruben", ARRIVAL): Answer(1, "elbow"),
        ("Ruben", BREAK): Answer(2, "elbow"),
        ("Ruben", END): Answer(4, "elbow", "told to rest it and to ask a clinician", minutes=55),
    },
    notes={
        ("Kasimir", "08:50"): "shoulders round before the bounce on most",
        ("Ruben", "14:50"): "six balls only, elbow sore",
        ("Ruben", "15:40"): "half the round at his own wish",
        ("Anouk", "15:40"): "fine on the usual ball, tight on the deep one",
        ("Ilse", "15:40"): "more room tonight; look again in the morning",
    },
    said={("Ruben", "14:50"): Answer(3, "elbow")},
    shorter={("Ruben", "14:50"): 6, ("Ruben", "15:40"): 10},
)

FRIDAY = DayPlan(
    date(2026, 5, 15),
    (
        Block("08:45", HOLD, RACQUET_20),
        Block("09:30", YARDSTICK, DAY_ONE_FEED),
        Block("10:35", PRACTICE, RACQUET),
        Block("11:10", PRACTICE, LIVE_8),
        Block("11:55", PRACTICE, RACQUET, instead=_own_stroke("baseline", "live")),
        Block("14:05", TRANSFER, LIVE_12),
        Block("15:30", PRACTICE, SELF),
    ),
    AFTER_A_SORE_DAY,
    answers={
        ("Ruben", MORNING): Answer(3, "elbow", "stiff when lifting a cup"),
        ("Ruben", ARRIVAL): Answer(2, "elbow", "asks to go on, easy balls only"),
        ("Ruben", BREAK): Answer(2, "elbow", minutes=70),
        ("Ruben", END): Answer(2, "elbow", minutes=35),
    },
    notes={
        ("Maren", "09:30"): "same end, same basket, same feeder as on Monday",
        ("Tove", "09:30"): "turn is earlier; the finish is where it was",
        ("Ruben", "10:35"): "six balls, slow ones",
        ("Kasimir", "14:05"): "points played, nothing said",
        ("Ilse", "15:30"): "to take home: ten of these before every match",
    },
    shorter={("Ruben", "10:35"): 6, ("Ruben", "11:10"): 6, ("Ruben", "11:55"): 6},
)

HARBOUR_WEEK = ClinicPlan(
    name="Harbour Week",
    zone="Europe/Lisbon",
    court="2",
    coach="Ines",
    seed=20261511,  # of those tried, the one whose chance blurs the table of players least
    players=PLAYERS,
    days=(MONDAY, TUESDAY, WEDNESDAY, THURSDAY, FRIDAY),
)
