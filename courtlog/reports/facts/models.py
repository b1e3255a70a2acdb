"""The facts that are printed and given as JSON: cues, days, arms, heat; models only."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching.answers.cue_rounds import CueRound
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.plans.courts_fairness import CourtsFairness
from courtlog.coaching.voice.statement import Statement
from courtlog.reports.facts.change_models import StrokeChange


@dataclass(frozen=True, kw_only=True)
class CueDay:
    """One cue on one date, all drills together."""

    date: date
    """The date."""
    missed: int
    """Balls missed."""
    near: int
    """Balls that came near."""
    made: int
    """Balls made."""
    unseen: int
    """Balls on which the cue was watched and not seen."""
    share: float | None
    """Made of seen, 0 to 1; None without a seen ball."""
    drills: dict[str, int]
    """Seen balls by drill."""
    other_drills: bool
    """Whether they are of other drills, or another mix of them, than the first day's."""
    not_seen: str
    """The sentence on balls not seen where they leave the share open; else empty."""

    @property
    def counts(self) -> Counts:
        """The counts of the cue on that date."""
        return Counts(self.missed, self.near, self.made, self.unseen)


@dataclass(frozen=True, kw_only=True)
class CueFacts:
    """One cue of one stroke across the clinic's dates, oldest first."""

    stroke: str
    title: str
    cue: str
    name: str
    days: tuple[CueDay, ...]

    @property
    def today(self) -> Counts:
        """Counts on the last of the dates."""
        return self.days[-1].counts

    @property
    def before(self) -> int | None:
        """The number, from 1, of the last earlier day with a ball seen; None if none."""
        return next(
            (n for n in range(len(self.days) - 1, 0, -1) if self.days[n - 1].counts.seen), None
        )

    @property
    def first(self) -> int | None:
        """The number, from 1, of the first day with a ball seen; None if none."""
        return next((n for n, day in enumerate(self.days, 1) if day.counts.seen), None)


@dataclass(frozen=True, kw_only=True)
class RoundFacts:
    """One round as played."""

    drill: str
    name: str
    rung: int
    purpose: str
    balls: int
    tough: int
    minutes: float | None


@dataclass(frozen=True, kw_only=True)
class NoteFacts:
    """A note or clip mark, with its drill, ball (none: the whole round) and time of day."""

    drill: str
    ball: int | None
    text: str
    time: str | None


@dataclass(frozen=True, kw_only=True)
class StrokeHits:
    """Balls hit at full speed with one stroke."""

    stroke: str
    title: str
    hits: int


@dataclass(frozen=True, kw_only=True)
class WordFacts:
    """What a clinician said of a red."""

    who: str
    text: str


@dataclass(frozen=True, kw_only=True)
class RedFacts:
    """A red and the clinicians' words beside it."""

    date: date
    reason: str
    words: tuple[WordFacts, ...]


@dataclass(frozen=True, kw_only=True)
class ArmFacts:
    """A player's arm on a day: serves apart from the other strokes; reds of the clinic so far."""

    full_speed: tuple[StrokeHits, ...]
    serves: int
    load: float | None
    week: str
    usual_week: str
    ambers: tuple[str, ...]
    reds: tuple[RedFacts, ...]
    said: Statement
    """The loudest thing said of the arm; empty where nothing was."""
    waits: bool
    """Whether all hitting waits, for a clinician's word or for an answer about the arm."""

    def holds(self, on: date) -> bool:
        """Whether a red of that date, or one without a clinician's word, stands."""
        return any(red.date == on or not red.words for red in self.reds)


@dataclass(frozen=True, kw_only=True)
class HeatFacts:
    """The day's last heat reading: degrees Celsius, per cent, the time of day, its words."""

    celsius: float | None
    humidity: float | None
    wbgt: float | None
    time: str
    words: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class LookFacts:
    """What the coach saw on a stroke: what is good already, the chosen cues, and why these.

    `main` is the name of the cue judged first; empty where the coach named none.
    """

    stroke: str
    title: str
    strengths: str
    cues: tuple[str, ...]
    why: str
    main: str


