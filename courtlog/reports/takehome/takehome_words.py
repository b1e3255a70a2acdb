"""The sentences on the back of a take-home sheet, shared by its text and its HTML."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from courtlog import times
from courtlog.coaching.answers.drill_mix import other_drills_words
from courtlog.coaching.answers.not_seen import not_seen_words
from courtlog.coaching.care.arm_care import LIMITS, PAIN_MODEL
from courtlog.coaching.game.drills import Cue, Feed
from courtlog.coaching.plans.feeding_at_home import how_fed, who_feeds
from courtlog.coaching.plans.homework import HomeDrill, Homework, HomeYardstick
from courtlog.coaching.voice.figures import LOOK_LUCK
from courtlog.measures.common.enough import Words
from courtlog.plain_text import many, plain
from courtlog.reports.layout import person_lines as minors
from courtlog.reports.layout.signs import OTHER_DRILLS
from courtlog.reports.takehome.takehome_facts import TakeHome

BACK = "The figures"
WELL = "What goes well"
CHANGED = "What changed, and how sure"
COUNTED = "Day by day"
ALONE = "The drills"
WEEKS = "Four weeks"
SAY = "Two ways to say it"
AGAIN = "The same yardstick at home: fill it in, give it to your coach"
CARE = "Take care"

READING = (
    "A yardstick is played without coaching. Points are made balls of a hundred seen, near counts"
    " as not made; in brackets the range the balls leave open (95% or more). The coach who taught"
    " rated."
)
MEANINGS = {
    "cannot tell": "better or worse, the balls do not say",
    Words.TOO_FEW: "nothing is said either way",
    "may be a gain": f"one of many looks, and luck alone makes {LOOK_LUCK} look so",
    "may be a drop": f"one of many looks, and luck alone makes {LOOK_LUCK} look so",
}
CAUTIONS = (
    "Pick up stray balls first; one hitter to a lane; nobody walks behind a swing.",
    "Stop if anything hurts. See a licensed clinician before any more after sudden pain, pain above"
    " 5 of 10, numbness, tingling, swelling, loss of strength or pain at night. This sheet clears"
    " nobody to play.",
    "Juniors: stop before pain, not at it; a joint that hurts is for a licensed clinician.",
    "Heat and lightning: your club's and national body's rules; at first thunder leave the court.",
)
RATING = (
    "Film it from where the coach stood, or have one and the same person watch. Another eye rates"
    " differently, so compare with care."
)
ALIKE = "Same place and balls each time; no cue, no praise in the round."
COUNTS = "Made of seen balls by day, all rounds together"
NO_PERCENT = "under five balls no percentage"
CURVES = (
    "Skill curves: the thick line is the likeliest chance of a made ball, the grey band holds it 9"
    " times in 10, ticks are mornings. All rounds together: a rise can be an easier drill."
)
DOSES = "Balls or swings of each drill in one session"
PEN = "Date ______________   Rated by ______________"
_GRADES = "Each ball, a digit a cue in this order: {cues}. 2 made, 1 near, 0 missed, - not seen."
TYPING = (
    "Fill in date, rater and every ___ (like 212); `courtlog sheet in` reads these lines when"
    " they are typed in."
)


def counts_words(facts: TakeHome) -> str:
    """What the table of counts shows, and what its marks say."""
    first = [
        next(number for number, day in enumerate(cue.days, 1) if day.seen)
        for cue in facts.cues
        if any(cue.other_drills)
    ]
    counts = f"{COUNTS}." if facts.minor else f"{COUNTS}; {NO_PERCENT}."
    return f"{counts} {other_drills_words(OTHER_DRILLS, first)}" if first else counts


def not_seen(facts: TakeHome, days: Sequence[int]) -> Iterator[str]:
    """A line for each cue of which too many balls of these days (0-based) were not seen."""
    for cue in facts.cues:
        words = [(day + 1, not_seen_words(cue.days[day])) for day in days]
        told = "; ".join(f"day {number} {text}" for number, text in words if text)
        if told:
            yield f"{cue.name}: {told}."


def headline(facts: TakeHome) -> str:
    """`Maren · Harbour Week · 11 to 15 May 2026 · Forehand · coach Ines`."""
    parts = [facts.player, facts.clinic, _span(facts.dates), facts.title]
    parts += [f"coach {coach}" for coach in facts.coaches]
    return " · ".join(plain(part) for part in parts if part)


def changed_title(facts: TakeHome) -> str:
    """The title over the counts; a minor's sheet holds nothing against them."""
    return COUNTED if facts.minor else CHANGED


