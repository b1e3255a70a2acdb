"""What the coach does next wherever the court stands still: one sentence with its key."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import Enum, auto

from courtlog.coaching.game.rounds import Purpose
from courtlog.plain_text import many


class Act(Enum):
    """What a sentence can tell the coach to do; the court knows the key of each."""

    ADD_PLAYER = auto()
    WHO_IS_WHERE = auto()
    NEXT_PLAYER = auto()
    SAME_AGAIN = auto()
    BACK_IN = auto()
    END_ROUND = auto()
    PICK_CUES = auto()
    PICK_CUES_AFTER = auto()
    """The same where the round is over: no ball can be meant by its key."""
    PICK_UP = auto()
    GO_ON = auto()
    CHECK_IN = auto()
    SAY_WHO_IS_BACK = auto()
    CHANGE_PURPOSE = auto()
    CHANGE_PAD = auto()
    SHOW_DAY = auto()
    LEAVE = auto()


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundNow:
    """The round on court, as far as it decides what comes next."""

    player: str
    """Who hits, or hit."""
    purpose: Purpose
    """Why it is played."""
    balls: int
    """Balls taken."""
    planned: int
    """Balls it is planned for."""
    over: bool
    """Whether it has ended."""
    can_go_on: bool = True
    """Whether the player is there and may hit."""
    first_cue: str = ""
    """The cue to teach first, by its name."""
    main_goes_first: bool = False
    """Whether it is first as the main cue that was named, where another was made less often."""
    later_yardstick: bool = False
    """Whether an earlier day has a yardstick already."""
    practised: bool = False
    """Whether the player has practised today."""
    again: Purpose | None = None
    """What the player's next round would be; None where it is not known."""

    @property
    def chosen(self) -> bool:
        """Whether balls were seen to pick cues by."""
        return self.purpose is Purpose.CHOOSING and self.balls > 0

    @property
    def full(self) -> bool:
        """Whether it has the balls it is planned for."""
        return self.balls >= self.planned


