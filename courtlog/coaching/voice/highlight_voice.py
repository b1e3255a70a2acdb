"""The good thing and the one thing to work on, in words."""

from __future__ import annotations

from collections.abc import Mapping

from courtlog.coaching.answers.highlights import CueCount, Highlights
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.voice.plain_numbers import balls_of
from courtlog.coaching.voice.statement import SILENCE, Statement
from courtlog.plain_text import many

RULE = (
    "The good thing is the cue made most often that day, of the cues picked; the one thing is the"
    " one made least often. A cue seen on fewer than 5 balls gives way to the others."
)


def good_thing(
    of: Highlights, names: Mapping[str, str], short_names: Mapping[str, str] | None = None
) -> Statement:
    """`Good: turn, 58 of 84 balls.`; nothing where no ball was made or near."""
    if of.good is None:
        return SILENCE
    return Statement(
        f"Good: {counted(of.good, names)}.",
        RULE,
        _figures(of.good, names),
        _short(counted(of.good, short_names or names)),
    )


def one_thing(
    of: Highlights, names: Mapping[str, str], short_names: Mapping[str, str] | None = None
) -> Statement:
    """`One thing: finish, 16 of 78 balls.`; nothing where every ball seen was made."""
    cue = of.one_thing
    if cue is None:
        return SILENCE
    told = "more of it" if of.good == cue else _made(cue.counts)
    return Statement(
        f"One thing: {names[cue.cue]}, {told}.",
        RULE,
        _figures(cue, names),
        _short(f"{(short_names or names)[cue.cue]}, {told}"),
    )


def counted(cue: CueCount, names: Mapping[str, str]) -> str:
    """`turn, 58 of 84 balls`; a cue never made that came near says so."""
    counts = cue.counts
    if counts.made:
        return f"{names[cue.cue]}, {_made(counts)}"
    return f"{names[cue.cue]} came near on {balls_of(counts.near, counts.seen)}"


def _made(counts: Counts) -> str:
    """`58 of 84 balls`; of all alike `all 12 balls`, of none `none of 9 balls yet`."""
    if counts.made == counts.seen:
        return f"all {many(counts.seen, 'ball')}" if counts.seen > 1 else "made on 1 ball"
    return balls_of(counts.made, counts.seen) if counts.made else f"none of {counts.seen} yet"


def _short(words: str) -> str:
    """`turn, 58 of 84`: without the word that a table says once."""
    return words.removesuffix(" balls").removesuffix(" ball")


def _figures(cue: CueCount, names: Mapping[str, str]) -> str:
    counts = cue.counts
    unseen = f", {counts.unseen} not seen" if counts.unseen else ""
    return (
        f"{names[cue.cue]}: made {counts.words()}, near {counts.near}, missed"
        f" {counts.missed}{unseen}."
    )
