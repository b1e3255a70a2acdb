"""Repetitions alone, as the player says: one digit says how many tens."""

from __future__ import annotations

from contextlib import AbstractContextManager

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog.coaching.game.people import Player
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.dialogs.own_screen import OwnDialog
from courtlog.courtside.dialogs.questions import TextQuestion
from courtlog.courtside.surface.lettering import foot
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


class RepsScreen(OwnDialog[bool]):
    """A digit logs that many tens (0: a hundred); arrows choose another player."""

    TOPIC = "rounds"

    def __init__(self, desk: Desk, player: Player) -> None:
        super().__init__()
        self._desk = desk
        self._players = list(desk.view.rotation.court.present)
        self._index = self._players.index(player) if player in self._players else 0

    def compose(self) -> ComposeResult:
        with Vertical(classes="box short"):
            yield Static(id="who")
            yield Static(foot(KEYS))

    def on_mount(self) -> None:
        self.carry_out(self._show_player)

    def in_book(self) -> AbstractContextManager[None]:
        return self._desk.book.reading()

    def take_key(self, event: Key) -> None:
        character = event.character or ""
        if event.key == "escape" or not self._players:
            self.dismiss(False)
        elif event.key in ("up", "down"):
            self._index = (self._index + (1 if event.key == "down" else -1)) % len(self._players)
            self._show_player()
        elif character.isascii() and character.isdigit():
            self._log(10 * int(character) or 100)
        elif event.key == "enter":
            name = self._players[self._index].shown_name
            self.ask(TextQuestion(f"How many did {name} do alone?"), self._log_typed)

    def _log_typed(self, text: str) -> None:
        text = text.strip()
        if text.isascii() and text.isdigit() and 1 <= int(text) <= MOST_REPS:
            self._log(int(text))
        else:
            self._desk.state.refuse(f"Nothing logged: write a number from 1 to {MOST_REPS}.")
            self.dismiss(False)

    def _log(self, reps: int) -> None:
        self._desk.rotation.keep_solo(self._players[self._index], reps)
        self.dismiss(True)

    def _show_player(self) -> None:
        """Show the chosen player, and what was logged of them today."""
        if not self._players:
            return
        player = self._players[self._index]
        station = self._desk.rotation.solo_station(player)
        day = self._desk.view.day.id
        solos = rotation_lookups.solos(self._desk.book, day)
        own = [solo for solo in solos if solo.player_id == player.id]
        so_far = ", ".join(f"{plain(solo.station)} {solo.reps}" for solo in own) or "none yet"
        self.query_one("#who", Static).update(
            Content(
                f"How many alone at {plain(station)}, in {plain(player.shown_name)}'s word?"
                f" Today so far: {so_far}."
            )
        )
