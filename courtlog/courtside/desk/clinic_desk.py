"""The desk of a clinic's beginning and of its days: what a new one needs, and which day is open."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType

from courtlog import times
from courtlog.coaching.game.cards import PlayerCard
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.on_court.next_act import Act
from courtlog.courtside.desk.ball_desk import BallDesk
from courtlog.courtside.desk.court_state import CourtState
from courtlog.courtside.desk.idle_time import IdleTime
from courtlog.courtside.desk.round_desk import RoundDesk
from courtlog.courtside.desk.view import HELP_KEY
from courtlog.logbook.reads import clinic_lookups, lookups
from courtlog.logbook.reads.clinic_lookups import FirstDay
from courtlog.logbook.reads.courts.court_groups import court_book, court_of_day, dealt_on
from courtlog.logbook.writes import clinic_writer
from courtlog.logbook.writes.people_writer import PeopleWriter
from courtlog.logbook.writes.round_writer import RoundWriter
from courtlog.settings import changed

NO_ANSWERS: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUpAnswers:
    """What the first screen was told of a clinic that begins."""

    clinic: str
    """Its name."""
    zone: str
    """The IANA name of its time zone."""
    days: int | None = None
    """How many days it is planned for; None where nobody said."""
    coach: str
    """Who coaches on its first day; may be empty."""
    court: str
    """The court of its first day."""
    players: tuple[PlayerCard, ...]
    """Who joins the roster, in order."""
    stroke: str
    """The stroke to begin with; empty where no drill could be read."""
    pad: str
    """The key of the pad to rate with."""
    typed: Mapping[str, str]
    """What stood in each line, to be shown again when it cannot be stored."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUpQuestions:
    """What the first screen already knows, and the texts its lines begin with."""

    coach: str
    """The coach's name in its line."""
    court: str
    """The court in its line."""
    zone: str
    """The time zone of this laptop; empty where it cannot be told, so that it is asked."""
    pad: str
    """The pad chosen in its line."""
    clinic: Clinic | None = None
    """A clinic without a day yet; None where a new one begins."""
    has_players: bool = False
    """Whether that clinic has players, so that none are asked."""
    has_coach: bool = False
    """Whether its coach is known, so that none is asked."""
    escape: str = "leaves"
    """What Escape does, as the screen says it."""
    pad_key: str = HELP_KEY
    """The key that changes the pad later."""
    asks_pad: bool = True
    """Whether the pad is asked: only where no book was in use."""


class ClinicDesk:
    """Begins clinics and their days."""

    def __init__(
        self, state: CourtState, idle: IdleTime, balls: BallDesk, rounds: RoundDesk
    ) -> None:
        self._state = state
        self._idle = idle
        self._balls = balls
        self._rounds = rounds
        self._rounds_writer = RoundWriter(state.book)
        self._people_writer = PeopleWriter(state.book)

    def has_day(self) -> bool:
        """Whether the book has a day to resume."""
        return lookups.bookmark(self._state.book) is not None

    def day_is_over(self) -> bool:
        """Whether the date has gone on since the day of the book, and no round is open."""
        state = self._state
        later = state.today() > state.view.day.date
        return later and state.view.ended and not state.book.read_only

    def open_last_day(self) -> None:
        """Open the last day of a book that was filled by sheets, and never open at a court."""
        book = self._state.book
        clinics_there = lookups.clinics(book)
        if self.has_day() or not clinics_there or book.read_only:
            return
        days = lookups.days(book, clinics_there[-1].id)
        if days:
            last, at_ms = days[-1], self._state.clock()
            self._rounds_writer.open_day(last.clinic_id, last.date, last.court, last.coach, at_ms)

    def open_court_of_book(self) -> None:
        """Open today on the court whose book this is, if players were dealt to courts today."""
        state = self._state
        book = state.book
        own = court_book(book)
        if own is None or book.read_only:
            return
        dealt = dealt_on(book, state.clock())
        if dealt is None:
            return
        clinic, today = dealt
        court = court_of_day(book, own, clinic, today)
        mark = lookups.bookmark(book)
        now = None if mark is None else lookups.day(book, mark.day_id)
        there = now is not None and now.clinic_id == clinic and now.date == today
        if court is not None and not (there and now is not None and now.court == court):
            coach = state.settings.coach or (now.coach if now is not None else "")
            self._rounds_writer.open_day(clinic, today, court, coach, state.clock())

    def open_day(self, clinic: int, on: date, court: str, coach: str) -> None:
        """Open a day of that clinic, new or begun, with a full basket and no round on court."""
        self._rounds_writer.open_day(clinic, on, court, coach, self._state.clock())
        self._state.resume()

    def begin_day(self, on: date) -> None:
        """Begin the clinic's next day, on the same court with the same coach."""
        state = self._state
        day = state.view.day
        idle = self._idle.subtract()
        self._balls.finish_open_ball()
        own = court_book(state.book)
        court = None if own is None else court_of_day(state.book, own, day.clinic_id, on)
        self.open_day(state.view.clinic.id, on, court or day.court, day.coach)
        key = state.view.key(Act.NEXT_PLAYER)
        state.tell(f"{idle}{state.view.day.words()}: {key} puts the first player on court.")

    def set_up_questions(self, zone: str) -> SetUpQuestions | None:
        """What the first screen need not ask; None where the book can simply be resumed."""
        book, settings = self._state.book, self._state.settings
        mark = lookups.bookmark(book)
        clinic = clinic_lookups.upcoming(book)
        if mark is not None and clinic is None:
            return None
        escape = "leaves"
        if mark is not None:
            escape = f"goes on with {lookups.clinic(book, mark.clinic_id).name}"
        first = clinic_lookups.first_day(book, clinic.id) if clinic else FirstDay()
        return SetUpQuestions(
            coach=first.coach or settings.coach,
            court=first.court or "1",
            zone=clinic.zone if clinic else zone,
            pad=settings.pad,
            clinic=clinic,
            has_players=clinic is not None and bool(lookups.players(book, clinic.id)),
            has_coach=clinic is not None and bool(first.coach or settings.coach),
            escape=escape,
            pad_key=self._state.act_keys.get(Act.CHANGE_PAD, HELP_KEY),
            asks_pad=mark is None,
        )

    def begin(self, answers: SetUpAnswers, questions: SetUpQuestions) -> None:
        """Begin the clinic today, its first player on court if there is a drill."""
        state, at_ms = self._state, self._state.clock()
        with state.book.writing():
            clinic = questions.clinic or clinic_writer.begin_clinic(
                state.book, Clinic(0, answers.clinic, answers.zone, answers.days), FirstDay(), at_ms
            )
            self._people_writer.add_players(clinic.id, answers.players, at_ms)
            today = times.local_date(at_ms, clinic.place)
            self.open_day(clinic.id, today, answers.court, answers.coach)
            self._balls.pick_up(state.settings.basket)
        state.tell("")
        if answers.stroke and state.view.roster:
            ladder = state.library.ladder(answers.stroke)
            self._rounds.start(drill=(ladder, ladder.first_fed))

    def use_pad_and_coach(self, answers: SetUpAnswers) -> bool:
        """Use what the first screen asked about this laptop; whether a setting changed."""
        before = self._state.settings
        after = changed(before, pad=answers.pad, coach=answers.coach or before.coach)
        if after != before:
            self._state.use(after, self._state.view.message)
        return after != before
