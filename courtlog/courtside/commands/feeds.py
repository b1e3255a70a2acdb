"""Commands for how the round is fed, and for what the coach said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.courtside.commands.base import Command

if TYPE_CHECKING:
    from courtlog.courtside.app.court import CourtScreen


class SaidIt(Command):
    """You spoke after this ball: first wording, again second wording, again not after all."""

    keys, shown, label, in_foot = ("h", "+"), "h", "you spoke", False

    def run(self, court: CourtScreen) -> None:
        from courtlog.courtside.desk.feeds_desk import FeedsDesk

        FeedsDesk(court.desk).say()


class OtherSpot(Command):
    """The next ball goes to the drill's next other spot; a later one changes places with it."""

    keys, shown, label, in_foot = ("right",), "→", "other spot", False

    def run(self, court: CourtScreen) -> None:
        from courtlog.courtside.desk.feeds_desk import FeedsDesk

        FeedsDesk(court.desk).other_spot()


class FeedsOfRound(Command):
    """Feeds of this round: order, tough balls, rate every ball or every second, when to speak."""

    keys, shown, label, in_foot = ("f10",), "F10", "feeds", False

    def run(self, court: CourtScreen) -> None:
        from courtlog.courtside.desk.feeds_desk import FeedsDesk
        from courtlog.courtside.screens.feeds_screen import FeedsScreen

        feeds = FeedsDesk(court.desk)
        court.ask(FeedsScreen(feeds.live(), court.desk.view.speak), feeds.choose)
