"""How long a look takes when the book is big: the quick review, the trends, a player's answer.

Run with `python -m tests.bench.looks`; prints a table. Books are generated and thrown away.
"""

from __future__ import annotations

import random
import statistics
import tempfile
import time
from collections.abc import Callable
from contextlib import ExitStack
from datetime import date, timedelta
from functools import partial
from pathlib import Path

from courtlog.coaching.game.clinic_record import BallRecord, ClinicRecord, DayRecord, RoundRecord
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.on_court.live_round import Basket
from courtlog.coaching.plans.clinic_plan import ClinicPlan
from courtlog.coaching.plans.rotation import Court
from courtlog.courtside.desk.keymap import PADS
from courtlog.courtside.desk.view import ClinicNow, CourtView, Rotation
from courtlog.courtside.screens.review import page_of
from courtlog.courtside.screens.trend_player import work_out_curve
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import answer_lookups, history_lookups, lookups, trend_lookups
from courtlog.logbook.writes.sheets.take_in import take_in
from tests.court import START, used

FIRST = date(2026, 5, 11)
CUES = ("turn", "spacing", "finish")
DRILLS = ("forehand/hand-feed", "forehand/racquet-feed", "forehand/day-one-feed")
DAYS = 10
SEED = 20260512
REPEATS = 7
TURNS = 40

REVIEW_TARGET = 100.0
"""Milliseconds a quick review may take to open."""

SMALL, LARGE = 10_000, 300_000
PLAYERS = 12


def balls(dice: random.Random, count: int, day: int) -> tuple[BallRecord, ...]:
    """Balls of a player who gets better by the day; one in twenty cues is not seen."""
    better = 0.3 + 0.4 * day / DAYS
    weights = (0.75 - better, 0.2, better, 0.05)
    kinds = (Grade.MISSED, Grade.NEAR, Grade.MADE, None)
    return tuple(
        BallRecord(Ball(tuple(dice.choices(kinds, weights, k=3)), dice.random() < 0.1))
        for _ in range(count)
    )


def purposes(day: int) -> tuple[Purpose, ...]:
    """What the rounds of a day are for, in turn."""
    first = Purpose.YARDSTICK if day in (0, DAYS - 1) else Purpose.HOLD
    return (first, Purpose.PRACTICE, Purpose.PRACTICE)


def generated(name: str, players: int, count: int, a_round: int = 20) -> ClinicRecord:
    """A clinic of ten days with this many balls in all, on the same drills every day."""
    dice = random.Random(SEED)
    each = count // (players * DAYS)
    days = []
    for day in range(DAYS):
        rounds = []
        for player in range(players):
            for number, start in enumerate(range(0, each, a_round)):
                why = purposes(day)[min(number, 2)]
                drill = DRILLS[2] if why is not Purpose.PRACTICE else DRILLS[number % 2]
                size = min(a_round, each - start)
                rounds.append(
                    RoundRecord(
                        player=f"P{player}",
                        drill=drill,
                        purpose=why,
                        cues=CUES,
                        balls=balls(dice, size, day),
                    )
                )
        days.append(DayRecord(FIRST + timedelta(day), "1", "Ines", tuple(rounds)))
    return ClinicRecord(name, "UTC", (), tuple(days))


def book_of(folder: Path, name: str, players: int, count: int) -> tuple[Book, int]:
    """A book with that clinic, and the clinic's id."""
    book = create_or_open(folder / f"{name}.db", START)
    drills = {drill: used(drill) for drill in DRILLS}
    return book, take_in(book, generated(name, players, count), drills, START).clinic_id


