"""Everything the court screen shows, as one value. What is in it is in the book already."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from courtlog.coaching.care.arm_care import CautionLevel
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.people import Clinic, Day, Player
from courtlog.coaching.game.speaking import Advice, Speak
from courtlog.coaching.on_court.live_round import Basket, LiveRound
from courtlog.coaching.plans.clinic_plan import ClinicPlan
from courtlog.coaching.plans.rotation import Court
from courtlog.courtside.desk.keymap import Pad
from courtlog.logbook.reads.rotation_lookups import Standing


@dataclass(frozen=True, slots=True)
class Rotation:
    """Who is where on this court, since when, how the clinic is run, who has a ball limit."""

    court: Court
    standings: Mapping[int, Standing]
    plan: ClinicPlan
    limited: frozenset[int] = frozenset()

    @property
    def waiting(self) -> tuple[Player, ...]:
        """Who hits next, and after that, without the player at the feed."""
        return self.court.waiting

    @property
    def next_up(self) -> Player | None:
        """Who hits next; the same player again when nobody else can."""
        return next(iter(self.court.queue), None)


@dataclass(frozen=True, slots=True)
class CareView:
    """A caution that stands, by player, and the day's last heat reading in few words."""

    levels: Mapping[int, CautionLevel] = field(default_factory=dict)
    heat: str = ""


@dataclass(frozen=True, slots=True)
class CourtView:
    """A moment of the court screen; `trends` holds each cue's counts by date, oldest first.

    `now` is the moment it was last looked at, `paused_at` that of a pause (milliseconds UTC);
    `writing` says that a key was pressed and is not yet stored.
    """

    clinic: Clinic
    day: Day
    pad: Pad
    letters: bool
    live: LiveRound | None
    basket: Basket
    trends: tuple[tuple[Counts, ...], ...]
    roster: tuple[Player, ...]
    rotation: Rotation
    paused_at: int | None
    now: int
    said: str
    read_only: bool = False
    speak: Speak = Speak.PLAN
    care: CareView = CareView()
    writing: bool = False

    @property
    def paused(self) -> bool:
        """Whether the time of the round stands still."""
        return self.paused_at is not None

    @property
    def turn_ms(self) -> int:
        """Milliseconds of the turn at the feed so far, without its pauses."""
        turns = self.rotation.court.turns
        if not turns or turns[-1].started_at is None:
            return 0
        until = self.now if self.paused_at is None else self.paused_at
        return max(0, until - turns[-1].started_at - turns[-1].paused_ms)

    @property
    def ended(self) -> bool:
        """Whether the round on court is over, or none was begun."""
        return self.live is None or self.live.ended_at is not None

    @property
    def advice(self) -> Advice | None:
        """Whether to speak after the ball in hand; None where nothing is to be shown."""
        if self.live is None or self.live.ended_at is not None:
            return None
        return self.live.advice(self.speak_rule)

    @property
    def speak_rule(self) -> Speak:
        """When to speak in the round on court: as chosen for it, else as the settings say."""
        chosen = self.live.feeding.feeds.speak if self.live else None
        return chosen or self.speak
