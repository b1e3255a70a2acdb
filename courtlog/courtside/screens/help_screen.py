"""Help: the pad as it is now, what the grades look like, and every command with its key."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import set_cell_size
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.courtside.desk.keymap import shown_key
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.dialogs.own_screen import MANUAL_KEY, OwnDialog
from courtlog.courtside.surface.parts import grade_mark
from courtlog.plain_text import plain

Commands = Sequence[tuple[str, str]]
"""The key of each command, and what it does."""


_CLICKER = (
    "clicker: a clean ball, as Space",
    "clicker: one fault; the main cue missed, the others not seen (not seen is never missed)",
)


MANUAL_KEYS = ("question_mark", MANUAL_KEY)


class HelpScreen(OwnDialog[bool | None]):
    """Any key but the arrows closes it; true where the manual is wanted next."""

    TOPIC = None

    def __init__(self, view: CourtView, commands: Commands) -> None:
        super().__init__()
        self._view = view
        self._commands = commands

    def compose(self) -> ComposeResult:
        with VerticalScroll(classes="box tall"):
            yield Static(help_text(self._view, self._commands))

    def take_key(self, event: Key) -> bool:
        if event.key in ("up", "down", "pageup", "pagedown", "home", "end"):
            return False
        self.dismiss(event.key in MANUAL_KEYS)
        return True


def help_text(view: CourtView, commands: Commands) -> Content:
    """The whole help for this moment."""
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
    clean = " or ".join("Space" if key == "space" else key for key in view.pad.clean)
    tough = " or ".join(("t", *view.pad.tough))
    parts += [
        "\n",
        (f"{clean:<12}", "bold"),
        "the cues still open were made; take the ball\n",
        (f"{'Enter':<12}", "bold"),
        "take the ball; the cues still open were not seen\n",
        (f"{tough:<12}", "bold"),
        "the open ball is tough (again: it is not)\n",
    ]
    for key, words in zip(view.pad.clicker, _CLICKER, strict=False):
        parts += [(f"{shown_key(key):<12}", "bold"), f"{words}\n"]
    for key, words in commands:
        parts += [(f"{key:<12}", "bold"), f"{words}\n"]
    for cue in cues:
        parts += [
            ("\n" + plain(cue.name) + "\n", "bold"),
            f"  made    {plain(cue.made)}\n",
            f"  near    {plain(cue.near)}\n",
            f"  missed  {plain(cue.missed)}\n",
        ]
    parts.append(("\n? opens the manual, arrows scroll, any other key closes.", "bold"))
    return Content.assemble(*parts)
