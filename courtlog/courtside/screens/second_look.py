"""Rating balls once more from their clips, blind: where to look, and never what was seen before.

Every key is in the book before it is shown. A session that was left is resumed at its first open
ball.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager

from textual.app import ComposeResult
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog import times
from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.on_court.feeding import CleanBall, Fault, Rate, TakeBall
from courtlog.courtside.desk.keymap import Pad, key_name, meaning_of, pad_of
from courtlog.courtside.dialogs.own_screen import OwnScreen
from courtlog.courtside.surface.lettering import fit, fit_short
from courtlog.courtside.surface.parts import grade_mark
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, second_rating_lookups
from courtlog.logbook.reads.second_rating_lookups import BallToRate
from courtlog.logbook.writes import second_rating_writer
from courtlog.plain_text import many, plain
from courtlog.settings import Settings

FOOT = (
    "Space every open cue made   Enter the open cues not seen",
    "Backspace take back   Ctrl+L blank the screen   Esc leave, go on later",
)


class RatingSession:
    """One coach's way through a list of balls; knows no screen and no first grade."""

    def __init__(
        self,
        book: Book,
        clinic: Clinic,
        coach: str,
        sitting: int,
        balls: Sequence[BallToRate],
        clock: Callable[[], int],
        page: str = "",
    ) -> None:
        """`page` is the code of the blind page that plays the balls; without one a time tells."""
        self.clinic, self.coach, self.balls, self.page = clinic, coach, balls, page
        self._book, self._sitting, self._clock = book, sitting, clock
        self._rated = second_rating_lookups.grades_of_sitting(book, coach, sitting)
        self.names = day_lookups.cue_names(book)
        self.message = ""
        self._last: tuple[BallToRate, dict[int, Grade | None]] | None = None

    def in_book(self) -> AbstractContextManager[None]:
        """Where the book is read and written: a failure of its file becomes a refusal."""
        return self._book.reading()

    @property
    def current(self) -> BallToRate | None:
        """The first ball with an open cue; None when all are rated."""
        return next((ball for ball in self.balls if not self._is_done(ball)), None)

    @property
    def done(self) -> int:
        """Balls with every cue rated, or looked at and not seen."""
        return sum(map(self._is_done, self.balls))

    def grades(self, ball: BallToRate) -> dict[int, Grade | None]:
        """The grades of this session, by the place of their cue."""
        kept = self._rated.get(ball.ball_id, {})
        return {
            place: None if grade is None else Grade(grade)
            for place, row in enumerate(ball.rows)
            for grade in [kept.get(row)]
            if row in kept
        }

    def press(self, pad: Pad, name: str) -> None:
        """Act on a key of the pad, Space, Enter or Backspace; any other does nothing."""
        self.message = ""
        self._last = None
        if name == "backspace":
            self._take_back()
            return
        ball = self.current
        meaning = None if ball is None else meaning_of(pad, len(ball.cues), name)
        if ball is None or meaning is None:
            return
        open_cues = [place for place in range(len(ball.cues)) if place not in self.grades(ball)]
        if isinstance(meaning, Rate):
            self._rate(ball, {meaning.row: meaning.grade})
        elif isinstance(meaning, CleanBall):
            self._rate(ball, dict.fromkeys(open_cues, Grade.MADE))
        elif isinstance(meaning, TakeBall):
            self._rate(ball, dict.fromkeys(open_cues))
        elif isinstance(meaning, Fault):
            self.message = "One fault is for the court: rate each cue here."

    def as_before_repeat(self) -> None:
        """Undo the last key, which was no press of its own."""
        if self._last is None:
            return
        ball, before = self._last
        self._reopen(ball)
        if before:
            self._rate(ball, before)
        self._last = None

    def _rate(self, ball: BallToRate, grades: dict[int, Grade | None]) -> None:
        self._last = ball, self.grades(ball)
        stored = {
            ball.rows[place]: None if grade is None else int(grade)
            for place, grade in grades.items()
        }
        at_ms = self._clock()
        second_rating_writer.rate_ball(
            self._book, self.coach, self._sitting, ball.ball_id, stored, at_ms
        )
        self._rated.setdefault(ball.ball_id, {}).update(stored)

    def _take_back(self) -> None:
        """Open the ball in hand again, or the one before it when nothing was rated on it."""
        ball = self.current
        if ball is None or not self.grades(ball):
            place = len(self.balls) if ball is None else self.balls.index(ball)
            ball = self.balls[place - 1] if place else None
        if ball is None:
            self.message = "There is nothing to take back."
            return
        self._last = ball, self.grades(ball)
        self._reopen(ball)
        self.message = "Taken back: rate this ball again."

    def _reopen(self, ball: BallToRate) -> None:
        rows = [ball.rows[place] for place in self.grades(ball)]
        at_ms = self._clock()
        second_rating_writer.reopen_rows(
            self._book, self.coach, self._sitting, ball.ball_id, rows, at_ms
        )
        self._rated.pop(ball.ball_id, None)

    def _is_done(self, ball: BallToRate) -> bool:
        return len(self.grades(ball)) >= len(ball.cues)


