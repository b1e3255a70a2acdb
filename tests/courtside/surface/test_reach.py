"""Each state of the far look, read cell by cell: how large its letters and marks are, how thick.

Nothing is taken from the code that draws: a cell is two pixels, and what is inked is measured.
ISO 9241-303 prefers 20 to 22 minutes of arc for letters and takes 16 for the least; strokes of a
sixth to a tenth of the height are usual.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from statistics import mode

import pytest
from textual.pilot import Pilot

from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.surface.large_letters import FIVE, TEN, THREE, drawn
from courtlog.settings import Settings
from tests.court import desk_in
from tests.courtside.screen import on_court

SCREEN_MM, AWAY_MM = 310, 2000
WORDS, MARKS = 20, 16
SIZES = {(80, 24): THREE, (100, 30): THREE, (120, 40): FIVE, (200, 60): TEN}


@dataclass(frozen=True)
class State:
    """How a state is reached, and the words that must be read in it."""

    words: tuple[str, ...]
    keys: tuple[str, ...] = ()
    seen: tuple[tuple[str, bool], ...] = ()
    """Values of the view that no key brings about."""
    settings: tuple[tuple[str, int], ...] = ()
    cues: int = 3


STATES = {
    "feeding": State(("MAREN", "DEEP", "1/10", "SAY TURN"), ("u",)),
    "tough": State(("MAREN", "DEEP", "TOUGH", "1/10"), ("t",)),
    "the ball after": State(("MAREN", "SHORT", "2/10"), ("u", "k", ".")),
    "stay quiet": State(("MAREN", "QUIET", "1/20"), ("f2", *"hold", "enter")),
    "round over": State(("MAREN", "ROUND OVER", "1 DONE"), ("space", "z")),
    "basket empty": State(
        ("MAREN", "PICK UP|BASKET EMPTY"), ("space", "space"), settings=(("basket", 2),)
    ),
    "paused": State(("MAREN", "PAUSED"), ("p",)),
    "not stored": State(("MAREN", "NOT STORED"), (), (("not_stored", True),)),
    "slow disk": State(("MAREN", "DEEP", "SAY TURN"), ("u",), (("writing", True),)),
    "read only": State(("MAREN", "READ ONLY"), (), (("read_only", True),)),
    "four cues": State(("MAREN", "DEEP", "1/10"), ("f3", "down", "down", "space", "enter"), cues=4),
}


@dataclass(frozen=True)
class Glyph:
    """What is inked and touches nothing at its left and right: pixels from the top, and width."""

    rows: tuple[str, ...]

    @property
    def height(self) -> int:
        """Pixels from the first inked row to the last."""
        inked = [at for at, row in enumerate(self.rows) if "#" in row]
        return inked[-1] - inked[0] + 1

    def strokes(self) -> Iterator[int]:
        """How long each inked run of a row of pixels is: the widths of what stands upright."""
        for row in self.rows:
            yield from (len(run) for run in row.replace(".", " ").split())


def pixels(text: str, columns: int) -> list[str]:
    """Two rows of pixels for each line: `#` is ink."""
    rows = []
    for line in text.splitlines():
        for half in ("█▀", "█▄"):
            rows.append("".join("#" if c in half else "." for c in line.ljust(columns)))
    return rows


def bands(rows: list[str]) -> Iterator[list[str]]:
    """Rows of pixels that are inked one below the other."""
    band: list[str] = []
    for row in [*rows, ""]:
        if "#" in row:
            band.append(row)
        elif band:
            yield band
            band = []


def glyphs(band: list[str]) -> Iterator[Glyph]:
    """What a band is made of, from the left."""
    inked = ["#" in column for column in zip(*band, strict=True)]
    start = None
    for at, ink in enumerate([*inked, False]):
        if ink and start is None:
            start = at
        elif not ink and start is not None:
            yield Glyph(tuple(row[start:at] for row in band))
            start = None


def arc(pixel: int, columns: int) -> float:
    """Minutes of arc of so many pixels, each as high as a cell is wide."""
    return math.degrees(math.atan(pixel * SCREEN_MM / columns / AWAY_MM)) * 60


def shown(state: State, size: tuple[int, int], folder: Path) -> str:
    """The screen in that state."""
    kept = Settings(look="far", review=False, **dict(state.settings))  # type: ignore[arg-type]

    async def then(_: Pilot[None], app: CourtlogApp) -> None:
        court = app.screen
        assert isinstance(court, CourtScreen)
        court._surface.show(replace(court.state.view, **dict(state.seen)))  # type: ignore[arg-type]

    return on_court(desk_in(folder, settings=kept), state.keys, size=size, then=then)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", STATES)
def test_each_state_is_read_from_two_metres(
    name: str, size: tuple[int, int], tmp_path: Path
) -> None:
    state, (columns, _) = STATES[name], size
    text = shown(state, size, tmp_path)
    lines = text.splitlines()
    heading = next(at for at, line in enumerate(lines) if "this · last" in line)
    above, below = pixels(text, columns)[: 2 * heading], pixels(text, columns)[2 * heading + 2 :]
    words = [glyph for band in bands(above) for glyph in glyphs(band)]
    letters = [glyph for glyph in words if len(set(glyph.rows)) > 1 or glyph.height > 2]
    tall = Counter(arc(glyph.height, columns) >= WORDS for glyph in letters)
    assert tall[True] >= sum(len(word.split("|")[0].replace(" ", "")) for word in state.words)
    assert tall[False] <= 1
    marks = [list(glyphs(band))[:2] for band in bands(below)][: state.cues]
    assert len(marks) == state.cues
    assert all(arc(glyph.height, columns) >= MARKS for pair in marks for glyph in pair)
    for band in bands(above):
        stroke = mode(width for glyph in glyphs(band) for width in glyph.strokes())
        assert stroke * 10 >= max(glyph.height for glyph in glyphs(band))
    for word in state.words:
        ways = [(way, rows) for way in word.split("|") for rows in (TEN, FIVE, THREE)]
        assert any(holds(text, way, rows) for way, rows in ways), word


def holds(text: str, word: str, rows: int) -> bool:
    """Whether the word stands on the screen in letters of that size."""
    picture, lines = drawn(word, rows), text.splitlines()
    assert picture is not None
    width = max(map(len, lines))
    padded = [line.ljust(width) for line in lines]
    return any(
        all(padded[y + dy][x : x + len(row)] == row for dy, row in enumerate(picture))
        for y in range(len(padded) - rows + 1)
        for x in range(width)
    )
