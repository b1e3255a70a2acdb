"""What stands beside and under the row of a cue: its phrases, its share, its rounds as a strip."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest
from textwrap import wrap

from textual.content import Content

from courtlog.coaching.answers.cue_rounds import CueRound
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.drills import Cue
from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.coaching.game.rounds import Ball, cue_counts
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.surface.lettering import fit, fit_short
from courtlog.courtside.surface.surface import Part, Row
from courtlog.plain_text import plain
from courtlog.reports.layout.cue_strip import BROADEST, bar_rows, column, cue_strip, legend

OF, PERCENT = 10, 5
"""Cells of `14 of 20` and of ` 70%`."""

LOOK_LABEL = 9
"""Cells of the word before what a grade looks like."""

LOOKS_IN_LESS_ROOM = (
    tuple(Grade),
    (Grade.MISSED, Grade.MADE),
    (Grade.NEAR, Grade.MADE),
    (Grade.MADE,),
    (),
)
"""Which grades say what they look like, the most first."""

NO_SHARE = ("no running share", "no share")


class CueBlockPart(Part):
    """A part of the block of one cue.

    The layout gives a box only to the cues of the round on court. While a yardstick runs it gives
    one only to what each grade looks like.
    """

    def __init__(self, row: int) -> None:
        self.row = row

    def subject(self, view: CourtView) -> object:
        live = round_shown(view)
        return live.id, live.cue_keys, live.purpose


class CuePhrases(CueBlockPart):
    """The phrases to say: each on a line of its own, or both on the one there is."""

    def text(self, view: CourtView, width: int) -> Content:
        cue = round_shown(view).cues[self.row]
        phrases = [f"  “{plain(phrase)}”" for phrase in (cue.say_inner, cue.say_outer)]
        if self.height < len(phrases):
            phrases = [f"{phrases[0]} / {phrases[1].lstrip()}"]
        lines = (Content.styled(fit_short(phrase, width), "$quiet") for phrase in phrases)
        return Content("\n").join(lines)


class CueLooks(CueBlockPart):
    """What missed, near and made look like."""

    def text(self, view: CourtView, width: int) -> Content:
        return Content("\n").join(_looks(round_shown(view).cues[self.row], width, self.height))


class CueTally:
    """The counts of one cue over the balls taken, which two parts ask for with every ball."""

    def __init__(self, row: int) -> None:
        self._row = row
        self._taken: tuple[Ball, ...] | None = None
        self._counts = Counts()

    def counts(self, view: CourtView) -> Counts:
        """The counts of the round on court."""
        taken = round_shown(view).feeding.taken
        if taken is not self._taken:
            self._taken, self._counts = taken, cue_counts(taken, self._row)
        return self._counts


class CueShare(CueBlockPart):
    """The round's counts and share, on one line or on two."""

    def __init__(self, row: int, tally: CueTally) -> None:
        super().__init__(row)
        self._tally = tally

    def subject(self, view: CourtView) -> object:
        return super().subject(view), self._tally.counts(view)

    def rows(self, view: CourtView) -> Sequence[Row]:
        counts = self._tally.counts(view)
        of, percent = counts.of_words(), counts.percent_words()
        lines = [of.rjust(self.width), percent.rjust(self.width)]
        if self.height == 1:
            lines = [fit(of, OF) + percent.rjust(PERCENT)]
        return [((fit(line, self.width), ""),) for line in lines]


class CueTrend(CueBlockPart):
    """The player's rounds of this drill as a strip, the one on court at its end."""

    def __init__(self, row: int, tally: CueTally) -> None:
        super().__init__(row)
        self._tally = tally

    def subject(self, view: CourtView) -> object:
        """Most balls leave the column of the round on court as high as it was."""
        on_court = self._on_court(view)
        drawn = on_court and column(on_court.made, on_court.seen, bar_rows(self.height))
        return super().subject(view), drawn, view.earlier[self.row], view.day.date

    def rows(self, view: CourtView) -> Sequence[Row]:
        on_court, today = self._on_court(view), view.day.date
        rounds = view.earlier[self.row]
        if on_court is not None:
            rounds += (on_court,)
        strip = cue_strip(rounds, today, self.height, self.width, BROADEST)
        return [((row.ljust(self.width), ""),) for row in strip]

    def _on_court(self, view: CourtView) -> CueRound | None:
        live = round_shown(view)
        if not live.feeding.taken:
            return None
        counts = self._tally.counts(view)
        return CueRound(view.day.date, live.purpose, counts.made, counts.seen, view.clinic.id)


class TrendTitle(Part):
    """The title over the strips, which says what their signs mean."""

    def subject(self, view: CourtView) -> object:
        return view.live and view.live.purpose.measured

    def text(self, view: CourtView, width: int) -> Content:
        if view.live is None:
            return Content("")
        title = legend(width, title="rounds of this drill: ")
        if view.live.purpose.measured:
            title = next((words for words in NO_SHARE if len(words) <= width), "")
        return Content.styled(title, "$quiet")


class ShareTitle(TrendTitle):
    """The title over the shares, where they stand in the cue's own line."""

    def text(self, view: CourtView, width: int) -> Content:
        hidden = view.live is None or view.live.purpose.measured
        return Content.styled("" if hidden else "made", "$quiet")


def round_shown(view: CourtView) -> LiveRound:
    """The round on court, of a view that has one."""
    assert view.live is not None
    return view.live


def _looks(cue: Cue, width: int, height: int) -> list[Content]:
    """What missed, near and made look like: as many of them as there is room for whole."""
    texts = dict(zip(Grade, (cue.missed, cue.near, cue.made), strict=True))
    room = max(width - LOOK_LABEL, 1)
    wrapped = {grade: wrap(plain(words), room) for grade, words in texts.items()}
    for grades in LOOKS_IN_LESS_ROOM:
        if sum(len(wrapped[grade]) for grade in grades) <= height:
            break
    lines = []
    for grade in grades:
        for label, line in zip_longest([f"  {LOOKS[grade].word}"], wrapped[grade], fillvalue=""):
            lines.append(Content.styled(f"{label:<{LOOK_LABEL}}{line}", "$quiet"))
    return lines
