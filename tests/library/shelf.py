"""What the library's tests share: how often they ask, the shipped drills, a ladder to break."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from hypothesis import HealthCheck, settings

from courtlog import locations
from courtlog.errors import LibraryError
from courtlog.library.drill_files import Library, load
from tests.doses import dose

steady = settings(
    derandomize=True,
    database=None,
    deadline=None,
    max_examples=dose(100, 300),
    suppress_health_check=[HealthCheck.too_slow],
)

CUE = """
[[cue]]
key = "{key}"
name = "{key}"
part = "{part}"
made = "It is there."
near = "It is nearly there."
missed = "It is not there."
say_inner = "feel it"
say_outer = "send it"
"""

DRILL = """
[[drill]]
key = "{key}"
name = "A drill"
rung = {rung}
feed = "{feed}"
spots = ["waist high"]
order = "blocked"
balls = 10
station = "feed"
kit = ["basket"]
run = "Feed. Watch."
look = "Look at the turn."
caution = "Sweep the court."
"""


def head(stroke: str, *first_cues: str) -> str:
    """The first lines of a drill file."""
    cues = ", ".join(f'"{cue}"' for cue in first_cues)
    return (
        f'stroke = "{stroke}"\ntitle = "{stroke.title()}"\nabout = "A ladder."\n'
        f"first_cues = [{cues}]\n"
    )


def ladder(stroke: str = "lob") -> str:
    """A whole and valid drill file of two cues and two rungs."""
    return (
        head(stroke, "turn", "finish")
        + CUE.format(key="turn", part="preparation")
        + CUE.format(key="finish", part="finish")
        + DRILL.format(key="first", rung=1, feed="shadow")
        + DRILL.format(key="second", rung=2, feed="live")
    )


@cache
def shipped() -> Library:
    """The drill library that comes with courtlog."""
    return load([locations.shipped_drills()])


def put(folder: Path, **files: str) -> Path:
    """These texts as drill files (`lob="..."` is lob.toml); returns the folder."""
    folder.mkdir(exist_ok=True)
    for name, text in files.items():
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")
    return folder


def mistakes(error: LibraryError) -> dict[int, str]:
    """The sentence for each line of a sheet that has a mistake; more than one is an error."""
    found = {int(problem.place): problem.sentence for problem in error.problems}
    assert len(found) == len(error.problems), error.problems
    return found
