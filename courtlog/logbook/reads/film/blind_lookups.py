"""Look-ups of blind pages: which ball stands under which number, and how it was rated there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from courtlog import times
from courtlog.coaching.game.drills import Cue
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.people import Clinic
from courtlog.errors import CourtlogError, UnknownNameError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.second_rating_lookups import BallToRate
from courtlog.names import folded_name
from courtlog.plain_text import listed


@dataclass(frozen=True, slots=True, kw_only=True)
class BlindPage:
    """A page that plays balls of two days in shuffled order."""

    id: int
    """The page's id in the book."""
    player_id: int
    """Whose balls it plays."""
    stroke: str
    """The stroke's key."""
    cues: tuple[str, ...]
    """The cues to rate, in the order of the page."""
    code: str
    """Four letters that name the page on paper."""
    numbers: Mapping[int, int]
    """The ball under each number, by its id."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlindReading:
    """One coach's ratings of a blind page."""

    page: BlindPage
    """The page."""
    rater: str
    """Who rated."""
    on: date
    """The date of the first rating."""
    grades: Mapping[int, Mapping[str, Grade | None]]
    """The grade of each cue by ball; a ball with an open cue is not there."""
    clips: int
    """The page's balls that the book still holds."""

    @property
    def is_whole(self) -> bool:
        """Whether all of them are rated."""
        return len(self.grades) == self.clips > 0


def blind_pages(book: Book, clinic_id: int, player_id: int | None = None) -> list[BlindPage]:
    """The clinic's blind pages, oldest first; of one player or of all."""
    rows = book.db.execute(
        "SELECT id, player_id, stroke, cues, code FROM blind_page WHERE clinic_id = :clinic"
        " AND (:player IS NULL OR player_id = :player) ORDER BY id",
        {"clinic": clinic_id, "player": player_id},
    ).fetchall()
    return [
        BlindPage(
            id=page,
            player_id=player,
            stroke=stroke,
            cues=tuple(cues.split()),
            code=code,
            numbers=dict(
                book.db.execute(
                    "SELECT number, ball_id FROM blind_ball WHERE page_id = ? ORDER BY number",
                    [page],
                )
            ),
        )
        for page, player, stroke, cues, code in rows
    ]


def page_to_rate(
    book: Book, clinic_id: int, player_id: int | None = None, code: str | None = None
) -> BlindPage:
    """The page of that code, else the latest one of the player or of the only player with any.

    Raises CourtlogError, which says what to name.
    """
    pages = blind_pages(book, clinic_id, player_id)
    if not pages:
        raise CourtlogError(
            "There is no blind page yet.", "`courtlog film blind NAME` makes one of two yardsticks."
        )
    if code is not None:
        pages = [page for page in pages if folded_name(page.code) == folded_name(code)]
        if not pages:
            raise UnknownNameError(
                f"No blind page is called {code!r}.", "Its four letters stand on top of it."
            )
    elif len({(page.player_id, page.stroke) for page in pages}) > 1:
        codes = listed([page.code for page in pages])
        raise CourtlogError(
            f"There are several blind pages: {codes}.", "Write --page and the one that is meant."
        )
    return pages[-1]


def clips_to_rate(book: Book, clinic: Clinic, page: BlindPage) -> list[BallToRate]:
    """The page's balls in its order, as far as the book still has them, with no word of their day.

    A ball that was struck out stays: whoever rates sees it on the page.
    """
    rows = _rows_of_cues(book, page)
    return [
        BallToRate(
            ball_id=ball,
            at_ms=0,
            has_clip=True,
            day=date.min,
            player="",
            drill="",
            stroke=page.stroke,
            cues=page.cues,
            rows=rows[ball],
            clip=number,
        )
        for number, ball in page.numbers.items()
        if ball in rows
    ]


def blind_readings(book: Book, clinic: Clinic, player_id: int | None = None) -> list[BlindReading]:
    """Each rater's latest whole reading of each player's stroke, else the latest begun."""
    latest: dict[tuple[int, str, str], BlindReading] = {}
    if book.db.execute("SELECT 1 FROM blind_sitting LIMIT 1").fetchone() is None:
        return []
    for page in blind_pages(book, clinic.id, player_id):
        rows = _rows_of_cues(book, page)
        for sitting, coach, rater in book.db.execute(
            "SELECT sitting, coach_id, name FROM blind_sitting JOIN coach ON coach.id = coach_id"
            " WHERE page_id = ? ORDER BY name, sitting",
            [page.id],
        ).fetchall():
            reading = _reading(book, clinic, page, rows, coach, rater, sitting)
            key = page.player_id, page.stroke, rater
            if key not in latest or reading.is_whole or not latest[key].is_whole:
                latest[key] = reading
    return list(latest.values())


def cues_of_ball(book: Book, ball_id: int) -> tuple[Cue, ...]:
    """The cues of the ball's stroke with what their grades look like, as its drill had them."""
    (card,) = book.db.execute(
        "SELECT card FROM ball JOIN round ON round.id = round_id"
        " JOIN drill_used ON drill_used.id = drill_id WHERE ball.id = ?",
        [ball_id],
    ).fetchone()
    return lookups.used_drill(card).cues


def coaches_on_court(book: Book, page: BlindPage) -> tuple[str, ...]:
    """Who rated the page's balls when they were hit, by name."""
    rows = book.db.execute(
        "SELECT DISTINCT coach.name FROM blind_ball JOIN ball ON ball.id = ball_id"
        " JOIN round ON round.id = round_id JOIN coach ON coach.id = round.coach_id"
        " WHERE page_id = ? ORDER BY coach.name",
        [page.id],
    )
    return tuple(name for (name,) in rows)


def _reading(
    book: Book,
    clinic: Clinic,
    page: BlindPage,
    rows: Mapping[int, tuple[int, ...]],
    coach: int,
    rater: str,
    sitting: int,
) -> BlindReading:
    given: dict[int, dict[int, Grade | None]] = {}
    begun = None
    for ball, row, grade, at in book.db.execute(
        "SELECT second_rating.ball_id, row, grade, second_rating.at FROM blind_ball"
        " JOIN second_rating USING (ball_id)"
        " WHERE page_id = ? AND coach_id = ? AND sitting = ? ORDER BY second_rating.at DESC",
        [page.id, coach, sitting],
    ):
        given.setdefault(ball, {})[row] = None if grade is None else Grade(grade)
        begun = at
    grades = {
        ball: {cue: given[ball][row] for cue, row in zip(page.cues, of_cues, strict=True)}
        for ball, of_cues in rows.items()
        if ball in given and all(row in given[ball] for row in of_cues)
    }
    return BlindReading(
        page=page,
        rater=rater,
        on=times.local_date(begun or 0, clinic.place),
        grades=grades,
        clips=len(rows),
    )


def _rows_of_cues(book: Book, page: BlindPage) -> dict[int, tuple[int, ...]]:
    """The row of each cue of the page, by ball; balls are left out whose round has them no more."""
    found: dict[int, dict[str, int]] = {}
    for ball, cue, row in book.db.execute(
        "SELECT ball_id, cue, row FROM blind_ball JOIN ball ON ball.id = ball_id"
        " JOIN round_cue USING (round_id) WHERE page_id = ? ORDER BY blind_ball.number",
        [page.id],
    ):
        found.setdefault(ball, {})[cue] = row
    return {
        ball: tuple(rows[cue] for cue in page.cues)
        for ball, rows in found.items()
        if all(cue in rows for cue in page.cues)
    }
