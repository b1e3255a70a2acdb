"""Harbour Week: five days, six invented players, one forehand that changes unevenly."""

from __future__ import annotations

from datetime import date

from courtlog.coaching.records import CheckInMoment
from courtlog.coaching.rounds import Purpose
from tests.samples.plans import Answer, Ask, Block, ClinicPlan, DayPlan, Task
from tests.samples.players import Player, Skill

ARRIVAL, BREAK, END = CheckInMoment.ARRIVAL, CheckInMoment.BREAK, CheckInMoment.END
CHOOSING, YARDSTICK, PRACTICE = Purpose.CHOOSING, Purpose.YARDSTICK, Purpose.PRACTICE
HOLD, TRANSFER = Purpose.HOLD, Purpose.TRANSFER

PICKED = "turn spacing finish"

ALL_FOUR = Task("forehand/day-one-feed", 12, "split-step turn spacing finish")
DAY_ONE_FEED = Task("forehand/day-one-feed", 20, PICKED)
SHADOW = Task("forehand/shadow", 12, PICKED)
FENCE = Task("forehand/fence", 12, PICKED)
SELF = Task("forehand/self-feed", 10, PICKED)
HAND = Task("forehand/hand-feed", 10, PICKED)
HAND_20 = Task("forehand/hand-feed", 20, PICKED)
RACQUET = Task("forehand/racquet-feed", 10, PICKED)
RACQUET_20 = Task("forehand/racquet-feed", 20, PICKED)
LIVE = Task("forehand/live", 10, PICKED)
LIVE_8 = Task("forehand/live", 8, PICKED)
LIVE_12 = Task("forehand/live", 12, PICKED)


def _own_stroke(serve: str, backhand: str) -> dict[str, Task]:
    """Anouk serves and Kasimir hits backhands while the others stay with the forehand."""
    return {
        "Anouk": Task(f"serve/{serve}", 8, "toss trophy reach"),
        "Kasimir": Task(f"backhand-two/{backhand}", 10, "turn contact finish"),
    }


PLAYERS = (
    # Spacing is what changes, and it stays.
    Player(
        "Maren",
        "left",
        {
            "forehand": {
                "split-step": Skill(0.9),
                "turn": Skill(1.0, 0.001),
                "spacing": Skill(-1.4, 0.0105, 0.15),
                "finish": Skill(-0.1, 0.002),
            }
        },
    ),
    # The finish does not move, whatever is tried.
    Player(
        "Tove",
        "right",
        {
            "forehand": {
                "split-step": Skill(0.4),
                "turn": Skill(-0.4, 0.006, 0.2),
                "spacing": Skill(0.4, 0.001),
                "finish": Skill(-1.0, 0.0),
            }
        },
    ),
    # The elbow; steady, a little better everywhere.
    Player(
        "Ruben",
        "right",
        {
            "forehand": {
                "split-step": Skill(-0.2),
                "turn": Skill(0.5, 0.002),
                "spacing": Skill(-0.3, 0.002),
                "finish": Skill(-0.6, 0.004),
            }
        },
        tired=0.006,
    ),
    # Better on the usual ball, worse on the tough one.
    Player(
        "Anouk",
        "right",
        {
            "forehand": {
                "split-step": Skill(0.8),
                "turn": Skill(0.8, 0.002),
                "spacing": Skill(0.2, 0.003),
                "finish": Skill(-0.4, 0.006, 0.15),
            },
            "serve": {
                "toss": Skill(-0.3, 0.015),
                "trophy": Skill(0.4, 0.004),
                "reach": Skill(-0.8, 0.008),
            },
        },
        tough=0.2,
        tough_by_day=0.7,
    ),
    # Good by evening, nearly where it was in the morning.
    Player(
        "Ilse",
        "right",
        {
            "forehand": {
                "split-step": Skill(0.1),
                "turn": Skill(0.3, 0.004, 0.6),
                "spacing": Skill(-0.9, 0.021, 0.9),
                "finish": Skill(-0.5, 0.018, 0.9),
            }
        },
    ),
    # Turns late at first; room enough from the start.
    Player(
        "Kasimir",
        "right",
        {
            "forehand": {
                "split-step": Skill(-0.6),
                "turn": Skill(-0.9, 0.007, 0.2),
                "spacing": Skill(1.0, 0.001),
                "finish": Skill(0.2, 0.002),
            },
            "backhand-two": {
                "turn": Skill(-0.2, 0.01),
                "contact": Skill(-0.6, 0.012),
                "finish": Skill(0.6, 0.003),
            },
        },
    ),
)

ASKS = (Ask(ARRIVAL, "08:31"), Ask(BREAK, "12:22", 120), Ask(END, "16:20", 80))

MONDAY = DayPlan(
    date(2026, 5, 11),
    (
        Block("08:50", CHOOSING, ALL_FOUR),
        Block("09:25", YARDSTICK, DAY_ONE_FEED),
        Block("10:25", PRACTICE, SHADOW),
        Block("11:00", PRACTICE, FENCE),
        Block("11:35", PRACTICE, SELF),
        Block("14:05", PRACTICE, HAND),
        Block("14:40", PRACTICE, HAND),
        Block("15:20", PRACTICE, HAND_20),
    ),
    ASKS,
    answers={("Ruben", END): Answer(1, "elbow")},
    notes={
        ("Maren", "08:50"): "turn is good already, leave it alone",
        ("Maren", "09:25"): "elbow on the ribs whenever the ball comes up",
        ("Tove", "09:25"): "stops at the chest, both on easy and on tough balls",
        ("Kasimir", "10:25"): "likes to call the bounce himself",
        ("Ilse", "15:20"): "best round of the day",
    },
)

