"""Which balls typed words ask for: a player, a drill, a cue and a grade by name."""

from __future__ import annotations

from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.errors import UnknownNameError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.film.ball_moments import BallFilter
from courtlog.names import folded_name


def ball_filter(
    book: Book,
    clinic_id: int,
    *,
    player: str | None = None,
    drill: str | None = None,
    court: str | None = None,
    cue: str | None = None,
    grade: str | None = None,
    marked: bool = False,
) -> BallFilter:
    """The filter that these words mean in a clinic. Raises UnknownNameError, which names others."""
    return BallFilter(
        player_id=None if player is None else lookups.player_on_roster(book, clinic_id, player).id,
        drill=None if drill is None else _drill(book, clinic_id, drill),
        court=None if court is None else court_called(book, clinic_id, court),
        cue=None if cue is None else _cue(book, clinic_id, cue),
        grades=() if grade is None else (_grade(grade),),
        marked=marked,
    )


def _drill(book: Book, clinic_id: int, typed: str) -> str:
    """The full name of the drill that is meant by its full name, its key, or its name as shown."""
    cards: list[tuple[str, str]] = book.db.execute(
        "SELECT DISTINCT name, card ->> '$.drill.name' FROM drill_used JOIN round"
        " ON drill_id = drill_used.id JOIN day ON day.id = day_id WHERE clinic_id = ?"
        " ORDER BY name",
        [clinic_id],
    ).fetchall()
    wanted = folded_name(typed)
    fits = {name for name, _ in cards if wanted == name} or {
        name for name, shown in cards if wanted in (name.partition("/")[2], folded_name(shown))
    }
    if len(fits) == 1:
        return fits.pop()
    names = ", ".join(sorted(fits or {name for name, _ in cards})) or "none yet"
    if fits:
        raise UnknownNameError(
            f"More than one drill fits {typed!r}: {names}.", "Write it as it stands here."
        )
    raise UnknownNameError(
        f"No ball was hit at a drill called {typed!r}.", f"The clinic's drills: {names}."
    )


def court_called(book: Book, clinic_id: int, typed: str) -> str:
    """The court that is meant by its name. Raises UnknownNameError, which names the others."""
    rows = book.db.execute(
        "SELECT DISTINCT court FROM day WHERE clinic_id = ? ORDER BY court", [clinic_id]
    )
    courts = [court for (court,) in rows]
    for court in courts:
        if folded_name(court) == folded_name(typed):
            return str(court)
    names = ", ".join(filter(None, courts)) or "none yet"
    raise UnknownNameError(f"No day was on a court called {typed!r}.", f"The clinic's: {names}.")


def _cue(book: Book, clinic_id: int, typed: str) -> str:
    """The key of the cue that is meant by its key; blanks stand for its hyphens."""
    rows = book.db.execute(
        "SELECT DISTINCT cue FROM round_cue JOIN round ON round.id = round_id"
        " JOIN day ON day.id = day_id WHERE clinic_id = ? ORDER BY cue",
        [clinic_id],
    )
    keys = [key for (key,) in rows]
    wanted = folded_name(typed).replace(" ", "-")
    if wanted not in keys:
        names = ", ".join(keys) or "none yet"
        raise UnknownNameError(
            f"No cue called {typed!r} was watched.", f"The clinic's cues: {names}."
        )
    return wanted


def _grade(typed: str) -> Grade | None:
    """The grade of that word; None for not seen."""
    by_word = {look.word: grade for grade, look in LOOKS.items()}
    wanted = folded_name(typed).replace("-", " ")
    if wanted not in by_word:
        raise UnknownNameError(f"{typed!r} is no grade.", f"Write one of: {', '.join(by_word)}.")
    return by_word[wanted]
