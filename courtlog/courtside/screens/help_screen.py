"""Help: the pad as it is now, what the grades look like, and every command with its key."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from rich.cells import set_cell_size
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Key, Resize
from textual.widgets import Static

from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.courtside.desk.keymap import shown_key
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.dialogs.own_screen import MANUAL_KEY, OwnDialog
from courtlog.courtside.surface.lettering import cells, fit
from courtlog.courtside.surface.parts import grade_mark
from courtlog.plain_text import plain

Commands = Sequence[tuple[str, str]]
"""The key of each command, and what it does."""


_CLICKER = (
    "clicker: a clean ball, as Space",
    "clicker: one fault; the main cue missed, the others not seen (not seen is never missed)",
)


CUE_HEAD = 10
"""Cells of the grade before what a cue looks like."""

LEAST_WORDS = 20
"""Cells of the words beside the keys, however narrow the terminal."""

MANUAL_KEYS = ("question_mark", MANUAL_KEY)


class _HelpText(Static):
    """The help, wrapped anew to its width."""

    def __init__(self, view: CourtView, commands: Commands) -> None:
        super().__init__()
        self.styles.width = "1fr"
        self._view, self._commands = view, commands
        self._wrapped_to = 0

    def on_resize(self, event: Resize) -> None:
        if event.size.width != self._wrapped_to:
            self._wrapped_to = event.size.width
            self.update(help_text(self._view, self._commands, event.size.width))


class HelpScreen(OwnDialog[bool | None]):
    """Any key but the arrows closes it; true where the manual is wanted next."""

    TOPIC = None

    def __init__(self, view: CourtView, commands: Commands) -> None:
        super().__init__()
        self._view = view
        self._commands = commands

    def compose(self) -> ComposeResult:
        with VerticalScroll(classes="box tall"):
            yield _HelpText(self._view, self._commands)

    def take_key(self, event: Key) -> bool:
        if event.key in ("up", "down", "pageup", "pagedown", "home", "end"):
            return False
        self.dismiss(event.key in MANUAL_KEYS)
        return True


def help_text(view: CourtView, commands: Commands, width: int) -> Content:
    """The whole help for this moment, in lines of so many cells."""
    parts: list[Content | str | tuple[str, str]] = [
        (f"Pad: {view.pad.title}\n", "bold"),
        f"{'':16}" + "".join(f"{LOOKS[grade].word:<10}" for grade in Grade) + "\n",
    ]
    cues = view.live.cues if view.live else ()
    for row, cue in enumerate(cues):
        parts.append((set_cell_size(plain(cue.name), 16), "bold"))
        for grade in Grade:
            parts.append(f"{view.pad.key_of(row, grade)} {grade_mark(grade, view.letters)}       ")
        parts.append("\n")
    parts.append("\n")
    clicker = zip(map(shown_key, view.pad.clicker), _CLICKER, strict=False)
    keys = [*_feeding(view), *clicker, *commands]
    column = max(cells(key) for key, _ in keys) + 2
    for key, words in keys:
        parts += _row((key, "bold"), words, column, width)
    for cue in cues:
        parts.append(("\n" + plain(cue.name) + "\n", "bold"))
        for grade, words in (
            (Grade.MADE, cue.made),
            (Grade.NEAR, cue.near),
            (Grade.MISSED, cue.missed),
        ):
            parts += _row((f"  {LOOKS[grade].word}", ""), plain(words), 10, width)
    parts.append(("\n? opens the manual, arrows scroll, any other key closes.", "bold"))
    return Content.assemble(*parts)


def _feeding(view: CourtView) -> Commands:
    """The keys of a ball, beside those of its grades."""
    clean = " or ".join("Space" if key == "space" else key for key in view.pad.clean)
    tough = " or ".join(("t", *view.pad.tough))
    return (
        (clean, "the cues still open were made; take the ball"),
        ("Enter", "take the ball; the cues still open were not seen"),
        (tough, "the open ball is tough (again: it is not)"),
    )


def _row(head: tuple[str, str], words: str, column: int, width: int) -> list[tuple[str, str]]:
    """A head in its column, and words that are wrapped beside it."""
    text, style = head
    lines = wrap(words, max(width - column, LEAST_WORDS)) or [""]
    beside = f"\n{'':{column}}".join(lines)
    return [(fit(text, column), style), (f"{beside}\n", "")]
