"""The parts of the look that is read from two metres: few words, all large, and marks as shapes.

Words get shorter before letters get smaller. A character that has no large drawing stands small.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache, lru_cache

from textual.content import Content

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.surface.cue_block import round_shown
from courtlog.courtside.surface.far_words import (
    ball_spoken_of,
    caution_of,
    is_held_back,
    shorter,
    to_do,
    to_say,
    warning,
)
from courtlog.courtside.surface.key_lines import Hint, flow
from courtlog.courtside.surface.large_letters import in_cells, largest
from courtlog.courtside.surface.lettering import cells, first_that_fits, fit, fit_short
from courtlog.courtside.surface.parts import GRADE_COLOURS, two_lines
from courtlog.courtside.surface.surface import Part, Row, row_of
from courtlog.plain_text import plain

BETWEEN = 3
"""Cells between the words at the left and those at the right, and between two marks."""


_TITLES = "this · last"

RED = "RED"
"""Stands large before what to say while a red holds back the player on court."""

WRITING = "WRITING"
"""Stands small at the right over the marks while a key waits for a slow disk."""

KEPT = 128
"""Rows of words, and of marks, that are kept as they were drawn."""


class LargeRow(Part):
    """A row of large words: some at the left, some at the right, each given longest first."""

    def words(self, view: CourtView) -> tuple[Sequence[str], Sequence[str]]:
        """What stands at the left, and what at the right; of each, ways to say the same."""
        raise NotImplementedError

    def rows(self, view: CourtView) -> Sequence[Row]:
        left, right = self.words(view)
        return _row(tuple(left), tuple(right), self.width, self.height)


class WhoHits(LargeRow):
    """Who is hitting, and the open ball's number of how many."""

    def subject(self, view: CourtView) -> object:
        live = view.live
        if live is None:
            return None
        return live.player, view.ended, live.feeding.number, live.planned

    def words(self, view: CourtView) -> tuple[Sequence[str], Sequence[str]]:
        live = view.live
        if live is None:
            return ("NO ROUND",), ()
        player = live.player
        names = [plain(player.shown_name), *shorter(plain(player.list_name))]
        if view.ended:
            return names, (f"{len(live.feeding.taken)} DONE", str(len(live.feeding.taken)))
        number = live.feeding.number
        return names, (f"{number}/{live.planned}", str(number))


class NextFeed(LargeRow):
    """Where the next ball goes and whether it is tough; or why none is to be fed."""

    def subject(self, view: CourtView) -> object:
        live = view.live
        if live is None:
            return view.next_act
        return live.next_spot_word(), live.feeding.open.tough, view.ended, view.paused

    def words(self, view: CourtView) -> tuple[Sequence[str], Sequence[str]]:
        live = view.live
        if live is None:
            return to_do(view), ()
        if view.ended:
            return ("ROUND OVER", "OVER"), ()
        if view.paused:
            return ("PAUSED",), ()
        tough = ("TOUGH",) if live.feeding.open.tough else ()
        return shorter(plain(live.next_spot_word())), tough


class WhatToDo(LargeRow):
    """To say something now or to stay quiet; and what stands in the way of the next ball."""

    def subject(self, view: CourtView) -> object:
        live, advice = view.live, view.advice
        if live is None or view.ended:
            return warning(view), view.next_act, live is None
        speaks = advice is not None and advice.speak and (advice.cue, ball_spoken_of(live))
        quiet = advice is not None and not advice.speak
        red = is_held_back(view)
        return warning(view), live.id, live.cue_keys, live.purpose, speaks, quiet, red

    def words(self, view: CourtView) -> tuple[Sequence[str], Sequence[str]]:
        said = to_say(view)
        if is_held_back(view):
            said = (*(f"{RED}: {words}" for words in said), RED)
        return said, warning(view)


class WhoIsNext(LargeRow):
    """Who hits next, to be called in time; it stands where the marks leave room for it."""

    def subject(self, view: CourtView) -> object:
        return view.rotation

    def words(self, view: CourtView) -> tuple[Sequence[str], Sequence[str]]:
        names = [plain(player.list_name) for player in view.rotation.waiting[:2]]
        if not names:
            return ("NOBODY WAITS",), ()
        first, *then = names
        both = [f"NEXT {first}, {second}" for second in then]
        return (*both, *(f"NEXT {name}" for name in shorter(first))), ()


class ColumnsOfMarks(Part):
    """Over the marks: which of them are this ball's, which the last one's; a caution that holds."""

    def subject(self, view: CourtView) -> object:
        return self.height, caution_of(view)

    def text(self, view: CourtView, width: int) -> Content:
        titles, caution = Content.styled(_TITLES, "$quiet"), caution_of(view)
        room = width - cells(_TITLES) - 2 * BETWEEN
        words = fit_short(caution, room).rstrip() if caution else ""
        return titles + Content.styled(" " * BETWEEN + words, "bold") if words else titles


class SlowWriting(Part):
    """Small, because a slow disk brings it with every key: that the last one is being written."""

    def subject(self, view: CourtView) -> object:
        return view.writing

    def text(self, view: CourtView, width: int) -> Content:
        return Content.styled(WRITING if view.writing else "", "bold")