@dataclass(frozen=True, kw_only=True)
class PlayerDay:
    """One player's day."""

    player: str
    """The name as shown."""
    minor: bool
    """Whether the player is a minor."""
    balls: int
    """Balls hit."""
    tough: int
    """Tough balls of them."""
    minutes: float | None
    """Minutes of play; None where times are not known."""
    rounds: tuple[RoundFacts, ...]
    """The rounds in order."""
    looks: tuple[LookFacts, ...]
    """What the coach saw, by stroke."""
    cues: tuple[CueFacts, ...]
    """Counts of every cue over the dates."""
    notes: tuple[NoteFacts, ...]
    """Notes of the day."""
    clips: tuple[NoteFacts, ...]
    """Clip marks of the day."""
    check_ins: tuple[str, ...]
    """What was said of arm and effort, in words."""
    alone: tuple[str, ...]
    """What was done alone, in words."""
    arm: ArmFacts
    """Load and cautions."""
    changes: tuple[StrokeChange, ...]
    """What changed, by stroke."""
    rung: str
    """The rung call in words; empty without one."""
    ready: bool
    """Whether the player may move up a rung."""
    slipping: tuple[str, ...]
    """Cues that were ready and are missed more."""
    tomorrow: str
    """What comes next, in words."""
    rung_said: Statement
    """The rung call as a statement; empty without one."""
    rung_stroke: str
    """The key of the stroke it is about; empty without one."""
    next_said: Statement
    """The first round of the next day; empty where there is none."""


@dataclass(frozen=True, kw_only=True)
class AbsentPlayer:
    """Somebody on the roster of whom the day has no ball."""

    player: str
    """The name as shown."""
    standing: str
    """The caution on the arm that still stands, red or amber; empty without one."""
    away: bool
    """Whether the coach noted that the player was not there; else nobody knows."""

    @property
    def words(self) -> str:
        """`Zoë with a standing red`, or the name alone."""
        return f"{self.player} with a standing {self.standing}" if self.standing else self.player


@dataclass(frozen=True, kw_only=True)
class DayFacts:
    """One date of a clinic, on all its courts."""

    clinic: str
    """The clinic's name."""
    zone: str
    """Its time zone."""
    dates: tuple[date, ...]
    """The clinic's dates up to this one."""
    date: date
    """The date."""
    number: int
    """The day's number from 1."""
    planned_days: int | None
    """How many days the clinic was planned for; None where nobody said."""
    courts: tuple[str, ...]
    """Courts that were used."""
    coaches: tuple[str, ...]
    """Coaches who rated."""
    players: tuple[PlayerDay, ...]
    """Everyone who was there."""
    absent: tuple[AbsentPlayer, ...]
    """Who stands on the roster and was not there; empty where one player was asked for."""
    fair: tuple[str, ...]
    """How evenly balls and waits went round, a line a court."""
    over_courts: CourtsFairness | None
    """Everybody's balls and time at the feed over all courts; None on a day of one court."""
    crowded: Statement
    """That a court with more players gave each fewer balls; empty where none did."""
    missing: tuple[str, ...]
    """A sentence for each court of which nothing has come."""
    morning: tuple[str, ...]
    """Who begins the next morning, in order."""
    morning_is_planned: bool
    """Whether that order is of a kept plan; else it is fewest balls first."""
    heat: HeatFacts | None
    """The last heat reading; None without one."""


@dataclass(frozen=True, kw_only=True)
class PlayerFacts:
    """The player's answer: every stroke over the clinic's dates."""

    clinic: str
    player: str
    dates: tuple[date, ...]
    changes: tuple[StrokeChange, ...]
    rung_said: Statement
    """The rung call on the stroke of the player's last day; empty without one."""
    rung_stroke: str
    """The key of that stroke; empty without one."""
    arm_said: Statement
    """What is said of the arm after the last day; empty where nothing is."""
    waits: bool
    """Whether all hitting waits for it."""


@dataclass(frozen=True, kw_only=True)
class TrendFacts:
    """One player's cues across all dates of a clinic; `rounds` has each cue's rounds."""

    clinic: str
    player: str
    dates: tuple[date, ...]
    cues: tuple[CueFacts, ...]
    rounds: tuple[tuple[CueRound, ...], ...]
