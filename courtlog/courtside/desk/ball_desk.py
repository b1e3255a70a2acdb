"""The desk of the ball in hand: each key is stored first and then shown, or taken back."""

from __future__ import annotations

from dataclasses import replace

from courtlog.coaching.on_court import feeding
from courtlog.coaching.on_court.feeding import Meaning, Step, ToughLast
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.coaching.on_court.next_act import Act
from courtlog.courtside.desk.court_state import CourtState
from courtlog.courtside.desk.idle_time import IdleTime
from courtlog.courtside.desk.keymap import shown_key
from courtlog.courtside.desk.next_round import what_next
from courtlog.courtside.desk.rotation_desk import RotationDesk
from courtlog.courtside.desk.step_sentences import step_words, whose
from courtlog.courtside.desk.view import HELP_KEY
from courtlog.courtside.sound.sounds import Sound
from courtlog.logbook.reads import lookups
from courtlog.logbook.writes.round_writer import RoundWriter
from courtlog.plain_text import capital


class BallDesk:
    """Feeding keys, notes, the basket and the pause of the round on court."""

    def __init__(self, state: CourtState, idle: IdleTime, rotation: RotationDesk) -> None:
        self._state = state
        self._idle = idle
        self._rotation = rotation
        self._writer = RoundWriter(state.book)
        self._replaced: dict[int, LiveRound | None] = {}

    def remember_choice(self, before: LiveRound | None, by: int) -> None:
        """Remember the round without a ball that round `by` of the same player has replaced.

        None where Backspace cannot bring it back, since more than the round was chosen.
        """
        self._replaced[by] = before

    def press(self, meaning: Meaning) -> None:
        """Carry out a feeding key: store it, then show it."""
        state = self._state
        live = state.open_round
        if live is None:
            act = what_next(state)
            back = f"back in: {state.view.key(Act.BACK_IN)}"
            do = act.to_do if act else ""
            words = do if act and act.does(Act.BACK_IN) else "; ".join(filter(None, (do, back)))
            state.turn_down(f"No round is open. {capital(words)}.")
            return
        was_paused = state.view.paused
        if was_paused:
            self.toggle_pause()
        after, steps = feeding.press_key(live.feeding, meaning)
        if not steps:
            if isinstance(meaning, ToughLast):
                state.turn_down("No ball is taken yet: t marks the one in hand as tough.")
            return  # any other asks for what is so already
        idle = self._idle.subtract()
        step, *between = steps
        self._writer.store_key(live.id, step, state.clock(), *between)
        had_balls = not state.view.basket.empty
        self._show(replace(live, feeding=after), step)
        if state.refused:
            state.tell("")
        if was_paused or not _speaks_for_itself(step):
            state.tell(step_words(live, step) + (" The pause is over." if was_paused else ""))
        if step.took:
            self._ring_if_due(had_balls, len(live.feeding.taken))
            self._rotation.check_ball_limit()
        if idle:
            state.tell(idle + state.view.message)

    def take_back(self) -> None:
        """Undo the last key; in a round with none left, go back into the round before."""
        state = self._state
        live = state.view.live
        if live is None:
            state.turn_down("There is nothing to take back.")
        elif live.ended_at is not None:
            self._writer.go_to_round(live.id)
            self._rotation.bring_back(live.player)
            self._rotation.resettle(f"Back in {whose(live)} round.")
            state.ring(Sound.TAKEN_BACK)
        elif not live.feeding.steps:
            self._go_back_a_round(live)
        else:
            before, steps = feeding.take_back_key(live.feeding)
            self._writer.take_back_key(live.id, steps[0], state.clock(), *steps[1:])
            step = steps[-1]
            self._show(replace(live, feeding=before), step.reversed())
            state.tell(f"Taken back: {step_words(live, step)}")
            state.ring(Sound.TAKEN_BACK)

    def as_before_repeat(self, before: LiveRound) -> None:
        """Undo the last key, which was no press of its own: `before` is the round until then."""
        live = self._state.open_round
        if live is None or live.id != before.id:
            return
        if len(live.feeding.steps) > len(before.feeding.steps):
            self.take_back()
        elif len(live.feeding.steps) < len(before.feeding.steps):
            _, taken_back = feeding.take_back_key(before.feeding)
            step, *between = reversed(taken_back)
            self._writer.store_key(live.id, step, self._state.clock(), *between)
            self._show(replace(live, feeding=before.feeding), step)

    def finish_open_ball(self) -> str:
        """Take a ball half rated as it is, before its round is left; returns a sentence on it."""
        live = self._state.open_round
        if live is None or not live.feeding.touched:
            return ""
        number = live.feeding.number
        self.press(feeding.TakeBall())
        return f"Ball {number} taken as it was. "

    def mark_clip(self) -> None:
        """Put the time of day on the ball in hand, to find it in a phone video."""
        if self._state.open_round is not None:
            at_ms = self._state.clock()
            self.press(feeding.MarkClip(at_ms - at_ms % 1000))

    def note(self, text: str) -> None:
        """Put a note on the ball in hand, or on the round before its first ball."""
        live = self._state.view.live
        text = text.strip()
        if live is None or not text:
            return
        number, _ = live.feeding.in_hand
        on_ball = number if live.feeding.touched or number < live.feeding.number else None
        self._writer.add_note(live.id, on_ball, text, self._state.clock())
        self._state.tell(f"Noted on {'the round' if on_ball is None else f'ball {on_ball}'}.")

    def pick_up(self, size: int | None = None) -> None:
        """Fill the basket again, at a new size if one is given."""
        self._writer.refill_basket(size)
        self._state.read_basket()
        self._state.tell(f"Basket full: {self._state.view.basket.size} balls.")

    def toggle_pause(self) -> None:
        """Pause the round's time, or go on."""
        state = self._state
        at_ms, idle = state.clock(), ""
        if state.view.paused:
            self._writer.end_pause(at_ms)
            self._idle.restart()
        else:
            idle = self._idle.subtract()
            self._writer.pause(at_ms)
        state.view = replace(state.view, paused_at=None if state.view.paused else at_ms)
        state.read_rotation()
        words = "Paused; any feeding key goes on." if state.view.paused else "Going on."
        state.tell(idle + words)

    def refuse_key(self, name: str) -> None:
        """Say that a key means nothing here and ring, so that no grade is lost unseen."""
        self._state.ring(Sound.REFUSED)
        view = self._state.view
        change = f"{view.key(Act.CHANGE_PAD)} changes it, {HELP_KEY} helps"
        self._state.refuse(f"{shown_key(name)} is not on this pad ({view.pad.title}): {change}.")

    def _go_back_a_round(self, live: LiveRound) -> None:
        book = self._state.book
        if live.id in self._replaced:
            self._undo_choice(live.id, self._replaced[live.id])
            return
        before = lookups.last_round_before(book, live.id) if live.empty else None
        if before is None:
            self._state.turn_down("There is nothing more to take back in this round.")
            return
        self._writer.go_to_round(before)
        back = lookups.live_round(book, before)
        self._rotation.resettle(f"Back in {whose(back)} round, at ball {back.feeding.number}.")
        self._state.ring(Sound.TAKEN_BACK)

    def _undo_choice(self, chosen: int, before: LiveRound | None) -> None:
        """Put the round that was replaced back on court, new in the book if it was forgotten."""
        if before is None:
            key = self._state.view.key(Act.PICK_CUES)
            self._state.tell(f"There is no ball to take back here; {key} picks the cues again.")
            return
        choice = before.feeding.feeds.choice(before.drill.drill)
        back = self._writer.start_round(
            before.player.id,
            before.drill,
            before.purpose,
            before.cue_keys,
            self._state.clock(),
            choice,
            before.plan_balls,
        )
        del self._replaced[chosen]
        if before.id in self._replaced:
            self._replaced[back] = self._replaced.pop(before.id)
        what = f"{before.drill.drill.name}, {before.purpose}"
        self._rotation.resettle(f"Choice taken back. {before.player.shown_name}: {what}.")

    def _show(self, live: LiveRound, step: Step) -> None:
        self._state.view = replace(self._state.view, live=live)
        if not (step.was_open and step.is_open):
            self._state.read_basket()

    def _ring_if_due(self, had_balls: bool, before: int) -> None:
        state = self._state
        live = state.view.live
        assert live is not None
        if had_balls and state.view.basket.empty:
            act = what_next(state)
            picks_up = act is not None and act.does(Act.PICK_UP)
            words = act.sentence if act and picks_up else "The basket is empty."
            state.tell(f"{state.view.message} {words}")
            state.ring()
        elif before < live.planned <= len(live.feeding.taken):
            act = what_next(state)
            full = f"{live.planned} balls: the round is full."
            state.tell(f"{act.sentence if act else full} Or feed on.")
            state.ring()


def _speaks_for_itself(step: Step) -> bool:
    """Whether the step only graded the open ball: its row shows that as shape and word already."""
    return step.is_open and step.before.grades != step.after.grades
