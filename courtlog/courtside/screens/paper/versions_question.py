"""Two versions of one round shown under each other, and which of them is kept."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog.coaching.game.round_versions import Keep
from courtlog.courtside.desk.keymap import key_name
from courtlog.courtside.dialogs.own_screen import OwnDialog
from courtlog.courtside.dialogs.questions import Choice
from courtlog.courtside.surface.lettering import foot
from courtlog.plain_text import plain

KEEP_CHOICES = (
    Choice(Keep.BOOK, "keep the book's", "b"),
    Choice(Keep.SHEET, "take the sheet's", "s"),
    Choice(Keep.BOTH, "keep both as two rounds", "2"),
)

EITHER_WAY = "It is about the balls: note, pain and effort of the sheet are kept either way."


class VersionsQuestion(OwnDialog[Keep | None]):
    """Shows both versions; one key decides, Escape leaves it undecided.

    No line is chosen by Enter: it would be the key that was pressed just before.
    """

    TOPIC = "paper"

    def __init__(self, versions: str, choices: Sequence[Choice[Keep]]) -> None:
        super().__init__()
        self._versions, self._choices = versions, choices

    def compose(self) -> ComposeResult:
        with Vertical(classes="box form"):
            yield Static(Content("The book has this round already, with other balls."))
            yield Static(Content("\n".join(map(plain, self._versions.splitlines()))))
            keys = [(choice.key, choice.words) for choice in self._choices]
            yield Static(foot([*keys, ("Escape", "goes back")]))

    def take_key(self, event: Key) -> bool:
        name = key_name(event.key, event.character)
        chosen = next((choice for choice in self._choices if choice.key == name), None)
        if chosen is None and name != "escape":
            return False
        self.dismiss(None if chosen is None else chosen.value)
        return True