TUESDAY = DayPlan(
    date(2026, 5, 12),
    (
        Block("08:50", HOLD, HAND_20),
        Block("09:35", PRACTICE, FENCE),
        Block("10:20", PRACTICE, HAND),
        Block("10:55", PRACTICE, RACQUET),
        Block("11:40", PRACTICE, RACQUET, instead=_own_stroke("toss-target", "hand-feed")),
        Block("14:05", PRACTICE, SELF, instead=_own_stroke("service-line", "hand-feed")),
        Block("14:45", PRACTICE, RACQUET),
        Block("15:25", PRACTICE, RACQUET_20),
    ),
    ASKS,
    answers={
        ("Ruben", ARRIVAL): Answer(1, "elbow"),
        ("Ruben", BREAK): Answer(1, "elbow"),
        ("Ruben", END): Answer(1, "elbow", "only on the deep balls"),
        ("Tove", END): Answer(1, "heel", "new shoes"),
    },
    notes={
        ("Ilse", "08:50"): "yesterday evening's room is gone again",
        ("Ruben", "10:55"): "tension on high balls",
        ("Anouk", "11:40"): "toss first, nothing else",
        ("Tove", "14:45"): "held three when reminded, then none",
    },
)

WEDNESDAY = DayPlan(
    date(2026, 5, 13),
    (
        Block("08:50", HOLD, RACQUET_20),
        Block("09:40", PRACTICE, SHADOW),
        Block("10:25", PRACTICE, RACQUET),
        Block("11:00", PRACTICE, HAND),
        Block("11:40", PRACTICE, LIVE_8, instead=_own_stroke("service-line", "racquet-feed")),
        Block("14:05", PRACTICE, RACQUET, instead=_own_stroke("service-line", "racquet-feed")),
        Block("14:45", PRACTICE, LIVE_8),
        Block("15:30", PRACTICE, RACQUET_20),
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
        ("Maren", "10:25"): "small steps before the hit, and the room is there",
        ("Anouk", "14:45"): "hurries as soon as the ball is deep",
        ("Ruben", "15:30"): "tension on high balls",
        ("Kasimir", "08:50"): "shoulders round before the bounce on most",
    },
)

THURSDAY = DayPlan(
    date(2026, 5, 14),
    (
        Block("08:50", HOLD, RACQUET_20),
        Block("09:40", PRACTICE, SELF),
        Block("10:25", PRACTICE, RACQUET),
        Block("11:00", PRACTICE, LIVE),
        Block("11:45", PRACTICE, RACQUET),
        Block("14:05", PRACTICE, HAND, instead=_own_stroke("baseline", "racquet-feed")),
        Block("14:45", PRACTICE, LIVE_8),
        Block("15:30", PRACTICE, RACQUET_20),
    ),
    ASKS,
    answers={
        ("Ruben", ARRIVAL): Answer(1, "elbow"),
        ("Ruben", BREAK): Answer(2, "elbow"),
        ("Ruben", END): Answer(4, "elbow", "told to rest it and to ask a clinician", minutes=55),
    },
    notes={
        ("Ruben", "14:45"): "six balls only, elbow sore",
        ("Ruben", "15:30"): "half the round at his own wish",
        ("Anouk", "15:30"): "fine on the usual ball, tight on the deep one",
        ("Ilse", "15:30"): "room on every ball tonight; look again in the morning",
    },
    shorter={("Ruben", "14:45"): 6, ("Ruben", "15:30"): 10},
)

FRIDAY = DayPlan(
    date(2026, 5, 15),
    (
        Block("08:45", HOLD, RACQUET_20),
        Block("09:30", YARDSTICK, DAY_ONE_FEED),
        Block("10:30", PRACTICE, RACQUET),
        Block("11:05", PRACTICE, LIVE_8),
        Block("11:45", PRACTICE, RACQUET, instead=_own_stroke("baseline", "live")),
        Block("14:05", TRANSFER, LIVE_12),
        Block("15:05", PRACTICE, SELF),
    ),
    ASKS,
    answers={
        ("Ruben", ARRIVAL): Answer(2, "elbow", "asks to go on, easy balls only"),
        ("Ruben", BREAK): Answer(2, "elbow", minutes=70),
        ("Ruben", END): Answer(2, "elbow", minutes=35),
    },
    notes={
        ("Maren", "09:30"): "same end, same basket, same feeder as on Monday",
        ("Tove", "09:30"): "turn is earlier; the finish is where it was",
        ("Ruben", "10:30"): "six balls, slow ones",
        ("Kasimir", "14:05"): "points played, nothing said",
        ("Ilse", "15:05"): "to take home: ten of these before every match",
    },
    shorter={("Ruben", "10:30"): 6, ("Ruben", "11:05"): 6, ("Ruben", "11:45"): 6},
)

HARBOUR_WEEK = ClinicPlan(
    name="Harbour Week",
    zone="Europe/Lisbon",
    court="2",
    coach="Ines",
    seed=20260511,
    players=PLAYERS,
    days=(MONDAY, TUESDAY, WEDNESDAY, THURSDAY, FRIDAY),
)
