"""Who is where: everyone on the roster with balls, minutes and waits, and the turns to come."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from textual.app import ComposeResult
from textual.events import Key

from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.rotation import Presence, Share, TurnOrder, fairness
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.dialogs.own_keys import OwnKeys, moved
from courtlog.courtside.dialogs.own_screen import OwnDialog
from courtlog.courtside.dialogs.questions import Ask
from courtlog.courtside.screens.reps import RepsScreen
from courtlog.courtside.surface.lettering import fit, fit_short
from courtlog.courtside.surface.lines import Line, Lines, foot_lines
from courtlog.courtside.surface.strip import clock_words, stations_words, where_words
from courtlog.errors import CourtlogError
from courtlog.plain_text import plain

FOOT = (
    ("↑↓", "choose"),
    ("Enter", "on court"),
    ("l", "late"),
    ("x", "left"),
    ("e", "here"),
    ("w", "swap two"),
    ("a", "reps alone"),
    ("o", "order"),
    ("m", "minutes of a turn"),
    ("g", "stations"),
    ("Esc", "close"),
)

TURNS_AHEAD = 4
PRESENCE = {"l": Presence.LATE, "x": Presence.LEFT, "e": Presence.HERE}


class BoardScreen(OwnKeys[Player | None], OwnDialog[Player | None]):
    """Gives back the player whom Enter puts on court."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._at = 0
        self._swapping: Player | None = None

    def compose(self) -> ComposeResult:
        yield Lines()

    def on_mount(self) -> None:
        self._show()
        self.set_interval(1, self._show)

    def on_resize(self) -> None:
        self._show()

    def take_key(self, event: Key) -> None:
        try:
            self._take(event.key)
        except CourtlogError as error:
            self._desk.refuse(str(error))
        self._show()

    def _take(self, key: str) -> None:
        roster = self._desk.view.roster
        to = moved(key, self._at, len(roster))
        if key in ("escape", "f12"):
            self.dismiss(None)
        elif to is not None:
            self._at = to
        elif key == "o":
            orders = list(TurnOrder)
            now = orders.index(self._desk.view.rotation.court.order)
            self._desk.rotation.set_plan({"order": orders[(now + 1) % len(orders)]})
        elif key == "m":
            self._ask("Minutes of a turn (0: no clock)", self._minutes(), self._set_minutes)
        elif key == "g":
            stations = ", ".join(self._desk.view.rotation.court.stations)
            self._ask("Stations beside the feed, in walking order", stations, self._set_stations)
        elif roster:
            self._take_for(roster[self._at], key)

    def _take_for(self, player: Player, key: str) -> None:
        if key == "enter":
            self.dismiss(player)
        elif key in PRESENCE:
            self._desk.rotation.attend(player, PRESENCE[key])
        elif key == "a":
            self.app.push_screen(RepsScreen(self._desk, player), lambda _: self._show())
        elif key == "w" and self._swapping is None:
            self._swapping = player
            self._desk.tell(f"{player.shown_name} changes places with: choose, then w.")
        elif key == "w" and self._swapping is not None:
            one, self._swapping = self._swapping, None
            self._desk.rotation.swap(one, player)

    def _ask(self, title: str, value: str, then: Callable[[str], None]) -> None:
        def answered(text: str | None) -> None:
            if text is not None:
                try:
                    then(text)
                except CourtlogError as error:
                    self._desk.refuse(str(error))
            self._show()

        self.app.push_screen(Ask(title, value), answered)

    def _minutes(self) -> str:
        return f"{self._desk.view.rotation.plan.turn_minutes or 0:g}"

    def _set_minutes(self, text: str) -> None:
        self._desk.rotation.set_plan({"turn_minutes": text})
        minutes = self._desk.view.rotation.plan.turn_minutes
        self._desk.tell(f"A turn is {minutes:g} min." if minutes else "The turn has no clock.")

    def _set_stations(self, text: str) -> None:
        self._desk.rotation.set_plan({"stations": text})
        names = self._desk.view.rotation.plan.stations
        self._desk.tell(f"Stations beside the feed: {', '.join(names) or 'none'}.")

    def _show(self) -> None:
        if self.is_attached:
            self._desk.rotation.look()
            self.query_one(Lines).show(self._lines())

    def _lines(self) -> list[Line]:
        """As many players as there is room for around the chosen one; the foot stays."""
        foot = foot_lines(FOOT, self.size.width - 2)
        head, rows, tail = list(self._head()), list(self._rows()), list(self._tail())
        room = max(2, self.size.height - len(head) - len(foot))
        tail = tail[: max(2, room - len(rows))]
        shown = max(1, room - len(tail))
        start = min(max(0, self._at - shown + 1), max(0, len(rows) - 1))
        lines = [*head, *rows[start : start + shown], *tail]
        lines += [("", "")] * (self.size.height - len(lines) - len(foot))
        return [*lines, *foot]

    def _head(self) -> Iterator[Line]:
        view = self._desk.view
        order = view.rotation.court.order
        yield " · ".join(filter(None, ("Who is where", clock_words(view)))), "bold"
        yield f"{order} order: {order.meaning}", "$quiet"
        yield f"  {'player':<16}{'where':<22}{'balls':>6}{'min':>6}  longest wait", "$quiet"

    def _rows(self) -> Iterator[Line]:
        view = self._desk.view
        court = view.rotation.court
        shares = {share.player.id: share for share in fairness(court, view.now).shares}
        for at, player in enumerate(view.roster):
            where = where_words(view, player)
            if player.id in court.away:
                where = str(court.away[player.id])
            elif player.id in court.off:
                where = f"off the feed: {plain(court.off[player.id])}"
            mark = "⇄" if player == self._swapping else "►" if at == self._at else " "
            share = shares.get(player.id)
            room = 22 if share else 58
            name, place = fit(plain(player.shown_name), 15), fit(fit_short(where, room - 1), room)
            line = f"{mark} {name} {place}"
            yield line + _share_words(share), "bold" if at == self._at else ""
        if not view.roster:
            yield "  Nobody is on the roster yet: Esc, then F9 adds a player.", ""

    def _tail(self) -> Iterator[Line]:
        view = self._desk.view
        court = view.rotation.court
        width = self.size.width - 2
        yield fit_short(plain(view.said), width), "bold"
        if court.number > 1:
            yield fit_short(f"fair: {fairness(court, view.now).words()}", width), ""
        called = {player.id: plain(player.list_name) for player in view.roster}
        for turn in court.ahead(TURNS_AHEAD):
            others = stations_words(turn, turn.stand())
            words = [f"turn {turn.number}: feed {called.get(turn.at_feed or 0, '')}", *others]
            yield fit_short(" · ".join(words), width), "$quiet"


def _share_words(share: Share | None) -> str:
    if share is None:
        return ""
    wait = f"{share.longest_wait:.0f} min" if share.longest_wait >= 1 else "-"
    return f"{share.balls:>6}{share.minutes:>6.0f}  {wait}"
