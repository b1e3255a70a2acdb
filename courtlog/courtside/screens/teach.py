"""Teaching keys: the coach presses each once, nine of a pad or two of a clicker."""

from __future__ import annotations

from collections.abc import Sequence, Set

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.courtside.desk.keymap import ROWS_TO_TEACH, key_name, shown_key
from courtlog.courtside.dialogs.own_screen import OwnDialog

NINE_KEYS = tuple(
    f"Cue {row + 1}, {LOOKS[grade].word}" for row in range(ROWS_TO_TEACH) for grade in Grade
)
"""What each key of a pad is to mean, in the order in which they are taught."""

NOT_SEEN = "Not seen is never missed."
"""What one fault says of the other cues."""

TWO_KEYS = (
    "Clean, as Space",
    f"One fault: the main cue missed, the others not seen. {NOT_SEEN} Fault",
)
"""The same of a clicker."""


class TeachScreen(OwnDialog[tuple[str, ...] | None]):
    """Escape leaves without a change; Backspace takes the last key back."""

    TOPIC = None

    def __init__(self, what: str, asks: Sequence[str], taken: Set[str]) -> None:
        """`asks` says of each key what it is to mean.

        `taken` are keys that mean something while feeding already, and cannot be taught.
        """
        super().__init__()
        self._what = what
        self._asks = asks
        self._taken = taken
        self._keys: list[str] = []

    def compose(self) -> ComposeResult:
        with Vertical(classes="box"):
            yield Static(
                Content(f"Teach {self._what}: press each key once. Backspace back, Escape leaves.")
            )
            yield Static(id="taught")
            yield Static(id="ask")

    def on_mount(self) -> None:
        self._tell("")

    def take_key(self, event: Key) -> None:
        name = key_name(event.key, event.character)
        if name == "escape":
            self.dismiss(None)
        elif name == "backspace":
            del self._keys[-1:]
            self._tell("")
        elif name in self._taken:
            self._tell(f"{shown_key(name)} has another meaning while feeding. ")
        elif name in self._keys:
            self._tell(f"{shown_key(name)} is taught already. ")
        else:
            self._keys.append(name)
            if len(self._keys) == len(self._asks):
                self.dismiss(tuple(self._keys))
            else:
                self._tell("")

    def _tell(self, first: str) -> None:
        keys = [shown_key(key) for key in self._keys]
        lines = ["   ".join(keys[start : start + 3]) for start in range(0, len(keys), 3)]
        self.query_one("#taught", Static).update(Content("\n".join(lines)))
        self.query_one("#ask", Static).update(
            Content.assemble(first, (f"{self._asks[len(keys)]}: press its key.", "bold"))
        )