@dataclass(frozen=True, slots=True, kw_only=True)
class CourtNow:
    """All that decides what the coach does next."""

    round: RoundNow | None = None
    """The round on court, or the last one; None on a day without one."""
    next_up: str = ""
    """Who hits next, other than the player on court; empty where nobody waits."""
    anybody: bool = True
    """Whether the roster has a player."""
    paused: bool = False
    """Whether the time of the round stands still."""
    basket_empty: bool = False
    """Whether the balls are to be picked up."""
    read_only: bool = False
    """Whether nothing can be stored."""
    plan_played: bool = False
    """Whether a plan was kept for the day, and nobody there has a round of it left."""
    day_ended: bool = False
    """Whether the coach said that the day is over."""
    day: int = 1
    """The day's number in the clinic."""
    planned_days: int | None = None
    """Days the clinic is planned for; None where nobody said."""
    head_picks_cues: bool = False
    """Whether this is an assistant's book, in which no cues are picked."""

    @property
    def last_day(self) -> bool:
        """Whether the clinic's last planned day is on, or past."""
        return self.planned_days is not None and self.day >= self.planned_days

    @property
    def past_the_end(self) -> bool:
        """Whether more days were begun than were planned."""
        return self.planned_days is not None and self.day > self.planned_days


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do: what it is, its words, the same in few, and its key."""

    act: Act
    words: str
    few: str
    key: str

    def __str__(self) -> str:
        return f"{self.words}: {self.key}"


@dataclass(frozen=True, slots=True)
class NextAct:
    """What was reached, and what to do now, the likeliest first."""

    reached: str
    steps: tuple[Step, ...]

    def with_keys(self, keys: Mapping[Act, str]) -> NextAct:
        """The same where some of the steps have other keys."""
        steps = (replace(step, key=keys.get(step.act, step.key)) for step in self.steps)
        return NextAct(self.reached, tuple(steps))

    @property
    def key(self) -> str:
        """The key of the likeliest step."""
        return self.steps[0].key

    @property
    def sentence(self) -> str:
        """`10 balls seen. Pick the cues: Esc c.`"""
        return f"{self.reached} {self.to_do}."

    @property
    def to_do(self) -> str:
        """The steps with their keys."""
        return "; ".join(map(str, self.steps))

    def does(self, act: Act) -> bool:
        """Whether this is one of the steps."""
        return any(step.act is act for step in self.steps)

    @property
    def in_ever_fewer_words(self) -> tuple[str, ...]:
        """The steps, the longest way first; the likeliest key is in each of them."""
        counts = range(len(self.steps), 0, -1)
        fewer = ("; ".join(map(str, self.steps[:count])) for count in counts)
        return tuple(dict.fromkeys((*fewer, *self.few_words, self.key)))

    @property
    def few_words(self) -> tuple[str, ...]:
        """The likeliest step in the words of a large line, the longest first."""
        first = self.steps[0]
        return f"{first.words}: {first.key}", f"{first.few}: {first.key}"


def next_act(now: CourtNow, keys: Mapping[Act, str]) -> NextAct | None:
    """What to do now, with the keys that do it; None while the next ball is to be fed."""
    reached, steps = next(_standstills(now), ("", ()))
    if not steps:
        return None
    return NextAct(reached, tuple(Step(act, words, few, keys[act]) for words, few, act in steps))


def days_are_over(days: int) -> str:
    """That the clinic has had as many days as it was planned for."""
    return f"All {days} planned days are over." if days > 1 else "The one planned day is over."


def next_player_words(name: str) -> str:
    """That this player hits next."""
    return f"{name} next"


ROUND_OVER = "Round over."
"""Said where a round leads to nothing but the next one."""

_Steps = tuple[tuple[str, str, Act], ...]
_Standstill = tuple[str, _Steps]

_WHO = ("See who is where", "Who is here", Act.WHO_IS_WHERE)
_PICK = ("Pick the cues", "Cues", Act.PICK_CUES)
_PICK_AFTER = ("Pick the cues", "Cues", Act.PICK_CUES_AFTER)
_BACK = ("Feed the rest", "Back in", Act.BACK_IN)
_END = ("End the round", "End", Act.END_ROUND)
_DAY = ("Show the day", "Day", Act.SHOW_DAY)
_LEAVE = ("Leave", "Leave", Act.LEAVE)
_FOR_SHEETS = ("Leave for the sheets to take home", "Leave", Act.LEAVE)


def _standstills(now: CourtNow) -> Iterator[_Standstill]:
    """What holds now, the weightiest first; each is said only if none before it holds."""
    played = now.round
    if now.read_only:
        yield "Nothing can be stored here.", (_DAY, _LEAVE)
    if not now.anybody:
        yield "Nobody is on the roster.", (("Add a player", "Add", Act.ADD_PLAYER),)
    if played is not None and not played.over:
        yield from _while_open(now, played)
        return
    if now.day_ended:
        yield "The clinic is over." if now.last_day else "The day is over.", _ended(now)
    if now.past_the_end and (played is None or not played.balls):
        yield days_are_over(now.planned_days or 1), _ended(now)
    if played is not None and played.chosen and played.can_go_on:
        go_on = (*_tab(now), *_again(played))
        yield _seen(played, now), go_on if now.head_picks_cues else (_PICK_AFTER,)
    if now.plan_played:
        over = "The clinic's" if now.last_day else "Today's"
        yield f"{over} plan is played.", (_DAY, *_tab(now))
    if played is None:
        yield from _before_the_first(now)
    else:
        yield from _after_a_round(now, played)
    yield "Nobody is here to hit.", (_WHO,)


def _while_open(now: CourtNow, played: RoundNow) -> Iterator[_Standstill]:
    if not played.can_go_on:
        yield f"{played.player} hits no more.", _tab(now) or (_END,)
    if now.paused:
        yield "Paused.", (("Go on", "Go on", Act.GO_ON),)
    if played.full and played.purpose is Purpose.CHOOSING:
        yield _seen(played, now), (_tab(now) or (_END,)) if now.head_picks_cues else (_PICK,)
    if now.basket_empty:
        yield "The basket is empty.", (("Pick up, then", "Pick up", Act.PICK_UP),)
    if played.full:
        yield f"{many(played.balls, 'ball')}: the round is full.", _tab(now) or (_END,)


def _before_the_first(now: CourtNow) -> Iterator[_Standstill]:
    if now.next_up:
        yield "No round yet.", ((f"{now.next_up} hits first", now.next_up, Act.NEXT_PLAYER),)


def _after_a_round(now: CourtNow, played: RoundNow) -> Iterator[_Standstill]:
    """What a round that is over leads to, by its purpose; the same player only if there."""
    name = played.player
    again = _again(played)
    if not played.can_go_on:
        if now.next_up:
            yield f"{name} hits no more.", _tab(now)
        return
    if not played.balls:
        yield "No ball was hit.", again + _tab(now)
    elif played.purpose is Purpose.YARDSTICK:
        if not played.full:
            missing = f"{played.balls} of {many(played.planned, 'yardstick ball')}."
            instead = f"{str(played.again).capitalize()} instead" if played.again else ""
            other = ((instead, instead, Act.SAME_AGAIN),) if instead else again
            yield missing, (_BACK, *_tab(now), *other)
        elif played.later_yardstick:
            yield "The yardstick is hit again.", _tab(now) + again
        else:
            cue = played.first_cue
            why = ", your main cue" if played.main_goes_first else ""
            teach = ((f"Teach {cue} first{why}", f"Teach {cue}", Act.SAME_AGAIN),)
            yield "Kept as the yardstick.", (teach if cue else again) + _tab(now)
    elif played.purpose is Purpose.HOLD and not played.practised:
        next_: _Steps = again
        if played.again is Purpose.YARDSTICK:
            next_ = (("Yardstick next, no help yet", "Yardstick", Act.SAME_AGAIN),)
        elif played.again is Purpose.PRACTICE:
            next_ = (("Now you may help", "Practice", Act.SAME_AGAIN),)
        yield "The hold is kept.", next_ + _tab(now)
    elif played.purpose is Purpose.HOLD:
        yield "Kept for the morning.", _tab(now) + again
    else:
        yield ROUND_OVER, _tab(now) + again


def _seen(played: RoundNow, now: CourtNow) -> str:
    seen = f"{many(played.balls, 'ball')} seen"
    return f"{seen}; the head coach picks the cues." if now.head_picks_cues else f"{seen}."


def _again(played: RoundNow) -> _Steps:
    return ((f"{played.player} again", played.player, Act.SAME_AGAIN),)


def _tab(now: CourtNow) -> _Steps:
    """The next player, where somebody waits."""
    if not now.next_up:
        return ()
    return ((next_player_words(now.next_up), now.next_up, Act.NEXT_PLAYER),)


def _ended(now: CourtNow) -> _Steps:
    """To leave, for what is handed out of an evening; or to play on where somebody can."""
    return (_FOR_SHEETS if now.last_day else _LEAVE), *_tab(now)
