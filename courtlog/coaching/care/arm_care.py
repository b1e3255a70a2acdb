"""Cautions from what players say of their arms. It records and defers; it clears nobody to play.

The limits of 2 and 5 are those of the pain-monitoring model (see PAIN_MODEL). It was tested in
Achilles tendons under a physiotherapist, not in elbows and not in children; others draw the line
at 3. All other warnings are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from courtlog.coaching.game.clinic_record import CheckIn, CheckInMoment
from courtlog.names import folded_name

PAIN_MODEL = (
    "pain-monitoring model: Thomee 1997, Phys Ther 77:1690-1703; Silbernagel and others 2007,"
    " Am J Sports Med 35:897-906"
)
USUAL = "usual caution"
DEFER = "Stop and ask a licensed clinician; follow your club's and national body's rule."
STOP = "Stop this drill today; see a clinician before more."
LIMITS = (
    "The pain limits were tested in Achilles tendons under a physiotherapist, not in elbows and"
    " not in children. Other people may need lower limits."
)

BEFORE_COURT = f"{STOP} {DEFER} {LIMITS} courtlog records; you decide."
"""The words to read before a player whom a red keeps off the feed goes on court all the same."""

AMBER_ABOVE, RED_ABOVE = 2, 5
"""Pain 0-10 above which a caution is shown; see PAIN_MODEL."""

RISE = 2
"""Points of 10 that are worth noticing (Farrar and others 2001, Pain 94:149-158; from memory)."""

PLACES = (
    *("elbow", "shoulder", "wrist", "forearm", "upper arm", "hand"),
    *("back", "knee", "hip", "ankle", "thigh", "calf"),
)
NO_JOINT = frozenset({"forearm", "upper arm", "thigh", "calf"})
"""Places that are not joints. Any other place, named or not, counts as a joint."""


class CautionLevel(StrEnum):
    """How serious a caution is; `shape` and `letter` tell it without colour."""

    AMBER = "amber"
    RED = "red"

    @property
    def shape(self) -> str:
        """`▲` or `■`."""
        return "▲" if self is CautionLevel.AMBER else "■"

    @property
    def letter(self) -> str:
        """The same where signs cannot be shown: `!` or `X`."""
        return "!" if self is CautionLevel.AMBER else "X"

    def mark(self, letters: bool) -> str:
        """`■ RED`, or in letters `X RED`."""
        return f"{self.letter if letters else self.shape} {self.upper()}"


@dataclass(frozen=True, slots=True)
class DatedCheckIn:
    """A check-in and the date it belongs to."""

    date: date
    check_in: CheckIn


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution; `place` is the index of its check-in among those looked at."""

    level: CautionLevel
    place: int
    reason: str
    source: str

    @property
    def headline(self) -> str:
        """`Red: pain elbow 6, more than 5.`"""
        return f"{self.level.capitalize()}: {self.reason}."

    @property
    def sentence(self) -> str:
        """The whole caution: what was said, what is usual, and who decides."""
        usual = STOP if self.level is CautionLevel.RED else f"A {USUAL}: if it hurts, stop."
        return f"{self.headline} {usual} {DEFER} ({self.source})"


def cautions(check_ins: Sequence[DatedCheckIn], minor: bool) -> tuple[Caution, ...]:
    """The cautions of one player's check-ins, which stand in order of dates, in that order."""
    return tuple(
        Caution(level, place, reason, source)
        for place in range(len(check_ins))
        for level, reason, source in _of(check_ins, place, minor)
    )


def standing_amber(check_ins: Sequence[DatedCheckIn], minor: bool) -> Caution | None:
    """The amber that stands after these check-ins, in order of dates; None without one.

    The last day on which the arm was asked about counts. What was said of a place stands until that
    place is asked about again, or until somebody says no pain without naming a place. A red has
    rules of its own.
    """
    asked = [place for place, said in enumerate(check_ins) if _tells_of_arm(said.check_in)]
    if not asked:
        return None
    raised = cautions(check_ins, minor)
    standing: dict[str, list[Caution]] = {}
    for place in asked:
        said = check_ins[place]
        if said.date != check_ins[asked[-1]].date:
            continue
        if not said.check_in.place and not said.check_in.pain:
            standing.clear()
        where = folded_name(said.check_in.place)
        standing[where] = [caution for caution in raised if caution.place == place]
    ambers = [theirs[0] for theirs in standing.values() if loudest(theirs) is CautionLevel.AMBER]
    return max(ambers, key=lambda caution: caution.place, default=None)


def _tells_of_arm(check_in: CheckIn) -> bool:
    return check_in.pain is not None or bool(check_in.signs)


