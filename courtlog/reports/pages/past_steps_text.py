"""Past steps in words: one line a step, the same on paper and on the screen."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from courtlog import times
from courtlog.logbook.writes.past_steps import Change, PastStep
from courtlog.plain_text import many, plain


def step_line(step: PastStep, place: ZoneInfo) -> str:
    """`41  Tue 12 May 09:31:07  Maren  ball 3: 212, was 222  (Ines)`."""
    when = f"{times.date_words(step.day)} {times.clock_words(step.at_ms, place)}"
    return plain(f"{step.number:>6}  {when}  {step.player:<10} {step_words(step)}")


def step_words(step: PastStep) -> str:
    """What the step did, who did it, and whether it was taken back."""
    words = _did(step)
    if step.undoes is not None:
        words = f"took back {step.undoes}: {words}"
    if step.who:
        words += f"  ({step.who})"
    return words + ("  [taken back]" if step.is_undone else "")


def _did(step: PastStep) -> str:
    if step.is_sheet:
        return _sheet(step)
    match step.kind:
        case "ball" | "key":
            return f"{_ball(step)}: {_grades(step.changes[0])}"
        case "strike":
            words = "struck out" if step.changes[0].after == "1" else "put back"
            return f"{_ball(step)} {words}"
        case "move":
            return f"{_balls(step)} moved, {step.player} and {step.other}"
        case "split":
            return f"round of {step.drill} split, {_balls(step)} apart"
        case "join":
            return f"two rounds of {step.drill} joined, {_balls(step)}"
        case "at home":
            return f"yardstick at home: {step.drill}"
        case kind:
            change = next(change for change in step.changes if change.value == kind)
            return f"{kind} {change.after}, was {change.before}"


def _sheet(step: PastStep) -> str:
    """`sheet: 3 rounds, 40 balls in`; what took it back has `40 balls out`."""
    struck = [change.after for change in step.changes if change.value == "struck"]
    changed = sum(change.value == "state" for change in step.changes)
    texts = sum(change.value in ("note", "check-in") for change in step.changes)
    counts = (
        (many(struck.count("0"), "ball") + " in", struck.count("0")),
        (many(struck.count("1"), "ball") + " out", struck.count("1")),
        (many(changed, "ball") + " changed", changed),
        (many(texts, "text"), texts),
    )
    words = [many(step.rounds, "round"), *(word for word, count in counts if count)]
    return f"sheet: {', '.join(words)}"


def _ball(step: PastStep) -> str:
    if step.ball is None:
        return "a ball"
    if step.ball < 0:
        return "a ball struck out" if step.kind != "strike" else "a ball"
    return f"ball {step.ball}"


def _balls(step: PastStep) -> str:
    return many(sum(change.value == "place" for change in step.changes), "ball")


def _grades(change: Change) -> str:
    """`212, was 222`; a ball still open in brackets."""
    return f"{_state(change.after)}, was {_state(change.before)}"


def _state(text: str) -> str:
    grades, _, clip = text.rstrip("?").partition("@")
    words = f"{grades} with a clip mark" if clip else grades
    return f"({words})" if text.endswith("?") else words
