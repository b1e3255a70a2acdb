"""The command for a clinic on several courts."""

from __future__ import annotations

from courtlog.courtside import screens
from courtlog.courtside.commands.base import Command, Court


class OtherCourts(Command):
    """The other courts: hand a player over, pick one, read the stick."""

    keys, label, in_foot = (), "other courts", False
    letter, seldom = "b", True

    def run(self, court: Court) -> None:
        show_other_courts(court)


def show_other_courts(court: Court, elsewhere: bool = False) -> None:
    """Open the screen of the other courts; `elsewhere`: on the first player of another one.

    Raises CourtlogError where the clinic is on one court.
    """
    session = screens.courts.trade_session.TradeSession(court.desk)
    first = len(session.here()) if session.on_the_way() or elsewhere else 0
    court.state.tell("")
    court.open(screens.courts.others_screen.OthersScreen(session, first), lambda _: court.look())
