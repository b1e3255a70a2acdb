"""Everything that a book holds on one player, as facts: parts in plain words, nobody else in them.

In the European Union, Regulation (EU) 2016/679 gives such rights. Article 15: to know why, what,
for whom and how long, and to have a copy. Article 16: to have it put right; 17: to have it erased.
This was read in copies that others keep of the Regulation, not in the Official Journal. The page
names no law: which one holds is for the coach's local rules.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from courtlog.coaching.game.cards import MINOR
from courtlog.coaching.game.keeping import KeepTime
from courtlog.coaching.game.people import Player
from courtlog.logbook.file import backups
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.film.films import films_of_person
from courtlog.logbook.reads.person.last_days import last_day
from courtlog.logbook.reads.person.person_rows import person_rows
from courtlog.logbook.writes.erasing import identity_of
from courtlog.plain_text import listed, many
from courtlog.reports.everything.court_parts import commands, counted, court_parts
from courtlog.reports.everything.health import health
from courtlog.reports.everything.left_out import REASONS
from courtlog.reports.everything.parts import Held, Part
from courtlog.reports.everything.person_parts import person_parts


@dataclass(frozen=True, slots=True)
class Kept:
    """How long it is kept: months after the last day, and until when; empty where not known."""

    months: int
    last_day: date | None
    until: date | None
    over: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Everything:
    """All that is held on one player."""

    player: str
    printed_on: date
    minor: bool
    parts: tuple[Part, ...]
    counted: tuple[str, ...]
    """What is kept line by line and only counted on the page."""
    left_out: tuple[str, ...]
    """What is not printed one by one, and why."""
    health: tuple[str, ...]
    """Pain, effort and reds: whole where they are few, else summed."""
    coaches: tuple[str, ...]
    """Who rated, by name."""
    kept: Kept
    copies: tuple[str, ...]
    """Where copies are or may be, a sentence each."""
    commands: tuple[str, ...]
    """For the coach: what prints the rest, and what removes all of it."""


def everything(
    book: Book, who: Player, keep: KeepTime, second_backup: str, today: date
) -> Everything:
    """The facts of this person, of all clinics in the book."""
    known = identity_of(book.db, who)
    held = Held(person_rows(book.db, known.ids, known.names))
    last = last_day(book, known.ids)
    coaches = sorted({held.coach(row["coach_id"]) for row in held.of("round")})
    own_parts = tuple(person_parts(held))
    return Everything(
        player=who.shown_name,
        printed_on=today,
        minor=any(row["age_group"] == MINOR for row in held.of("player")),
        parts=(
            *own_parts,
            *court_parts(held, films_of_person(book, known.ids)),
        ),
        counted=tuple(counted(held)),
        left_out=REASONS,
        health=tuple(health(held, own_parts)),
        coaches=tuple(coaches),
        kept=Kept(keep.months, last, keep.until(last), keep.is_over(last, today)),
        copies=tuple(_copies(book, held, second_backup, coaches)),
        commands=tuple(commands(held, who.shown_name)),
    )


def _copies(book: Book, held: Held, second_backup: str, coaches: Sequence[str]) -> list[str]:
    said = ["The book itself is one file on the coach's laptop."]
    beside = len(backups.backup_paths(backups.folder_of(book.path)))
    if beside:
        said.append(f"It has {many(beside, 'backup')} beside it. Only the last few are kept.")
    if second_backup:
        said.append("Backups are copied to a second place too.")
    if held.rows.books > 1:
        said.append(
            f"These lines were written in {held.rows.books} books, joined or copied."
            " Each of those laptops may still have its own."
        )
    ask = f" Ask who coached: {listed(coaches)}." if coaches else " Ask the coach."
    said.append(
        "The book does not know which pages, sheets and forms were printed, which exports were"
        f" written, or who copied its file.{ask}"
    )
    return said
