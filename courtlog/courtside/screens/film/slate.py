"""The slate: the running time of day in letters as large as the screen, for a phone to film.

Whoever films it for a second has tied the film to the book's clock, whatever the phone says.
"""

from __future__ import annotations

from collections.abc import Callable
from zoneinfo import ZoneInfo

from textual.app import ComposeResult
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog import times
from courtlog.courtside.dialogs.own_screen import OwnScreen
from courtlog.courtside.surface.large_letters import FIVE, THREE, doubled, drawn

EVERY = 0.05
"""Seconds between two looks at the clock: each tenth is shown, at most half of one late."""

WORDS = "Film this for a second; any key goes back."

_LARGEST = 4
"""How often letters of five rows may be doubled: no screen has room for more."""


class SlateScreen(OwnScreen[None]):
    """Shows the time of day in a zone until a key is pressed."""

    AUTO_FOCUS = None
    TOPIC = "film"

    def __init__(self, clock: Callable[[], int], place: ZoneInfo) -> None:
        super().__init__()
        self._clock, self._place = clock, place
        self._shown = ""

    def compose(self) -> ComposeResult:
        yield Static(id="slate")
        yield Static(Content(WORDS), id="slate-foot")

    def on_mount(self) -> None:
        self.show()
        self.set_interval(EVERY, self.show)

    def on_resize(self) -> None:
        self._shown = ""
        self.show()

    def take_key(self, event: Key) -> None:
        self.dismiss()

    def show(self) -> None:
        """Show the time now, if it is another tenth than the one that is shown."""
        time = tenths(self._clock(), self._place)
        if time != self._shown and self.size:
            self._shown = time
            rows = slate_rows(time, self.size.width, self.size.height - 1)
            self.query_one("#slate", Static).update(Content("\n".join(rows)))


def tenths(at_ms: int, place: ZoneInfo) -> str:
    """`09:31:07.4`: the tenth that runs at this moment."""
    return f"{times.clock_words(at_ms, place)}.{at_ms // 100 % 10}"


def slate_rows(time: str, width: int, height: int) -> tuple[str, ...]:
    """`09:31:07.4` in the largest letters that fit, on one line or on two, in the middle.

    On two lines the second one has the seconds. Where no drawing fits, it stands as it is.
    """
    for rows, line in _sizes():
        for parts in ((time,), (time[:5], time[6:])):
            lines = [line(part) for part in parts]
            wide = max(len(one[0]) for one in lines)
            if wide <= width and len(parts) * (rows + 1) - 1 <= height:
                return _in_the_middle(lines, width, height)
    return _in_the_middle([(time,)], width, height)


def _sizes() -> list[tuple[int, Callable[[str], tuple[str, ...]]]]:
    """Rows and way of drawing of each size, the largest first."""

    def enlarged(times_doubled: int) -> Callable[[str], tuple[str, ...]]:
        def draw(text: str) -> tuple[str, ...]:
            rows = _side_by_side(text, FIVE)
            for _ in range(times_doubled):
                rows = doubled(rows)
            return rows

        return draw

    large = [(FIVE * 2**times, enlarged(times)) for times in range(_LARGEST, -1, -1)]
    return [*large, (THREE, lambda text: _side_by_side(text, THREE))]


def _side_by_side(time: str, rows: int) -> tuple[str, ...]:
    """The signs of a time, each digit as wide as a zero: what does not change does not move."""
    drawings = {sign: drawn(sign, rows) or (sign,) for sign in {*time, "0"}}
    wide = len(drawings["0"][0])
    signs = [
        [row.center(wide) for row in drawings[sign]] if sign.isdigit() else drawings[sign]
        for sign in time
    ]
    return tuple(" ".join(row) for row in zip(*signs, strict=True))


def _in_the_middle(lines: list[tuple[str, ...]], width: int, height: int) -> tuple[str, ...]:
    rows = [row for at, line in enumerate(lines) for row in ([""] if at else []) + list(line)]
    wide = max(map(len, rows))
    left = " " * max(0, (width - wide) // 2)
    above = [""] * max(0, (height - len(rows)) // 2)
    return (*above, *((left + row).rstrip() for row in rows))