def reading(facts: TakeHome) -> str:
    """How the figures are to be read; nothing on a minor's sheet, which has counts alone."""
    return "" if facts.minor else f"{READING} {meanings(facts)}".strip()


def meanings(facts: TakeHome) -> str:
    """What the words of the verdicts on this page mean."""
    sentences = " ".join(line for cue in facts.cues for line in (cue.learned, cue.practice))
    parts = [f"“{words}”: {meaning}" for words, meaning in MEANINGS.items() if words in sentences]
    return ". ".join(parts) + "." if parts else ""


def drill_head(home: HomeDrill) -> str:
    """`Drop and hit (rung 3, in rounds of 10 balls)`."""
    drill = home.drill
    later = "" if home.from_week == 1 else f", from week {home.from_week}"
    each = many(drill.balls, unit(home))
    return f"{plain(drill.name)} (rung {drill.rung}, rounds of {each}{later})"


def drill_words(home: HomeDrill, short: bool = False) -> str:
    """How it is done and what to watch out for; in short two sentences of how, one of care."""
    drill = home.drill
    if not short:
        return _joined(drill.run, drill.caution)
    return _joined(*drill.run.splitlines()[:2], drill.caution.partition(". ")[0].rstrip(".") + ".")


def unit(home: HomeDrill) -> str:
    """The word for what is counted: balls, or swings where there is no ball."""
    return "swing" if home.drill.feed in (Feed.SHADOW, Feed.FENCE) else "ball"


def dose_words(plan: Homework) -> str:
    """Where the numbers of the weeks come from."""
    start = f"Your usual clinic day had {many(plan.usual, 'ball')} of this stroke"
    half = max(sum(week.balls) for week in plan.weeks) * 2 <= plan.usual
    less = "; a session has at most half" if half else ""
    return (
        f"{start}{less}. Usual practice, not from a study; at most every other day; less"
        " is fine. Stop if anything hurts."
    )


def cautions(facts: TakeHome) -> Iterator[str]:
    """The usual cautions in full."""
    yield from CAUTIONS
    if facts.pain is not None or facts.waits is not None:
        yield f"The line of pain is that of the {PAIN_MODEL}. {LIMITS}"
    if facts.minor:
        yield minors.ON_A_SHEET


def phrases(cue: Cue) -> str:
    """`“chest to the side fence” or “carry the racquet round, two hands”`."""
    return f"“{plain(cue.say_inner)}” or “{plain(cue.say_outer)}”"


def yardstick_words(again: HomeYardstick) -> str:
    """What to repeat, when, and who feeds."""
    balls = f"{plain(again.drill.name)}: {many(again.balls, 'ball')}"
    feeds = who_feeds(again.drill)
    if again.on is None:
        when = "once before week 1 and again after week 4 (none was played at the clinic)"
    else:
        then = sum(map(len, again.first))
        fewer = "" if then == again.balls else f" ({many(then, 'ball')} then)"
        when = f"after week 4, as on {times.date_words(again.on)}{fewer}"
    return f"{balls}, {when}. {feeds} {ALIKE}"


def grades(again: HomeYardstick) -> str:
    """How a ball is written down."""
    return _GRADES.format(cues=", ".join(plain(cue.name) for cue in again.cues))


def set_up(again: HomeYardstick, short: bool = False) -> str:
    """How the yardstick's drill is fed at home; in short where to hit."""
    if short:
        return f"Set up: {', then '.join(again.drill.spots)}."
    return _joined(how_fed(again.drill))


def _joined(*texts: str) -> str:
    return plain(" ".join(" ".join(texts).split()))


def _span(dates: Sequence[date]) -> str:
    if not dates:
        return ""
    last = f"{times.date_words(dates[-1])} {dates[-1].year}"
    return last if len(dates) == 1 else f"{times.date_words(dates[0])} to {last}"