def view_of(book: Book, clinic_id: int) -> CourtView:
    """The court with the clinic's last round on it, just ended."""
    clinic, day = lookups.clinic(book, clinic_id), lookups.days(book, clinic_id)[-1]
    (last,) = book.db.execute("SELECT max(id) FROM round WHERE day_id = ?", [day.id]).fetchone()
    live = lookups.live_round(book, last)
    roster = tuple(lookups.players(book, clinic_id))
    return CourtView(
        clinic=clinic,
        day=day,
        pad=PADS["right"],
        letters=False,
        live=live,
        basket=Basket(60, 60),
        earlier=((),) * len(live.cue_keys),
        roster=roster,
        rotation=Rotation(Court(roster=roster), {}, ClinicPlan()),
        paused_at=None,
        now=0,
        message="",
    )


def timed(look: Callable[[], object], repeats: int = REPEATS) -> tuple[float, float]:
    """Milliseconds of the first look and the median of the next ones."""
    times = []
    for _ in range(repeats + 1):
        start = time.perf_counter()
        look()
        times.append((time.perf_counter() - start) * 1000)
    return times[0], statistics.median(times[1:])


def row(name: str, figures: tuple[float, float], note: str = "") -> str:
    """One line of the table."""
    return f"{name:52}{figures[0]:9.1f}{figures[1]:9.1f}   {note}".rstrip()


def one_player(folder: Path) -> list[str]:
    """A player of 5,000 balls: review, trends, answer, curve."""
    book, clinic = book_of(folder, "one", 1, 5000)
    view = view_of(book, clinic)
    live = view.live
    assert live is not None
    player, today = live.player.id, view.day.date
    now = ClinicNow(book.path, clinic, today)

    def history() -> object:
        return history_lookups.history(book, clinic, player, "forehand", today)

    def curve() -> object:
        return work_out_curve(now, clinic, player, ("forehand", "turn"))

    review = timed(lambda: page_of(book, view, live, Speak.PLAN))
    met = "met" if review[1] < REVIEW_TARGET else "MISSED"
    rows = [
        row("quick review (page_of)", review, f"target {REVIEW_TARGET:.0f} ms: {met}"),
        row("  of which the player's balls (history)", timed(history)),
        row("trend look-up (roster_trends)", timed(lambda: trends(book, clinic, today))),
        row(
            "player's answer (answers)",
            timed(lambda: answer_lookups.answers(book, clinic, player), 2),
        ),
        row("skill curve of one cue, own connection", timed(curve, 3)),
    ]
    book.close()
    return rows


def trends(book: Book, clinic: int, today: date) -> object:
    """What F5 looks up."""
    return trend_lookups.roster_trends(book, clinic, today)


def side_by_side(folder: Path) -> list[str]:
    """The same players and days with few balls and with many: the look-up must cost the same.

    The books are opened afresh and looked at in turn, so that the machine's moods fall on both.
    """
    looks: dict[int, Callable[[], object]] = {}
    with ExitStack() as opened:
        for count in (SMALL, LARGE):
            book, clinic = book_of(folder, f"balls{count}", PLAYERS, count)
            book.close()
            book = create_or_open(book.path, START)
            opened.callback(book.close)
            looks[count] = partial(trends, book, clinic, lookups.dates(book, clinic)[-1])
        times: dict[int, list[float]] = {count: [] for count in looks}
        for _ in range(TURNS):
            for count, look in looks.items():
                times[count].append(timed(look, 1)[0])
    medians = {count: statistics.median(found) for count, found in times.items()}
    rows = [
        row(f"trend look-up, {count:,} balls", (found[0], medians[count]))
        for count, found in times.items()
    ]
    return [*rows, f"ratio {medians[LARGE] / medians[SMALL]:.2f} (must stay near 1)"]


def main() -> None:
    """Measure and print."""
    print(f"{'milliseconds':52}{'first':>9}{'median':>9}")
    with tempfile.TemporaryDirectory(prefix="courtlog-looks-") as scratch:
        folder = Path(scratch)
        print(f"one player, 5,000 balls on {DAYS} days")
        print("\n".join(one_player(folder)))
        print(f"{PLAYERS} players on {DAYS} days")
        print("\n".join(side_by_side(folder)))


if __name__ == "__main__":
    main()