def caution_lines(raised: Sequence[Caution]) -> tuple[str, ...]:
    """The cautions of one check-in as paragraphs: each reason and its source, then what is usual.

    Empty without any.
    """
    top = loudest(raised)
    if top is None:
        return ()
    reasons = tuple(f"{c.headline} ({c.source})" for c in raised)
    usual = STOP if top is CautionLevel.RED else f"A {USUAL}: if it hurts, stop."
    return (*reasons, f"{usual} {DEFER}", LIMITS)


def first_moment(check_ins: Sequence[DatedCheckIn], today: date) -> CheckInMoment:
    """The moment to ask about first, after what was asked of this player already.

    A new day after an earlier one begins with the morning, the first day with arrival.
    """
    today_asked = {s.check_in.moment for s in check_ins if s.date == today} - {None}
    if today_asked & {CheckInMoment.BREAK, CheckInMoment.END}:
        return CheckInMoment.END
    if today_asked:
        return CheckInMoment.BREAK
    earlier = any(s.date < today for s in check_ins)
    return CheckInMoment.MORNING if earlier else CheckInMoment.ARRIVAL


def loudest(raised: Sequence[Caution]) -> CautionLevel | None:
    """The loudest level among these; None without any."""
    levels = {caution.level for caution in raised}
    return (
        CautionLevel.RED if CautionLevel.RED in levels else CautionLevel.AMBER if levels else None
    )


_Found = Iterator[tuple[CautionLevel, str, str]]


def _of(check_ins: Sequence[DatedCheckIn], place: int, minor: bool) -> _Found:
    check_in = check_ins[place].check_in
    for sign in check_in.signs:
        yield CautionLevel.RED, sign.words, f"{USUAL}; common practice, no source"
    if not check_in.pain:
        return
    pain = " ".join(f"pain {check_in.place} {check_in.pain}".split())
    if check_in.pain > RED_ABOVE:
        yield CautionLevel.RED, f"{pain}, more than {RED_ABOVE}", PAIN_MODEL
    elif check_in.pain > AMBER_ABOVE:
        yield CautionLevel.AMBER, f"{pain}, more than {AMBER_ABOVE}", PAIN_MODEL
    if minor and folded_name(check_in.place) not in NO_JOINT:
        where = "a joint" if check_in.place else "a place not named, so taken for a joint"
        reason = f"{pain}, in {where} of a growing player"
        yield CautionLevel.RED, reason, f"{USUAL}; common practice, no source"
    yield from _rises(check_ins, place, pain)


def _rises(check_ins: Sequence[DatedCheckIn], place: int, pain: str) -> _Found:
    now = check_ins[place]
    if now.check_in.moment is CheckInMoment.MORNING:
        before = _compared(_morning_before(check_ins, now.date), now.check_in)
        if before is not None and (now.check_in.pain or 0) > before:
            yield (
                CautionLevel.AMBER,
                f"{pain} in the morning, {before} the morning before",
                PAIN_MODEL,
            )
    elif now.check_in.moment is not CheckInMoment.ARRIVAL:
        before = _compared(_began(check_ins, now.date), now.check_in)
        if before is not None and (now.check_in.pain or 0) - before >= RISE:
            reason = f"{pain}, {before} at arrival: a rise of {RISE} or more"
            yield (
                CautionLevel.AMBER,
                reason,
                f"{USUAL}; change worth noticing: Farrar and others 2001",
            )


def _began(check_ins: Sequence[DatedCheckIn], day: date) -> list[CheckIn]:
    """What was said at arrival on a date; where nobody asked then, in the morning."""
    return _first_of(check_ins, day, CheckInMoment.ARRIVAL, CheckInMoment.MORNING)


def _morning_before(check_ins: Sequence[DatedCheckIn], today: date) -> list[CheckIn]:
    """What was said on the morning of the latest earlier day that began with a question."""
    for day in sorted({s.date for s in check_ins if s.date < today}, reverse=True):
        at_start = _first_of(check_ins, day, CheckInMoment.MORNING, CheckInMoment.ARRIVAL)
        if at_start:
            return at_start
    return []


def _first_of(
    check_ins: Sequence[DatedCheckIn], day: date, *moments: CheckInMoment
) -> list[CheckIn]:
    on_day = [s.check_in for s in check_ins if s.date == day and s.check_in.pain is not None]
    by_moment = ([c for c in on_day if c.moment is moment] for moment in moments)
    return next(filter(None, by_moment), [])


def _compared(earlier: Sequence[CheckIn], now: CheckIn) -> int | None:
    """The earlier pain to hold this against: of the same place where it was named, else the least.

    None when nobody asked. The least is the cautious reading: the rise can only look larger.
    """
    same = [c.pain for c in earlier if c.pain is not None and c.place == now.place]
    known = same or [c.pain for c in earlier if c.pain is not None]
    return min(known, default=None)
