"""Shorthand for tests: a book with a clinic in it, a clock that only moves when told, balls."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path

from courtlog import locations, times
from courtlog.coaching.game.cards import PlayerCard
from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.grades import DIGITS
from courtlog.coaching.game.people import Clinic, Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court import feeding
from courtlog.coaching.on_court.feeding import Feeding, Meaning
from courtlog.courtside.commands.table import ACT_KEYS
from courtlog.courtside.desk.desk import Desk
from courtlog.library.drill_files import Library, load
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.clinic_lookups import FirstDay
from courtlog.logbook.writes import clinic_writer
from courtlog.logbook.writes.people_writer import PeopleWriter
from courtlog.settings import Settings

START = 1_778_571_000_000
"""2026-05-12 07:30:00 UTC, half past eight in Lisbon."""

DAY = date(2026, 5, 12)
SHIPPED: Library = load([locations.shipped_drills()])


def without_planned_tough(library: Library) -> Library:
    """The same drills, but a ball is tough only when a test says so."""
    usual = {
        stroke: replace(ladder, drills=tuple(replace(d, tough=0) for d in ladder.drills))
        for stroke, ladder in library.ladders.items()
    }
    return Library(usual)


LIBRARY = without_planned_tough(SHIPPED)
NAMES = ("Maren", "Tove", "Ruben")


class Clock:
    """Stands still until it is told to move on."""

    def __init__(self, at: int = START) -> None:
        self.at = at

    def __call__(self) -> int:
        return self.at

    def pass_seconds(self, seconds: float) -> None:
        """Move on."""
        self.at += round(seconds * 1000)


def open_book(folder: Path) -> Book:
    """A new or existing book in that folder."""
    return create_or_open(folder / "book.db", START)


def close_look(**values: object) -> Settings:
    """Settings in which the court opens with the close look, whose words most tests read."""
    return Settings(look="close", **values)  # type: ignore[arg-type]


def desk_in(
    folder: Path,
    names: tuple[str, ...] = NAMES,
    drill: str | None = "forehand/racquet-feed",
    settings: Settings | None = None,
) -> Desk:
    """A desk on a fresh clinic in Lisbon, its first player on court with this drill."""
    quiet = settings or close_look(review=False)
    desk = Desk(open_book(folder), lambda: LIBRARY, quiet, Clock())
    desk.state.act_keys = ACT_KEYS
    begin_clinic(desk, "Harbour Week", "Europe/Lisbon", "Ines", "2", names)
    if drill is not None and names:
        ladder, card = LIBRARY.drill(drill)
        desk.rounds.start(drill=(ladder, card), purpose=Purpose.PRACTICE)
    return desk


def begin_clinic(
    desk: Desk, name: str, zone: str, coach: str, court: str, names: Sequence[str]
) -> None:
    """A new clinic of these players, its first day today; nobody is on court yet."""
    clinic = clinic_writer.begin_clinic(desk.book, Clinic(0, name, zone), FirstDay(), desk.clock())
    for at, name in enumerate(names):
        PeopleWriter(desk.book).add_players(
            clinic.id, [PlayerCard(name=name)], desk.clock(), name in names[:at]
        )
    desk.clinic.open_day(clinic.id, times.local_date(desk.clock(), clinic.place), court, coach)
    desk.balls.pick_up(desk.settings.basket)
    desk.state.tell("")


def again(desk: Desk) -> Desk:
    """Another desk on the same book, as after a restart."""
    other = Desk(create_or_open(desk.book.path, START), lambda: LIBRARY, desk.settings, desk.clock)
    other.state.act_keys = desk.state.act_keys
    other.state.resume()
    return other


def player(desk: Desk, name: str) -> Player:
    """The player of that name."""
    return lookups.player_on_roster(desk.book, desk.view.clinic.id, name)


def used(name: str) -> UsedDrill:
    """A drill as the library has it."""
    return UsedDrill.of(*LIBRARY.drill(name))


def keys(shorthand: str) -> list[Meaning | None]:
    """`22 - 0! _ / < T` as meanings, blanks ignored.

    Digits grade the next cue (- skips one), `_` is Space, `/` Enter, `!` tough, `T` tough last,
    `@` a clip mark, `<` Backspace (None). A cue's row is counted from the last ball's end.
    """
    found: list[Meaning | None] = []
    row = 0
    for character in shorthand:
        match character:
            case "0" | "1" | "2":
                grade = DIGITS[character]
                assert grade is not None
                found.append(feeding.Rate(row, grade))
                row = (row + 1) % 3
            case "-":
                row = (row + 1) % 3
            case "_":
                found.append(feeding.CleanBall())
                row = 0
            case "/":
                found.append(feeding.TakeBall())
                row = 0
            case "!":
                found.append(feeding.ToughOpen())
            case "T":
                found.append(feeding.ToughLast())
            case "@":
                found.append(feeding.MarkClip(START))
            case "<":
                found.append(None)
    return found


def play(state: Feeding, shorthand: str) -> Feeding:
    """The pure state after these keys."""
    for meaning in keys(shorthand):
        state, _ = (
            feeding.take_back_key(state) if meaning is None else feeding.press_key(state, meaning)
        )
    return state


def feed(desk: Desk, shorthand: str) -> None:
    """The same keys at the desk."""
    for meaning in keys(shorthand):
        if meaning is None:
            desk.balls.take_back()
        else:
            desk.balls.press(meaning)


def written(state: Feeding) -> str:
    """The taken balls as a sheet writes them, then `|` and the open ball if it is touched."""
    taken = " ".join(ball.token() for ball in state.taken)
    return f"{taken}|{state.open.token()}" if state.touched else taken
