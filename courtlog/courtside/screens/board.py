"""Who is where: everyone on the roster with balls, minutes and waits, and the rotations to come."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import AbstractContextManager

from textual.app import ComposeResult
from textual.events import Key

from courtlog.coaching.game.people import Player
from courtlog.coaching.on_court.next_act import Act
from courtlog.coaching.plans.day_fairness import (
    Share,
    fairness,
)
from courtlog.coaching.plans.rotation import (
    Presence,
    TurnOrder,
)
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.dialogs.own_screen import OwnDialog, next_index
from courtlog.courtside.dialogs.questions import TextQuestion
from courtlog.courtside.screens.reps import RepsScreen
from courtlog.courtside.surface.lettering import Line, Lines, fit, fit_short, foot_lines
from courtlog.courtside.surface.strip import clock_words, stations_words, where_words
from courtlog.plain_text import plain

FOOT = (
    ("↑↓", "choose"),
    ("Enter", "on court"),
    ("l", "late"),
    ("x", "left"),
    ("e", "here"),
    ("w", "swap two"),
    ("a", "done alone"),
    ("o", "order"),
    ("m", "minutes of a rotation"),
    ("g", "stations"),
    ("Esc", "close"),
)

TURNS_AHEAD = 4
PRESENCE = {"l": Presence.LATE, "x": Presence.LEFT, "e": Presence.HERE}


class BoardScreen(OwnDialog[Player | None]):
    """Returns the player to put on court (Enter)."""

    TOPIC = "rounds"

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk, self._state = desk, desk.state
        self._index = 0
        self._swapping: Player | None = None

    def compose(self) -> ComposeResult:
        yield Lines()

    def on_mount(self) -> None:
        self.look()
        self.set_interval(1, self.look)

    def on_resize(self) -> None:
        self.look()

    def in_book(self) -> AbstractContextManager[None]:
        return self._state.book.reading()

    def read(self) -> None:
        self._state.read_rotation()

    def show(self) -> None:
        self.query_one(Lines).show(self._lines())

    def say(self, message: str) -> None:
        self._state.refuse(message)

    def take_key(self, event: Key) -> None:
        key = event.key
        roster = self._players()
        to = next_index(key, self._index, len(roster))
        if key in ("escape", "f12"):
            self.dismiss(None)
        elif to is not None:
            self._index = to
        elif key == "o":
            orders = list(TurnOrder)
            now = orders.index(self._state.view.rotation.court.order)
            self._desk.rotation.set_plan({"order": orders[(now + 1) % len(orders)]})
        elif key == "m":
            title = "Minutes of a rotation (0: no clock)"
            self.ask(TextQuestion(title, self._minutes()), self._set_minutes)
        elif key == "g":
            stations = ", ".join(self._state.view.rotation.court.stations)
            title = "Stations beside the feed, in walking order"
            self.ask(TextQuestion(title, stations), self._set_stations)
        elif roster:
            self._take_for(roster[self._index], key)

    def _players(self) -> list[Player]:
        """The players of this court, in the order of the roster."""
        on_court = {player.id for player in self._state.view.rotation.court.roster}
        return [player for player in self._state.view.roster if player.id in on_court]

    def _take_for(self, player: Player, key: str) -> None:
        if key == "enter":
            self.dismiss(player)
        elif key in PRESENCE:
            self._desk.rotation.attend(player, PRESENCE[key])
        elif key == "a":
            self.app.push_screen(RepsScreen(self._desk, player), lambda _: self.look())
        elif key == "w" and self._swapping is None:
            self._swapping = player
            self._state.tell(f"{player.shown_name} changes places with: choose, then w.")
        elif key == "w" and self._swapping is not None:
            first, self._swapping = self._swapping, None
            self._desk.rotation.swap(first, player)

    def _minutes(self) -> str:
        return f"{self._state.view.rotation.plan.turn_minutes or 0:g}"

    def _set_minutes(self, text: str) -> None:
        self._desk.rotation.set_plan({"turn_minutes": text})
        minutes = self._state.view.rotation.plan.turn_minutes
        self._state.tell(
            f"A rotation is {minutes:g} min." if minutes else "The rotation has no clock."
        )

    def _set_stations(self, text: str) -> None:
        self._desk.rotation.set_plan({"stations": text})
        names = self._state.view.rotation.plan.stations
        self._state.tell(f"Stations beside the feed: {', '.join(names) or 'none'}.")

    def _lines(self) -> list[Line]:
        """As many players as there is room for around the chosen one; the foot stays."""
        foot = foot_lines(FOOT, self.size.width - 2)
        head, rows, tail = list(self._head()), list(self._rows()), list(self._tail())
        room = max(2, self.size.height - len(head) - len(foot))
        tail = tail[: max(2, room - len(rows))]
        shown = max(1, room - len(tail))
        start = min(max(0, self._index - shown + 1), max(0, len(rows) - 1))
        lines = [*head, *rows[start : start + shown], *tail]
        lines += [("", "")] * (self.size.height - len(lines) - len(foot))
        return [*lines, *foot]

    def _head(self) -> Iterator[Line]:
        view = self._state.view
        order = view.rotation.court.order
        yield " · ".join(filter(None, ("Who is where", clock_words(view)))), "bold"
        yield f"{order} order: {order.meaning}", "$quiet"
        yield f"  {'player':<16}{'where':<22}{'balls':>6}{'min':>6}  longest wait", "$quiet"

    def _rows(self) -> Iterator[Line]:
        view = self._state.view
        court = view.rotation.court
        shares = {share.player.id: share for share in fairness(court, view.now).shares}
        for index, player in enumerate(self._players()):
            where = where_words(view, player)
            if player.id in court.away:
                where = str(court.away[player.id])
            elif player.id in court.off:
                where = f"off the feed: {plain(court.off[player.id])}"
            mark = "⇄" if player == self._swapping else "►" if index == self._index else " "
            share = shares.get(player.id)
            room = 22 if share else 58
            name, place = fit(plain(player.shown_name), 15), fit(fit_short(where, room - 1), room)
            line = f"{mark} {name} {place}"
            yield line + _share_words(share), "bold" if index == self._index else ""
        if not view.roster:
            key = view.key(Act.ADD_PLAYER)
            yield f"  Nobody is on the roster yet: Esc, then {key} adds a player.", ""

    def _tail(self) -> Iterator[Line]:
        view = self._state.view
        court = view.rotation.court
        width = self.size.width - 2
        yield fit_short(plain(view.message), width), "bold"
        players = self._players()
        chosen = players[self._index] if self._index < len(players) else None
        if chosen is not None and chosen.id in view.rotation.origins:
            known = f"{chosen.shown_name}: known of {view.rotation.origins[chosen.id]}"
            yield fit_short(plain(known), width), ""
        if court.number > 1:
            yield fit_short(f"fair: {fairness(court, view.now).words()}", width), ""
        names = {player.id: plain(player.list_name) for player in view.roster}
        for turn in court.ahead(TURNS_AHEAD):
            others = stations_words(turn, turn.stand())
            words = [f"rotation {turn.number}: feed {names.get(turn.at_feed or 0, '')}", *others]
            yield fit_short(" · ".join(words), width), "$quiet"


def _share_words(share: Share | None) -> str:
    if share is None:
        return ""
    wait = f"{share.longest_wait:.0f} min" if share.longest_wait >= 1 else "-"
    return f"{share.balls:>6}{share.minutes:>6.0f}  {wait}"
