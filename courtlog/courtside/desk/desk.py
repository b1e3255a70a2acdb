"""The coach's desk at one open book: a desk for each part of the work, all on one state."""

from __future__ import annotations

import operator
from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.coaching.on_court.next_act import NextAct
from courtlog.courtside.desk.ball_desk import BallDesk
from courtlog.courtside.desk.care_desk import CareDesk
from courtlog.courtside.desk.clinic_desk import ClinicDesk
from courtlog.courtside.desk.court_state import Clock, CourtState
from courtlog.courtside.desk.idle_time import IdleTime
from courtlog.courtside.desk.next_round import what_next
from courtlog.courtside.desk.people_desk import PeopleDesk
from courtlog.courtside.desk.rotation_desk import RotationDesk
from courtlog.courtside.desk.round_desk import RoundDesk
from courtlog.courtside.desk.view import CourtView
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.settings import Settings

if TYPE_CHECKING:
    from courtlog.courtside.desk.amend_desk import AmendDesk
    from courtlog.courtside.desk.feeds_desk import FeedsDesk


class Desk:
    """Takes what the coach asks for, writes it to the book, and only then shows it."""

    def __init__(
        self, book: Book, library: Callable[[], Library], settings: Settings, clock: Clock
    ) -> None:
        self.book = book
        self.state = CourtState(book, library, settings, clock)
        idle = IdleTime(self.state)
        self.rotation = RotationDesk(self.state)
        self.balls = BallDesk(self.state, idle, self.rotation)
        self.rounds = RoundDesk(self.state, idle, self.rotation, self.balls)
        self.clinic = ClinicDesk(self.state, idle, self.balls, self.rounds)
        self.care = CareDesk(self.state, self.rotation)
        self.people = PeopleDesk(self.state, self.rotation)
        self._act_read: tuple[tuple[object, ...], NextAct | None] = (), None

    def amendments(self) -> AmendDesk:
        """The desk for putting right; loaded when it is first asked for, to start fast."""
        # Few rounds are put right: what it needs of the logbook would slow every start.
        from courtlog.courtside.desk.amend_desk import AmendDesk

        return AmendDesk(self.state, self.rotation)

    @property
    def feeds(self) -> FeedsDesk:
        """The desk of the feeds; loaded when it is first asked for, to start fast."""
        # The first ball needs neither it nor its part of the logbook.
        from courtlog.courtside.desk.feeds_desk import FeedsDesk

        return FeedsDesk(self.state, self.rounds)

    def read_next_act(self) -> None:
        """Show what comes next where the court stands still; the book is read only then."""
        view = self.state.view
        if self.state.open_round is not None:
            self.state.ended_day = None
        if not (view.act_keys and view.stands_still):
            if view.next_act is not None:
                self.state.view = replace(view, next_act=None)
            return
        rests_on: tuple[object, ...] = (
            *_what_counts(view.live),
            view.rotation,
            view.day,
            view.paused_at,
            view.basket.empty,
            view.pad,
            self.state.ended_day,
        )
        before, act = self._act_read
        if len(before) != len(rests_on) or not all(map(operator.is_, before, rests_on)):
            act = what_next(self.state)
            self._act_read = rests_on, act
        if view.next_act is not act:
            self.state.view = replace(view, next_act=act)

    @property
    def view(self) -> CourtView:
        """The view that is shown now."""
        return self.state.view

    @property
    def clock(self) -> Clock:
        """The clock in use."""
        return self.state.clock

    @property
    def settings(self) -> Settings:
        """The settings in use."""
        return self.state.settings


def _what_counts(live: LiveRound | None) -> tuple[object, ...]:
    """What the next act rests on in a round: while it is open, no grade of the ball in hand."""
    if live is None or live.ended_at is not None:
        return (live,)
    of_round = live.id, live.player, live.purpose, live.drill, live.plan_balls
    return (*of_round, live.feeding.taken, live.feeding.feeds)
