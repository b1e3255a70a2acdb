"""The other courts: hand a player over, pick one, tell and read the stick; how old all that is."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager

from textual.app import ComposeResult
from textual.events import Key

from courtlog.coaching.game.court_book import Owner
from courtlog.coaching.game.people import Player
from courtlog.courtside.dialogs.own_screen import OwnDialog, next_index
from courtlog.courtside.dialogs.questions import Choice, PickList, TextQuestion
from courtlog.courtside.screens.courts.trade_session import TradeSession
from courtlog.courtside.surface.lettering import Line, Lines, fit, fit_short, foot_lines
from courtlog.plain_text import plain
from courtlog.reports.layout.page import lines_of

FOOT = (
    ("↑↓", "choose"),
    ("h", "hand over"),
    ("p", "pick"),
    ("r", "read the stick"),
    ("s", "its folder"),
    ("Esc", "close"),
)

_WHOSE = {
    Owner.HEAD: "head coach's book",
    Owner.ASSISTANT: "assistant's book",
    Owner.FREE: "free book",
}


class OthersScreen(OwnDialog[None]):
    """Returns nothing: what is done here is stored at once."""

    TOPIC = "laptops"

    def __init__(self, session: TradeSession, first: int = 0) -> None:
        super().__init__()
        self._session = session
        self._index = first

    def compose(self) -> ComposeResult:
        yield Lines()

    def on_mount(self) -> None:
        self.look()

    def on_resize(self) -> None:
        self.look()

    def in_book(self) -> AbstractContextManager[None]:
        return self._session.desk.book.reading()

    def read(self) -> None:
        self._session.desk.state.read_rotation()

    def show(self) -> None:
        self.query_one(Lines).show(self._lines())

    def say(self, message: str) -> None:
        self._session.desk.state.refuse(message)

    def take_key(self, event: Key) -> None:
        key, players = event.key, self._players()
        to = next_index(key, self._index, len(players))
        if key == "escape":
            self.dismiss(None)
        elif to is not None:
            self._index = to
        elif key == "r":
            self._with_stick(self._read_stick)
        elif key == "s":
            title = "Folder of the stick"
            self.ask(TextQuestion(title, self._session.own.stick), self._session.set_stick)
        elif key in ("h", "p") and players:
            player = players[min(self._index, len(players) - 1)]
            is_here = player in self._session.here()
            if key == "p":
                self._pick(player, is_here)
            else:
                self._hand_over(player, is_here)

    def _pick(self, player: Player, is_here: bool) -> None:
        if is_here:
            self.say(f"{player.shown_name} is on this court: h hands over.")
        else:
            self._with_stick(lambda: self._picked(player))

    def _picked(self, player: Player) -> None:
        self._session.pick(player)
        self._index = 0

    def _read_stick(self) -> None:
        self._session.tell_and_read()
        if self._session.on_the_way():
            self._index = len(self._session.here())

    def _with_stick(self, act: Callable[[], None]) -> None:
        """Say that the stick is read, and do it once that is painted: a joining can take a while.

        Keys wait until then (`KeyQueue`).
        """
        self._session.desk.state.tell("Reading the stick ...")
        # The lines ask for a new frame first; the second wait is for that frame.
        self.query_one(Lines).call_after_refresh(
            self.call_after_refresh, lambda: self.carry_out(act)
        )

    def _hand_over(self, player: Player, is_here: bool) -> None:
        courts = self._session.other_courts()
        if not is_here:
            self.say(f"{player.shown_name} is on another court: p picks.")
        elif len(courts) == 1:
            self._session.hand_over(player, courts[0])
        else:
            choices = [Choice(court, f"court {court}") for court in courts]
            self.ask(
                PickList(f"{player.shown_name} goes to", choices),
                lambda court: self._session.hand_over(player, court),
            )

    def _players(self) -> list[Player]:
        return [*self._session.here(), *(player for player, _ in self._session.elsewhere())]

    def _lines(self) -> list[Line]:
        """As many players as there is room for around the chosen one; the foot stays."""
        foot = foot_lines(FOOT, self.size.width - 2)
        head, rows, tail = list(self._head()), list(self._rows()), list(self._tail())
        shown = max(1, self.size.height - len(head) - len(tail) - len(foot))
        start = min(max(0, self._index - shown + 1), max(0, len(rows) - 1))
        lines = [*head, *rows[start : start + shown], *tail]
        lines += [("", "")] * (self.size.height - len(lines) - len(foot))
        return [*lines, *foot]

    def _head(self) -> Iterator[Line]:
        width, own = self.size.width - 2, self._session.own
        yield f"Court {plain(own.court)} and the others · {_WHOSE[own.owner]}", "bold"
        for age in self._session.ages():
            yield fit_short(f"known of {plain(age)}", width), "$quiet"
        yield "", ""

    def _rows(self) -> Iterator[Line]:
        court, index = self._session.desk.view.rotation.court, 0
        for player in self._session.here():
            where = "at the feed here" if player.id == court.at_feed else "here"
            off = court.off.get(player.id)
            yield self._row(index, player, f"{where} · off: {plain(off)}" if off else where)
            index += 1
        own = self._session.own.court
        for player, at in self._session.elsewhere():
            on_the_way = f"on the way here from court {at.before}"
            yield self._row(index, player, on_the_way if at.court == own else f"court {at.court}")
            index += 1

    def _row(self, index: int, player: Player, where: str) -> Line:
        chosen = index == self._index
        name = fit(plain(player.shown_name), 16)
        words = f"{'►' if chosen else ' '} {name} {plain(where)}"
        return fit_short(words, self.size.width - 2), "bold" if chosen else ""

    def _tail(self) -> Iterator[Line]:
        yield "", ""
        width = self.size.width - 2
        for line in lines_of(plain(self._session.desk.view.message), width=width):
            yield line, "bold"
