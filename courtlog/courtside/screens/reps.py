"""Repetitions alone, in the player's word: one digit says how many tens."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog.coaching.game.people import Player
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.dialogs.own_keys import OwnKeys
from courtlog.courtside.dialogs.own_screen import OwnDialog
from courtlog.courtside.dialogs.questions import Ask
from courtlog.courtside.surface.lines import foot
from courtlog.logbook.reads import rotation_lookups
from courtlog.plain_text import plain

MOST_REPS = 2000

KEYS = (
    ("1", "ten"),
    ("3", "thirty"),
    ("0", "a hundred"),
    ("Enter", "another number"),
    ("↑↓", "player"),
    ("Esc", "none"),
)


class RepsScreen(OwnKeys[bool], OwnDialog[bool]):
    """A digit logs that many tens (0: a hundred); arrows choose another player."""

    def __init__(self, desk: Desk, player: Player) -> None:
        super().__init__()
        self._desk = desk
        self._players = list(desk.view.rotation.court.present)
        self._at = self._players.index(player) if player in self._players else 0

    def compose(self) -> ComposeResult:
        with Vertical(classes="box short"):
            yield Static(id="who")
            yield Static(foot(KEYS))

    def on_mount(self) -> None:
        self._show()

    def take_key(self, event: Key) -> None:
        character = event.character or ""
        if event.key == "escape" or not self._players:
            self.dismiss(False)
        elif event.key in ("up", "down"):
            self._at = (self._at + (1 if event.key == "down" else -1)) % len(self._players)
            self._show()
        elif character.isascii() and character.isdigit():
            self._log(10 * int(character) or 100)
        elif event.key == "enter":
            name = self._players[self._at].shown_name
            self.app.push_screen(Ask(f"How many did {name} do alone?"), self._typed)

    def _typed(self, text: str | None) -> None:
        if text is None:
            return
        text = text.strip()
        if text.isascii() and text.isdigit() and 1 <= int(text) <= MOST_REPS:
            self._log(int(text))
        else:
            self._desk.refuse(f"Nothing logged: write a number from 1 to {MOST_REPS}.")
            self.dismiss(False)

    def _log(self, reps: int) -> None:
        self._desk.rotation.solo(self._players[self._at], reps)
        self.dismiss(True)

    def _show(self) -> None:
        if not self._players:
            return
        player = self._players[self._at]
        station = self._desk.rotation.solo_station(player)
        day = self._desk.view.day.id
        told = [s for s in rotation_lookups.solos(self._desk.book, day) if s.player_id == player.id]
        so_far = ", ".join(f"{plain(s.station)} {s.reps}" for s in told) or "none yet"
        self.query_one("#who", Static).update(
            Content(
                f"How many alone at {plain(station)}, in {plain(player.shown_name)}'s word?"
                f" Today so far: {so_far}."
            )
        )