def lines(session: RatingSession, pad: Pad, letters: bool, width: int) -> list[tuple[str, bool]]:
    """What the screen says, and which lines stand out."""
    ball = session.current
    kind = "clip" if session.page else "ball"
    rows = [
        (_head(session), True),
        (f"{session.done} of {many(len(session.balls), kind)} rated", False),
        ("", False),
    ]
    if ball is None:
        rows += [("All are rated. Esc leaves; `courtlog agree` compares.", True)]
    else:
        rows += [
            *((place, True) for place in _places(session, ball)),
            ("", False),
            *_cues(session, ball, pad, letters),
            ("", False),
            ("   ".join(f"{grade_mark(g, letters)} {LOOKS[g].word}" for g in Grade), False),
        ]
    rows += [("", False), (session.message, True), *((line, False) for line in FOOT)]
    return [(fit_short(line, width), bold) for line, bold in rows]


def _head(session: RatingSession) -> str:
    if session.page:
        return f"Rated blind by {plain(session.coach)} · page {plain(session.page)}"
    return f"Rated once more by {plain(session.coach)} · {plain(session.clinic.name)}"


def _places(session: RatingSession, ball: BallToRate) -> tuple[str, ...]:
    """Where the ball is found; of a blind page nothing but its number."""
    if ball.clip is not None:
        last = max(one.clip or 0 for one in session.balls)
        return (f"Clip {ball.clip} of {last}",)
    clock = times.clock_words(ball.at_ms, session.clinic.place)
    return (
        f"clip {clock} · {times.date_words(ball.day)}",
        f"{plain(ball.player)} · {plain(ball.drill)}",
    )


def _cues(
    session: RatingSession, ball: BallToRate, pad: Pad, letters: bool
) -> list[tuple[str, bool]]:
    given = session.grades(ball)
    rows = []
    for row, cue in enumerate(ball.cues):
        keys = "  ".join(
            f"{pad.key_of(row, grade)} {grade_mark(grade, letters)}" for grade in Grade
        )
        name = plain(session.names.get((ball.stroke, cue), cue))
        word = LOOKS[given[row]].word if row in given else "-"
        rows.append((f"{fit(fit_short(name, 14), 15)}{fit(keys, 28)}{word}", row in given))
    return rows


class SecondLookScreen(OwnScreen[None]):
    """The ball in hand, where its clip is, and the keys of its cues."""

    TOPIC = "ratings"
    AUTO_FOCUS = None

    def __init__(
        self, session: RatingSession, settings: Settings, is_held: Callable[[], bool]
    ) -> None:
        """`is_held` tells of the key that comes whether it is not to be carried out."""
        super().__init__()
        self._is_held = is_held
        self._session = session
        self._pad = pad_of(settings)
        self._letters = settings.marks == "letters"

    def compose(self) -> ComposeResult:
        yield Static(id="second-look")

    def on_mount(self) -> None:
        self.show()

    def on_resize(self) -> None:
        self.show()

    def take_key(self, event: Key) -> None:
        if event.key == "escape":
            self.app.exit()
        elif not self._is_held():
            self._session.press(self._pad, key_name(event.key, event.character))

    def in_book(self) -> AbstractContextManager[None]:
        return self._session.in_book()

    def say(self, message: str) -> None:
        self._session.message = plain(message)

    def show(self) -> None:
        rows = lines(self._session, self._pad, self._letters, max(self.size.width - 2, 0))
        self.query_one("#second-look", Static).update(
            Content("\n").join(Content.styled(text, "bold" if bold else "") for text, bold in rows)
        )
