"""The first screen of a new book: a clinic, a coach and the players' names, then to the court."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import asdict, dataclass

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.screen import Screen
from textual.widgets import Input, Static

from courtlog.coaching import times
from courtlog.coaching.plain import plain


@dataclass(frozen=True, slots=True)
class Beginning:
    """What a clinic needs to begin."""

    clinic: str
    zone: str
    coach: str
    court: str
    players: tuple[str, ...]

    def values(self) -> dict[str, str]:
        """What was typed, line by line."""
        return asdict(self) | {"players": ", ".join(self.players)}


_FIELDS = (
    ("clinic", "Clinic, for example Harbour Week"),
    ("players", "Players, with commas between them"),
    ("coach", "Your name"),
    ("court", "Court"),
    ("zone", "Time zone"),
)


class SetUpScreen(Screen[Beginning | None]):
    """Enter goes on to the next line, and from the last one to the court.

    `values` fill the lines; a caution says what went wrong when they were to be stored.
    """

    def __init__(self, values: Mapping[str, str], caution: str = "") -> None:
        super().__init__()
        self._values = values
        self._caution = caution

    def compose(self) -> ComposeResult:
        with Vertical(classes="box tall"):
            yield Static(
                Content.assemble(
                    ("A new book.", "bold"), " Enter goes on, Shift+Tab back, Escape leaves."
                )
            )
            for key, words in _FIELDS:
                yield Static(Content(words))
                yield Input(self._values.get(key, ""), id=key, max_length=200, compact=True)
            yield Static(Content(plain(self._caution)), id="caution")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        keys = [key for key, _ in _FIELDS]
        at = keys.index(event.input.id or "")
        if at + 1 < len(keys):
            self.query_one(f"#{keys[at + 1]}", Input).focus()
        else:
            self._begin()

    def on_key(self, event: Key) -> None:
        if event.key == "escape":
            event.stop()
            self.dismiss(None)

    def _begin(self) -> None:
        said = {key: self.query_one(f"#{key}", Input).value.strip() for key, _ in _FIELDS}
        players = tuple(filter(None, map(str.strip, said["players"].split(","))))
        for name, times_said in Counter(players).items():
            if times_said > 1:
                self._point_to("players", f"{name} stands twice: write a letter more of one.")
                return
        for key, missing in (("clinic", not said["clinic"]), ("players", not players)):
            if missing:
                self._point_to(key, f"Write the {key}, please.")
                return
        try:
            times.zone(said["zone"])
        except ValueError as error:
            self._point_to("zone", f"{error}.")
            return
        self.dismiss(Beginning(said["clinic"], said["zone"], said["coach"], said["court"], players))

    def _point_to(self, key: str, caution: str) -> None:
        self.query_one("#caution", Static).update(Content(caution))
        self.query_one(f"#{key}", Input).focus()
