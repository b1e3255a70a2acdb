"""The command for what comes back on paper."""

from __future__ import annotations

from typing import Any, cast

from courtlog.courtside import screens
from courtlog.courtside.commands.base import Command, Court


class TypeSheet(Command):
    """Type a court sheet, a home yardstick or a form in, by the code at its top."""

    keys, label, in_foot = (), "type a sheet in", False
    letter, seldom = ",", True

    def run(self, court: Court) -> None:
        state, paper = court.state, screens.paper
        session = paper.typing_session.TypingSession(
            state.book, lambda: state.library, state.settings, state.clock
        )
        screen = paper.typing_screen.TypingScreen(session, "", cast("Any", court.app).is_repeat)

        def typed(outcome: str | None) -> None:
            if outcome:
                court.carry_out(lambda: state.resume(outcome))

        court.open(screen, typed)
