"""Everything the court screen shows, as one value. What is in it is in the book already."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from courtlog.coaching.answers.cue_rounds import CueRound
from courtlog.coaching.care.arm_care import CautionLevel
from courtlog.coaching.game.people import Clinic, Day, Player
from courtlog.coaching.game.speaking import Advice, Speak
from courtlog.coaching.on_court.live_round import Basket, LiveRound
from courtlog.coaching.on_court.next_act import Act, NextAct
from courtlog.coaching.plans.clinic_plan import ClinicPlan
from courtlog.coaching.plans.rotation import Court
from courtlog.courtside.desk.keymap import Pad
from courtlog.logbook.reads.rotation_lookups import StationNow

HELP_KEY = "?"
"""The key that shows all the others; told where no court has told which."""


@dataclass(frozen=True, slots=True)
class Rotation:
    """Who is where on this court, since when, how the clinic is run, who has a ball limit."""

    court: Court
    standings: Mapping[int, StationNow]
    plan: ClinicPlan
    limited: frozenset[int] = frozenset()
    origins: Mapping[int, str] = field(default_factory=dict)
    """How old it is what is known of the court a player came from, in words."""
    chosen: Player | None = None
    """Whom the coach chose to hit next, before the queue."""

    @property
    def waiting(self) -> tuple[Player, ...]:
        """Who hits next, and after that, without the player at the feed."""
        if self.chosen is None:
            return self.court.waiting
        others = (player for player in self.court.waiting if player.id != self.chosen.id)
        return self.chosen, *others

    @property
    def next_up(self) -> Player | None:
        """Who hits next; the same player again when nobody else can."""
        return self.chosen or next(iter(self.court.queue), None)


@dataclass(frozen=True, slots=True)
class CareView:
    """The caution that holds for each player, and the day's last heat reading in few words."""

    levels: Mapping[int, CautionLevel] = field(default_factory=dict)
    heat: str = ""
    held_back: Mapping[int, str] = field(default_factory=dict)
    """Why a red takes a player off the feed today, by player id."""

    def mark_of(self, player: Player, letters: bool) -> str:
        """`■ RED`, or in letters `X RED`; empty where no caution holds."""
        level = self.levels.get(player.id)
        return level.mark(letters) if level is not None else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CourtView:
    """A moment of the court screen."""

    clinic: Clinic
    """The clinic on court."""
    day: Day
    """Its day that is open."""
    pad: Pad
    """The pad in use."""
    letters: bool
    """Whether grades are shown as letters instead of shapes."""
    live: LiveRound | None
    """The round on court, or the last one while none is open."""
    basket: Basket
    """The balls left, and how many fill it."""
    earlier: tuple[tuple[CueRound, ...], ...]
    """For each cue in view the player's rounds of this drill before this one, oldest first."""
    roster: tuple[Player, ...]
    """The clinic's players, in the coach's order."""
    rotation: Rotation
    """Who is where."""
    paused_at: int | None
    """When the pause began (milliseconds UTC); None while there is none."""
    now: int
    """When the clock was last looked at (milliseconds UTC)."""
    message: str
    """What was said to the coach last."""
    read_only: bool = False
    """Whether nothing can be stored in the book."""
    speak: Speak = Speak.PLAN
    """When to speak, as the settings say."""
    care: CareView = CareView()
    """Cautions and heat."""
    next_act: NextAct | None = None
    """What to do now, where the court stands still; None while the next ball is to be fed."""
    act_keys: Mapping[Act, str] = field(default_factory=dict)
    """The keys of what sentences tell the coach to do; none before a court is shown."""
    far: bool = False
    """Whether the look for two metres is wanted."""
    writing: bool = False
    """Whether a key was pressed that is not stored yet."""
    not_stored: bool = False
    """Whether something could not be stored, and nothing was since."""

    def key(self, act: Act) -> str:
        """The key of an act; behind Esc where the pad has taken its letter."""
        key = self.act_keys.get(act, HELP_KEY)
        return f"Esc {key}" if self.pad.hides(key) else key

    @property
    def court_first(self) -> list[Player]:
        """The roster, whoever is of this court before those of the clinic's other courts."""
        here = {player.id for player in self.rotation.court.roster}
        return sorted(self.roster, key=lambda player: player.id not in here)

    @property
    def paused(self) -> bool:
        """Whether the time of the round stands still."""
        return self.paused_at is not None

    @property
    def turn_ms(self) -> int:
        """Milliseconds of the rotation at the feed so far, without its pauses."""
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
    def stands_still(self) -> bool:
        """Whether something other than the next ball may be what comes next."""
        live, court = self.live, self.rotation.court
        if live is None or live.ended_at is not None or self.paused or self.basket.empty:
            return True
        who = live.player.id
        full = len(live.feeding.taken) >= live.planned
        return full or self.read_only or who in court.away or who in court.off

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


@dataclass(frozen=True, slots=True)
class ClinicNow:
    """The book's file, the clinic on court, and its day there: enough to read it elsewhere."""

    path: Path
    clinic_id: int
    today: date
