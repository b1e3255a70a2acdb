"""The sentences about a pair: which two balls, by which rule, and why there is none."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from courtlog import times
from courtlog.coaching.answers.pair_choice import PairChoice
from courtlog.logbook.reads.film.round_balls import RoundBall
from courtlog.plain_text import listed
from courtlog.reports.facts.change_models import ChangeFacts


class WhyNone(NamedTuple):
    """Why there is no pair, and what to do."""

    sentence: str
    next_step: str


def day(on: date) -> str:
    """`Monday 11 May`."""
    return f"{times.weekday_word(on)} {times.day_month_words(on)}"


def what(ball: RoundBall) -> str:
    """`Racquet feed · deep right · ball 7 of 20 · tough`."""
    parts = [ball.drill, ball.spot_words, f"ball {ball.number} of {ball.of}", "tough" * ball.tough]
    return " · ".join(part for part in parts if part)


def caption(cue: str, change: ChangeFacts | None) -> str:
    """`spacing: 6 of 19 then, 16 of 19 now`; the name alone where nothing is compared."""
    if change is None:
        return cue
    then = f"{change.early_made} of {change.early_seen} then"
    return f"{cue}: {then}, {change.late_made} of {change.late_seen} now"


def rule(choice: PairChoice) -> str:
    """How the two balls were chosen."""
    sides = {"then": choice.then, "now": choice.now}
    by_hand = [name for name, side in sides.items() if side.by_hand]
    if len(by_hand) == len(sides):
        return "Both balls were chosen by hand."
    if by_hand:
        (name,) = (name for name in sides if name not in by_hand)
        counts = f"{sides[name].of}"
        first = f"The ball {by_hand[0]} was chosen by hand."
        shown = f"The ball {name} is its day's middle one"
    else:
        first = ""
        counts = f"{choice.then.of} then, {choice.now.of} now"
        shown = "Shown is each day's middle ball"
    lower = any(side.of % 2 == 0 for side in sides.values() if not side.by_hand)
    sentences = [first, f"{shown}{', of two the lower,' * lower} by grade, then time: of {counts}."]
    far = [name for name, side in sides.items() if not (side.is_middle or side.by_hand)]
    if far:
        sentences.append(
            f"The middle ball {listed(far)} was not filmed or was fed another way:"
            " the nearest of its grade is shown."
        )
    return " ".join(filter(None, sentences))


def no_second_yardstick(cue: str) -> str:
    """For a cue without two yardsticks that can be compared."""
    return f"There is no pair for {cue} yet: it needs a yardstick of the same drill on two days."


def no_yardsticks(player: str) -> WhyNone:
    """For a player without two yardsticks on any cue."""
    return WhyNone(
        f"{player} has no yardstick on two days to hold side by side.",
        "Rate one before the teaching, and the same drill again on the last day.",
    )


def from_a_sheet(on: date) -> WhyNone:
    """For a day whose balls were all typed in."""
    return WhyNone(
        f"The balls of {day(on)} came from a sheet, so nobody knows when they were hit.",
        "Only balls rated on court are found in a film.",
    )


def not_on_film(on: date) -> WhyNone:
    """For a day that no film shows."""
    return WhyNone(
        f"No film that the book knows shows the yardstick of {day(on)}.",
        "`courtlog film add FILE` takes one in.",
    )


def no_like_balls() -> WhyNone:
    """For two days without a ball of one kind."""
    return WhyNone(
        "The two days share no ball of the same drill and spot, both usual or both tough.",
        "Feed the same drill to the same spots on both days.",
    )


def middle_not_on_film() -> WhyNone:
    """For a day on which no ball of the middle one's grade was filmed."""
    return WhyNone(
        "No two balls of each day's middle grade are on film and fed alike.",
        "Choose two with --then and --now.",
    )
