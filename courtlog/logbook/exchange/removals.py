"""Who would go from this book because another book removed them for good: asked before it is done.

A book that says so may be a player's wish, carried out on another laptop, or somebody's bad joke.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from courtlog.coaching.game.people import Player
from courtlog.errors import CourtlogError
from courtlog.plain_text import listed, many


@dataclass(frozen=True, slots=True)
class PersonToRemove:
    """A person this book knows: balls taken, and the first day of any."""

    player: Player
    balls: int
    since: str | None
    in_notes: bool
    """Whether the name goes from the texts about others too."""

    @property
    def words(self) -> str:
        """`Maren (19 balls, since 2026-05-12)`."""
        since = f", since {self.since}" if self.since else ""
        return f"{self.player.shown_name} ({many(self.balls, 'ball')}{since})"


@dataclass(frozen=True, slots=True, kw_only=True)
class Removal:
    """What joining with a book would take away here."""

    from_book: Path
    people: tuple[PersonToRemove, ...]
    texts: int
    """Texts about others that would lose a name."""
    backup: Path | None
    """The backup that was made before."""

    @property
    def words(self) -> str:
        """What the other book says and what follows from it, in two sentences."""
        names = listed([one.words for one in self.people])
        was = "was" if len(self.people) == 1 else "were"
        texts = f"{many(self.texts, 'text')} would lose a name that was erased"
        if not names:
            return f"By the book {self.from_book} {texts}."
        also = f" {texts}." if self.texts else ""
        return (
            f"The book {self.from_book} says that {names} {was} erased for good. Joined with it,"
            f" this book and its backups lose {'that person' if was == 'was' else 'those people'}"
            f" and everything about them.{also}"
        )


MayRemove = Callable[[Removal], bool]


def refuse_removal(removal: Removal) -> bool:
    """Nobody goes where nobody was asked. Raises CourtlogError."""
    raise CourtlogError(
        removal.words,
        "Nothing was changed. If that is right, give the command again with --yes."
        " `courtlog backup FILE` first keeps a copy that joining does not touch.",
    )


def people_to_remove(
    db: sqlite3.Connection, gone: Sequence[tuple[int, bool]]
) -> tuple[PersonToRemove, ...]:
    """Those of these ids whom this book knows; with each id, whether texts lose the name too."""
    people = {
        player.id: player
        for player in (
            Player(*row) for row in db.execute("SELECT id, name, hand, short_name FROM player")
        )
    }
    return tuple(
        PersonToRemove(people[row], *_balls(db, row), in_notes)
        for row, in_notes in gone
        if row in people
    )


def _balls(db: sqlite3.Connection, player: int) -> tuple[int, str | None]:
    balls, since = db.execute(
        "SELECT count(ball.id), min(day.date) FROM round JOIN day ON day.id = day_id"
        " LEFT JOIN ball ON round_id = round.id AND taken WHERE player_id = ?",
        [player],
    ).fetchone()
    return balls, since
