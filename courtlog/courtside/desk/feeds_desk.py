"""The desk of the feeds: how a round is fed, and after which balls the coach spoke."""

from __future__ import annotations

from courtlog.coaching.on_court.feed_order import FeedChoice
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.courtside.desk.court_state import CourtState
from courtlog.courtside.desk.round_desk import RoundDesk
from courtlog.courtside.desk.step_sentences import FEED_ONE
from courtlog.errors import CourtlogError
from courtlog.logbook.writes.feeds_writer import FeedsWriter
from courtlog.plain_text import many, plain


class FeedsDesk:
    """Changes the feeds of the round on court; what is shown is read from the book again."""

    def __init__(self, state: CourtState, rounds: RoundDesk) -> None:
        self._state = state
        self._rounds = rounds
        self._writer = FeedsWriter(state.book)

    def live(self) -> LiveRound:
        """The open round on court. Raises CourtlogError when there is none."""
        live = self._state.open_round
        if live is None:
            raise CourtlogError("No round is open.", "Enter starts the same again.")
        return live

    def choose(self, choice: FeedChoice) -> None:
        """Feed this round as chosen if it has no ball yet; else begin a new one."""
        live = self.live()
        if live.empty and self._writer.redraw(live, choice):
            self._state.resume()
        else:
            self._rounds.start(purpose=live.purpose, cues=live.cue_keys, feeds=choice)
        now = self.live()
        which = "This round" if now.id == live.id else "A new round"
        self._state.tell(f"{which}: {feeds_words(now)}")

    def other_spot(self) -> None:
        """Send the open ball to the drill's next other spot."""
        live = self.live()
        spots = live.drill.drill.spots
        if len(spots) == 1:
            self._state.turn_down(f"This drill has one spot: {plain(spots[0])}.")
            return
        number, feeds = live.feeding.number, live.feeding.feeds
        after, later = feeds.with_other_spot(number, len(spots))
        self._writer.replace_feeds(live.id, feeds, after)
        words = f"Ball {number} goes to: {plain(spots[after.spot(number)])}."
        if later is not None:
            words += f" Ball {later} changes places with it."
        self._state.resume(words)

    def mark_spoken(self) -> None:
        """Mark that the coach spoke after this ball: first wording, second, not after all."""
        live = self.live()
        number, _ = live.feeding.in_hand
        if number == live.feeding.number and not live.feeding.touched:
            raise CourtlogError("There is no ball yet to have spoken after.")
        wording = self._writer.log_spoken(live.id, number, self._state.clock())
        if wording is None:
            words = f"Ball {number}: you did not speak after all."
        else:
            words = f"Ball {number}: you spoke, {wording.words}."
            if not live.purpose.coached:
                words += " This round was to be without help."
        self._state.resume(words)


def feeds_words(live: LiveRound) -> str:
    """`10 balls, serial, 2 tough.` or `40 balls, 20 of them rated, ...` and to feed one between."""
    feeds, drill = live.feeding.feeds, live.drill.drill
    parts = [many(live.planned, "ball")]
    if feeds.every > 1:
        parts.append(f"{live.planned // feeds.every} of them rated")
    if len(drill.spots) > 1:
        parts.append(str(feeds.kind))
    if live.purpose.plans_tough:
        parts.append(f"{sum(feeds.tough)} tough")
    return ", ".join(parts) + "." + (f" {FEED_ONE}" if feeds.every > 1 else "")
