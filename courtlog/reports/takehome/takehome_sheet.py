"""The table to fill in, in the sheet's own language: read in again, it is compared with day one.

It is a clinic of its own, so that ratings at home never mix with the coach's. The clinic's first
yardstick stands in it already.
"""

from __future__ import annotations

from collections.abc import Iterator

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.homework import HomeYardstick
from courtlog.library.sheet_in import KEYWORDS
from courtlog.library.sheet_words import as_written
from courtlog.reports.takehome.takehome_facts import TakeHome

DATE = "____-__-__"
RATER = "_____"
BALLS_A_LINE = 10


def home_clinic(facts: TakeHome) -> str:
    """The name of the clinic that home rounds are filed under."""
    return f"{facts.clinic} at home ({facts.player})"


def home_sheet(facts: TakeHome, again: HomeYardstick, width: int = 0) -> list[str]:
    """The sheet with blanks; cues are left to the sheet's usual ones only to fit a width."""
    return list(_lines(facts, again, width))


def _lines(facts: TakeHome, again: HomeYardstick, width: int) -> Iterator[str]:
    yield f"clinic {as_written(home_clinic(facts), KEYWORDS['clinic'])}  zone {facts.zone}"
    player = _player_line(facts, again, width)
    if again.on is not None:
        rater = facts.coaches[0] if len(facts.coaches) == 1 else ""
        coach = f"  coach {as_written(rater, KEYWORDS['day'])}" if rater else ""
        yield f"day {again.on.isoformat()}{coach}"
        yield player
        for played in again.first:
            yield from _wrapped([ball.token() for ball in played])
    blank = "_" * len(again.cues)
    for _ in range(1 if again.on is not None else 2):
        yield f"day {DATE}  coach {RATER}"
        yield player
        yield from _wrapped([blank] * again.balls)


def _player_line(facts: TakeHome, again: HomeYardstick, width: int) -> str:
    line = (
        f"player {as_written(facts.player, KEYWORDS['player'])}"
        f"  drill {facts.stroke}/{again.drill.key}  purpose {Purpose.YARDSTICK}"
    )
    keys = tuple(cue.key for cue in again.cues)
    full = f"{line}  cues {' '.join(keys)}"
    return line if keys == facts.first_cues and 0 < width < len(full) else full


def _wrapped(tokens: list[str]) -> Iterator[str]:
    for start in range(0, len(tokens), BALLS_A_LINE):
        yield " ".join(tokens[start : start + BALLS_A_LINE])
