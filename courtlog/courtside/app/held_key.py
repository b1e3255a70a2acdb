"""On the court a key held down counts once, and the Enter that closed a dialog takes no ball."""

from __future__ import annotations

from typing import Any, cast

from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.courtside.app.key_press import KeyPress, Press
from courtlog.courtside.app.key_queue import KeyQueue
from courtlog.courtside.commands.base import Court
from courtlog.courtside.sound.sounds import Sound

HELD = "Held down: counted once."

TWICE = "That Enter closed the list: press it once more to take the ball."

NO_GRADE = "No grade yet: Enter again takes the ball as not seen."

AT_THE_START = "The round begins here: wait, then Backspace goes back into the one before."


class HeldKey:
    """Keeps keys from the court that the coach did not mean as one more press."""

    def __init__(self, court: Court) -> None:
        self._court = court
        self._before: LiveRound | None = None
        self._refused: KeyPress | None = None

    def is_held(self, name: str) -> bool:
        """Whether this key, which is being delivered, is not to be carried out; says so."""
        keys: KeyQueue = cast("Any", self._court.app).keys
        state = self._court.state
        if keys.now.press in (Press.HELD, Press.HELD_SINCE_BEFORE):
            since_before = keys.now.press is Press.HELD_SINCE_BEFORE
            if since_before or state.view.message != HELD:
                self._court.carry_out(lambda: self._count_once(since_before))
            return True
        live = state.open_round
        refusal = ""
        if live is not None:
            if name == "enter":
                refusal = self._why_no_ball(live, keys)
            elif name == "backspace" and keys.now.press is Press.AGAIN and live.empty:
                refusal = AT_THE_START
        if refusal:
            state.ring(Sound.REFUSED)
            self._court.carry_out(lambda: state.refuse(refusal))
        else:
            self._before = live
        return bool(refusal)

    def _why_no_ball(self, live: LiveRound, keys: KeyQueue) -> str:
        """Why this Enter takes no ball; empty where it does.

        The first one after an Enter that closed a dialog takes none without a grade, however late
        it comes, and none at all soon after. Nor do those that follow it at once.
        """
        now, before, refused = keys.now, keys.before, self._refused
        closed = before.closed_a_dialog_before(self._court, now)
        again = before is refused and now.is_soon_after(before, otherwise=False)
        self._refused = None
        if not again and not closed:
            return ""
        graded = live.feeding.touched
        if graded and not again and not now.is_soon_after(before, otherwise=True):
            return ""
        self._refused = now
        return TWICE if graded else NO_GRADE

    def _count_once(self, since_before: bool) -> None:
        """Say that the key counts once; take back the repeat that was taken for a press."""
        if since_before and self._before is not None:
            self._court.desk.balls.as_before_repeat(self._before)
        self._court.state.refuse(HELD)
        self._court.state.ring(Sound.REFUSED)