class CueMarks(Part):
    """One cue: this ball's mark, the last ball's mark, its name."""

    def __init__(self, row: int) -> None:
        self.row = row

    def subject(self, view: CourtView) -> object:
        live = round_shown(view)
        return (*self._grades(live), live.id, live.cue_keys[self.row])

    def rows(self, view: CourtView) -> Sequence[Row]:
        live = round_shown(view)
        this, last = self._grades(live)
        return _marks(this, last, plain(live.cues[self.row].name), self.width, self.height)

    def _grades(self, live: LiveRound) -> tuple[Grade | None, Grade | None]:
        state = live.feeding
        last = state.taken[state.last - 1].grades[self.row] if state.last else None
        return state.open.grades[self.row], last


class FewKeys(Part):
    """The key that leads to the close look, and the letters behind Esc."""

    def __init__(self, hints: Sequence[Hint], behind_escape: Sequence[Hint]) -> None:
        self._hints = hints
        self._behind_escape = behind_escape

    def subject(self, view: CourtView) -> object:
        return self.height

    def text(self, view: CourtView, width: int) -> Content:
        first, *cut = self._lines(self._hints, self._behind_escape, width)
        if cut:
            shorter = [hint.shorter for hint in self._hints]
            letters = [hint.shorter for hint in self._behind_escape]
            first = self._lines(shorter, letters, width)[0]
        return first

    def _lines(
        self, hints: Sequence[Hint], behind_escape: Sequence[Hint], width: int
    ) -> list[Content]:
        """One line where all of it fits."""
        line = flow(hints, width)[0]
        first, *others = flow(behind_escape, width - cells(line.plain), ": ")
        return [line + first, *others]


class FarMessage(Part):
    """What was said last and, at a standstill, what to do now; each on a line.

    On one line alone it is the second of them, or the first, or else the keys.
    """

    def __init__(self, keys: FewKeys) -> None:
        self._keys = keys

    def subject(self, view: CourtView) -> object:
        return view.message, view.next_act

    def text(self, view: CourtView, width: int) -> Content:
        act = view.next_act
        to_do = "► " + plain(first_that_fits(act.in_ever_fewer_words, width - 2)) if act else ""
        if self.height == 1:
            said = to_do or fit_short(plain(view.message), width)
            return Content.styled(said, "bold") if said else self._keys.text(view, width)
        if act is None:
            return two_lines(view.message, width)
        said = plain(view.message) or plain(act.reached)
        return Content.styled(f"{fit_short(said, width)}\n{to_do}", "bold")


@cache
def mark(grade: Grade | None, rows: int) -> tuple[str, ...]:
    """A grade as a solid square shape: filled, half, crossed, or an empty frame for not seen."""
    size = 2 * rows
    stroke = max(1, round(size / 6))
    edge = range(stroke, size - stroke)

    def ink(x: int, y: int) -> bool:
        match grade:
            case Grade.MADE:
                return True
            case Grade.NEAR:
                return x <= y
            case Grade.MISSED:
                return min(abs(x - y), abs(x + y - size + 1)) < stroke
            case None:
                return x not in edge or y not in edge

    return in_cells(
        tuple("".join("#" if ink(x, y) else "." for x in range(size)) for y in range(size))
    )


@lru_cache(KEPT)
def _row(left: Sequence[str], right: Sequence[str], width: int, rows: int) -> Sequence[Row]:
    """The words at the right in three fifths of the width at most, those at the left in the rest.

    Kept, because a round comes back to the same few words.
    """
    end = _in_rows(largest(right, 3 * width // 5, rows) if right else ("",), rows)
    room = width - cells(end[0]) - BETWEEN if right else width
    begin = _in_rows(largest(left, room, rows) if left else ("",), rows)
    gap = width - cells(end[0])
    return _bold(fit(a, gap) + b for a, b in zip(begin, end, strict=True))


@lru_cache(KEPT)
def _marks(
    this: Grade | None, last: Grade | None, cue: str, width: int, rows: int
) -> Sequence[Row]:
    """The two marks of a cue, and its name."""
    marks = mark(this, rows), mark(last, rows)
    room = width - 2 * (cells(marks[0][0]) + BETWEEN)
    name = _in_rows(largest(shorter(cue), room, rows), rows)
    gap = " " * BETWEEN
    styles = _mark_style(this), _mark_style(last), "bold"
    return [
        row_of(zip((a + gap, b + gap, fit(words, room)), styles, strict=True), width)
        for a, b, words in zip(*marks, name, strict=True)
    ]


def _mark_style(grade: Grade | None) -> str:
    return "bold" if grade is None else f"bold {GRADE_COLOURS[grade]}"


def _bold(rows: Iterable[str]) -> Sequence[Row]:
    return tuple(((row, "bold"),) for row in rows)


def _in_rows(drawn: tuple[str, ...], rows: int) -> tuple[str, ...]:
    """So many rows of one width; lower letters stand in the middle."""
    width = max(map(cells, drawn))
    above = (rows - len(drawn)) // 2
    blank = (" " * width,)
    return blank * above + drawn + blank * (rows - len(drawn) - above)
