"""Teaching a pad: the coach presses nine keys once, row by row."""

from __future__ import annotations

from collections.abc import Set

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.courtside.desk.keymap import ROWS_TO_TEACH, key_name
from courtlog.courtside.dialogs.own_screen import OwnDialog


class TeachScreen(OwnDialog[tuple[str, ...] | None]):
    """Escape leaves without a change; Backspace takes the last key back."""

    def __init__(self, taken: Set[str]) -> None:
        """`taken` are keys that mean something while feeding already, and cannot be taught."""
        super().__init__()
        self._taken = taken
        self._keys: list[str] = []

    def compose(self) -> ComposeResult:
        with Vertical(classes="box"):
            yield Static(
                Content("Teach a pad: press each key once. Backspace back, Escape leaves.")
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
            self._tell(f"{name} has another meaning while feeding. ")
        elif name in self._keys:
            self._tell(f"{name} is taught already. ")
        else:
            self._keys.append(name)
            if len(self._keys) == 3 * ROWS_TO_TEACH:
                self.dismiss(tuple(self._keys))
            else:
                self._tell("")

    def _tell(self, first: str) -> None:
        row, column = divmod(len(self._keys), 3)
        word = LOOKS[Grade(column)].word
        lines = [
            "   ".join(self._keys[start : start + 3]) for start in range(0, len(self._keys), 3)
        ]
        self.query_one("#taught", Static).update(Content("\n".join(lines)))
        self.query_one("#ask", Static).update(
            Content.assemble(first, (f"Cue {row + 1}, {word}: press its key.", "bold"))
        )
