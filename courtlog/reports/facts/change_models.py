"""What changed, as it is printed and given as JSON; models only."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching.answers.cue_rounds import CueRound
from courtlog.coaching.voice.statement import Statement
from courtlog.measures.common.enough import Words


@dataclass(frozen=True, kw_only=True)
class ChangeFacts:
    """Later against earlier on shared kinds of ball."""

    late: str
    """When the later balls were hit, in words."""
    late_on: date | None
    """Their date; None where both sides are of the same days."""
    late_made: int
    """Balls made of them."""
    late_seen: int
    """Balls seen of them."""
    early: str
    """When the earlier balls were hit, in words."""
    early_made: int
    """Balls made of them."""
    early_seen: int
    """Balls seen of them."""
    change: float | None
    """Later minus earlier share; None where no kind is shared."""
    low: float | None
    """The lower end of its interval."""
    high: float | None
    """The upper end of its interval."""
    method: str | None
    """How the interval was made."""
    share_used: float | None
    """The shared balls' part of all balls."""
    unequal_by: str
    """By what the change is not the same: drill or kind of ball; empty where none shows."""
    verdict: str
    """The verdict in words."""
    direction: int
    """1 for better, -1 for worse, 0 where these balls cannot tell or the cue is in doubt."""
    sentence: str
    """Its figures in one line, with the verdict."""

    @property
    def clear(self) -> bool:
        """Whether it was chosen beforehand and is sure, for better or worse."""
        return self.verdict in (Words.CLEARLY_UP, Words.CLEARLY_DOWN)


@dataclass(frozen=True, kw_only=True)
class CurveFacts:
    """The skill curve ball by ball: its 5, 50 and 95 % points, and the balls that began a day."""

    low: tuple[float, ...]
    median: tuple[float, ...]
    high: tuple[float, ...]
    mornings: tuple[int, ...]


@dataclass(frozen=True, kw_only=True)
class YardstickBalls:
    """A cue's balls of one date's yardstick rounds in order: a sheet's digits, `-` not seen."""

    date: date
    balls: str


@dataclass(frozen=True, kw_only=True)
class CueSaid:
    """What is said of a cue, each at its three depths; empty where there is nothing to say."""

    change: Statement
    """The latest uncoached balls against the first yardstick."""
    practice: Statement
    """The latest day's practice against the first day's."""
    overnight: Statement
    """The latest morning against the evening before."""
    tough: Statement
    """Tough balls against usual ones."""
    trend: Statement
    """Uncoached rounds day by day."""


@dataclass(frozen=True, kw_only=True)
class CueChange:
    """One cue: what changed, learning first."""

    cue: str
    """The cue's key."""
    name: str
    """The cue's name."""
    made: int
    """Balls made in the whole clinic."""
    seen: int
    """Balls seen in the whole clinic."""
    unseen: int
    """Balls of the whole clinic on which the cue was watched and not seen."""
    share: str
    """The share in words."""
    not_seen: str
    """The sentence on balls not seen where they leave the share open; else empty."""
    rounds: tuple[CueRound, ...]
    """Every round of the stroke, oldest first, with balls made and seen on this cue."""
    start_on: date | None
    """The date of the first yardstick; None without one."""
    learning: ChangeFacts | None
    """The latest yardstick against the first one."""
    hold: ChangeFacts | None
    """The latest morning round against the first yardstick."""
    practice: ChangeFacts | None
    """The latest day's practice against the first day's."""
    overnight: ChangeFacts | None
    """The latest morning against the evening before."""
    tough: ChangeFacts | None
    """Tough balls against usual ones."""
    learned: str
    """The headline's sentence."""
    more: tuple[str, ...]
    """Sentences on practice, the night and tough balls."""
    trend: str
    """The sentence on uncoached rounds day by day."""
    trend_direction: int
    """1 where it may rise, -1 where it may fall, 0 where these balls cannot tell."""
    curve: CurveFacts | None
    """The skill curve; None with too few balls, or where it was not asked for."""
    curve_words: str
    """The curve's sentence; empty where no curve was asked for."""
    plain_name: str
    """The cue's name for whoever was not there."""
    said: CueSaid
    """What is said of it."""
    yardsticks: tuple[YardstickBalls, ...]
    """The balls of the first yardstick, and of the latest one if there is a later."""

    @property
    def headline(self) -> ChangeFacts | None:
        """What `said.change` rests on: the yardstick, else the morning; None without either."""
        alike = (part for part in (self.learning, self.hold) if part and part.change is not None)
        return next(alike, None)


