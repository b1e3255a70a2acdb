"""The three lines of the review that are read aloud: the good thing, the one thing, who is next."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from courtlog.coaching.answers.highlights import CueCount, Highlights
from courtlog.coaching.game.drills import Cue
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.coaching.on_court.round_to_start import NextRound
from courtlog.coaching.voice import court_voice
from courtlog.coaching.voice.highlight_voice import good_thing, one_thing
from courtlog.coaching.voice.statement import Statement
from courtlog.plain_text import plain

GOOD, WORK, LEAST = "GOOD", "WORK", "LEAST"
"""Before the good thing, and before the one thing of a round with help and of one without."""


@dataclass(frozen=True, slots=True)
class AloudLine:
    """A line to read aloud, in its sentence and in few words."""

    statement: Statement
    few_words: tuple[str, ...]
    """The same for large letters, the longest first."""
    below: str = ""
    """What stands under it in small letters."""


def three_lines(
    best: Highlights,
    live: LiveRound,
    names: Mapping[str, str],
    coming: NextRound | None,
    cues_key: str,
) -> Iterator[AloudLine]:
    """The lines there are; `names` are the cues' names for all, `coming` the round that is next.

    `cues_key` is the key that picks cues; empty where only the head coach does.
    """
    cues = {cue.key: cue for cue in live.drill.cues}
    if best.good is not None:
        yield AloudLine(good_thing(best, names), tuple(_counted(GOOD, best.good, cues)))
    if best.one_thing is not None:
        coached = live.purpose.coached
        label = WORK if coached else LEAST
        phrase = _phrase(cues.get(best.one_thing.cue)) if coached else court_voice.KEEP_QUIET
        words = tuple(_counted(label, best.one_thing, cues))
        yield AloudLine(one_thing(best, names), words, phrase)
    if live.purpose is Purpose.CHOOSING:
        then = _next_up(coming, "Then").sentence if coming else ""
        pick = f"PICK CUES ({cues_key.upper()})" if cues_key else "HEAD PICKS CUES"
        yield AloudLine(court_voice.pick_cues(cues_key), (f"NEXT {pick}", pick), then)
    elif coming is not None:
        yield AloudLine(_next_up(coming, "Next"), tuple(_who_and_what(coming)))


def _counted(label: str, cue: CueCount, cues: Mapping[str, Cue]) -> Iterator[str]:
    """`GOOD SHOULDER TURN 58 OF 84`, then with the cue's shorter name, then without the label."""
    counts = cue.counts
    made = f"{counts.made} OF {counts.seen}"
    if label == GOOD and not counts.made:
        made = f"NEAR {counts.near} OF {counts.seen}"
    known = cues.get(cue.cue)
    names = (plain(known.name_for_all), plain(known.name)) if known else (cue.cue,)
    for start in (f"{label} ", ""):
        yield from (f"{start}{name} {made}".upper() for name in dict.fromkeys(names))


def _phrase(cue: Cue | None) -> str:
    return f"Say “{plain(cue.say_inner)}” or “{plain(cue.say_outer)}”." if cue else ""


def _next_up(coming: NextRound, when: str) -> Statement:
    return court_voice.next_up(
        plain(coming.player.shown_name),
        coming.purpose,
        plain(coming.used.drill.name),
        coming.reason,
        coming.rated,
        when,
    )


def _who_and_what(coming: NextRound) -> Iterator[str]:
    """`NEXT TOVE HOLD`, then with a shorter name, then without a word."""
    player = coming.player
    first, *_ = player.name.split() or [player.name]
    names = dict.fromkeys(map(plain, (player.shown_name, player.list_name, first)))
    for start, end in (("NEXT ", f" {coming.purpose}"), ("", f" {coming.purpose}"), ("NEXT ", "")):
        yield from (f"{start}{name}{end}".upper() for name in names)