@dataclass(frozen=True, kw_only=True)
class ShareFacts:
    """Agreement beyond luck with its interval: 1 is full agreement, 0 what luck gives."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, kw_only=True)
class BlindCue:
    """A cue as it was rated by somebody who did not know the day of any clip."""

    cue: str
    """The cue's key."""
    name: str
    """The cue's name."""
    said: Statement
    """The change by the blind grades."""
    change: ChangeFacts | None
    """The same in figures; None where nothing can be compared."""
    coach_said: Statement
    """The change by the grades given on court to the same clips."""
    coach_change: ChangeFacts | None
    """The same in figures."""
    in_doubt: bool
    """Whether the coach's own grades bear no verdict, since balls were rated two ways."""
    alike: int
    """Clips with the same grade both times."""
    seen_by_both: int
    """Clips on which the cue was seen both times."""
    weighted: ShareFacts | None
    """Weighted kappa between the two; None with too few clips."""
    ac2: ShareFacts | None
    """AC2 between the two."""
    alike_said: Statement
    """How alike they are."""


@dataclass(frozen=True, kw_only=True)
class BlindReadingFacts:
    """One rater's blind ratings of a player's stroke."""

    player: str
    """The player's name."""
    stroke: str
    """The stroke's key."""
    title: str
    """The stroke's name."""
    page: str
    """The four letters of the page."""
    rater: str
    """Who rated blind."""
    coaches: tuple[str, ...]
    """Who rated on court."""
    own: bool
    """Whether the rater is among them."""
    clips: int
    """Clips on the page."""
    rated: int
    """Clips rated so far."""
    said: Statement
    """Who rated how many clips."""
    alike_said: Statement
    """How alike the two ratings are over all cues; empty before all clips are rated."""
    cues: tuple[BlindCue, ...]
    """Each cue; none before all clips are rated."""


@dataclass(frozen=True, kw_only=True)
class HomeCueFacts:
    """One cue of a yardstick at home."""

    cue: str
    made: int
    """Balls made of them."""
    seen: int
    """Balls seen at home."""
    said: Statement
    """The cue at home against the court."""
    is_held: bool
    """Whether there is a first yardstick at the court to hold it against."""
    since: Statement
    """The cue against the first sheet of the same watcher; empty without one."""


@dataclass(frozen=True, kw_only=True)
class HomeReadingFacts:
    """A yardstick that somebody else watched at home."""

    on: date
    watcher: str
    """Who watched."""
    said: Statement
    """Whose eye it was."""
    cues: tuple[HomeCueFacts, ...]
    since: Statement
    """Which earlier sheet from home it is held against; empty without any."""


@dataclass(frozen=True, kw_only=True)
class StrokeChange:
    """One stroke of a player."""

    stroke: str
    title: str
    cues: tuple[CueChange, ...]
    together: str
    """The figures on the cue that two others go with; empty where none is clear."""
    good: Statement
    """The good thing of the stroke's last day."""
    one_thing: Statement
    """The one thing to work on, by that day."""
    say: str
    """What to say for the one thing; empty without one."""
    whole: Statement
    """All cues on the same ball, then and now."""
    leads: Statement
    """The cue that two others go with."""
    blind: tuple[BlindReadingFacts, ...] = ()
    """The stroke as rated by people who did not know the day."""
    home: tuple[HomeReadingFacts, ...] = ()
    """Yardsticks that somebody else watched at home."""
    main: str = ""
    """The key of the main cue; empty where none is named."""
