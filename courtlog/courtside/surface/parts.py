"""The parts of the court screen, each a text of what it shows of the view."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from textual.content import Content

from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.game.speaking import Advice
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.coaching.on_court.next_act import ROUND_OVER, Act, NextAct
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.surface.cue_block import round_shown
from courtlog.courtside.surface.lettering import big_digits, cells, first_that_fits, fit, fit_short
from courtlog.courtside.surface.surface import Part, Row, Run, row_of
from courtlog.plain_text import plain

CUE_NAME, KEYS, WORD = 13, 15, 9
"""Widths of the columns of a cue row, in cells; the round's marks take what is left."""

GRADE_COLOURS = {Grade.MADE: "$made", Grade.NEAR: "$near", Grade.MISSED: "$missed"}
"""The colour of each grade in the theme, which only helps: its shape or word says the same."""

ROOM_FOR_ADVICE = 16
"""Cells that the shortest advice takes beside what to do."""


class TopLine(Part):
    """Where we are: clinic, day, court, coach."""

    def subject(self, view: CourtView) -> object:
        return view.clinic, view.day, view.paused, view.read_only, view.writing, view.care.heat

    def text(self, view: CourtView, width: int) -> Content:
        parts = [plain(view.clinic.name), view.day.words()]
        if view.day.court:
            parts.append(f"court {plain(view.day.court)}")
        if view.day.coach:
            parts.append(f"coach {plain(view.day.coach)}")
        line = " " + " · ".join(parts)
        right = "PAUSED " if view.paused else ""
        right = "READ ONLY " if view.read_only else right
        right = "WRITING " if view.writing else right
        if view.care.heat and cells(line) + len(view.care.heat) + len(right) + 2 <= width:
            right = f"{view.care.heat} {right}"
        return Content.styled(fit(line, width - len(right)) + right, "$band bold")


class NowLine(Part):
    """Who is hitting, which drill and rung, why, and where the next ball goes."""

    def subject(self, view: CourtView) -> object:
        live = view.live
        if live is None:
            return view.next_act
        return (
            view.next_act,
            live.id,
            live.player,
            live.purpose,
            live.next_feed(),
            live.ended_at,
            live.feeding.number == 1,
            live.main,
            live.feeding.feeds.every,
            view.advice,
            view.care.levels.get(live.player.id),
            view.letters,
        )

    def text(self, view: CourtView, width: int) -> Content:
        live = view.live
        if live is None:
            return _before_any_round(view.next_act, width)
        drill = live.drill
        hand = f"  {live.player.hand}-handed" if live.player.hand and width > 40 else ""
        mark = view.care.mark_of(live.player, view.letters)
        caution = f"  {mark}" if mark else ""
        where = f"{plain(drill.title)} · rung {drill.drill.rung} of {drill.top}"
        why = f"{live.purpose} · {drill.drill.feed} feed"
        every_second = live.feeding.feeds.every > 1
        if every_second:
            watched = " · WITHOUT HELP" if live.purpose.measured else ""
            why = f"{live.purpose}{watched} · rate every second ball"
        elif not live.purpose.coached:
            watched = "WITHOUT HELP" if live.purpose.measured else "no coaching yet"
            why = f"{live.purpose} · {watched} · {_what_for(live)}"
        again = every_second and live.feeding.taken
        label = "same again, then" if again else "next feed"
        name, where, why = (
            fit_short(line, width) for line in (plain(drill.drill.name), where, why)
        )
        return Content.assemble(
            (
                f" {fit_short(plain(live.player.shown_name), width - 2 - len(caution))} ",
                "bold reverse",
            ),
            (caution, "bold"),
            f"{'' if caution else hand}\n",
            (f"{name}\n", "bold"),
            f"{where}\n{why}\n",
            *_what_comes(view, live, label, width),
        )


class Count(Part):
    """A number to read from across the court, with a word above it and below it."""

    def numbers(self, view: CourtView) -> tuple[str, str, str]:
        """The word above, the number, the word below."""
        raise NotImplementedError

    def subject(self, view: CourtView) -> object:
        return self.numbers(view)

    def rows(self, view: CourtView) -> Sequence[Row]:
        above, number, below = self.numbers(view)
        lines = (above, "$quiet"), *((row, "bold") for row in big_digits(number)), (below, "")
        return [((fit(text, self.width), style),) for text, style in lines]


class BallCount(Count):
    """The open ball's number in the round, of how many."""

    def numbers(self, view: CourtView) -> tuple[str, str, str]:
        if view.live is None:
            return "ball", "-", ""
        tough = view.live.feeding.open.tough
        number, planned = view.live.feeding.number, view.live.planned
        fed = " fed" if view.live.feeding.feeds.every > 1 else ""
        below = f"of {planned}{fed}" if number <= planned else f"{planned} planned"
        if view.ended:
            below = f"{len(view.live.feeding.taken)} done"
        return "ball ! TOUGH" if tough else "ball", str(number), below


class BasketCount(Count):
    """Balls left in the basket."""

    def numbers(self, view: CourtView) -> tuple[str, str, str]:
        below = "PICK UP" if view.basket.empty else f"of {view.basket.size}"
        return "basket left", str(view.basket.left), below


TOUGH_WORD = "  tough"


class Titles(Part):
    """Column titles over the cue rows, and a `!` over every tough ball of the round.

    Where there is room behind the marks, the word for them follows.
    """

    def subject(self, view: CourtView) -> object:
        return view.live and (view.live.id, view.live.purpose, view.live.feeding.taken)

    def rows(self, view: CourtView) -> Sequence[Row]:
        if view.live is None:
            return (((" " * self.width, ""),),)
        marks = marks_width(self.width)
        balls = view.live.feeding.taken[-marks:] if marks else ()
        tough = "".join("!" if ball.tough else " " for ball in balls)
        if not tough.strip():
            tough = "this round"
        elif len(tough) + len(TOUGH_WORD) <= marks:
            tough += TOUGH_WORD
        titles = fit("cue", CUE_NAME) + fit("miss near made", KEYS) + fit("this ball", WORD + 1)
        return (((fit(titles + tough, self.width), "$quiet"),),)


class CueRow(Part):
    """One cue: its keys, this ball's grade, the round's marks.

    The layout gives a box only to the cues of the round on court.
    """

    def __init__(self, row: int) -> None:
        self.row = row

    def subject(self, view: CourtView) -> object:
        live = round_shown(view)
        state = live.feeding
        shown = (state.open.grades[self.row], state.taken)
        return live.id, live.cue_keys, live.purpose, shown, view.pad, view.letters

    def rows(self, view: CourtView) -> Sequence[Row]:
        live = round_shown(view)
        cue = live.cues[self.row]
        grade = live.feeding.open.grades[self.row]
        runs = (
            (fit(plain(cue.name), CUE_NAME), "bold"),
            *self._keys(view, grade),
            (" ", ""),
            _word(grade),
            (self._marks(live.feeding.taken, marks_width(self.width), view.letters), ""),
        )
        return (row_of(runs, self.width),)

    def _keys(self, view: CourtView, chosen: Grade | None) -> Iterator[Run]:
        for grade in Grade:
            key = fit(view.pad.key_of(self.row, grade), 2)
            mark = grade_mark(grade, view.letters)
            if grade is chosen:
                yield f"[{key}{mark}]", f"bold reverse {GRADE_COLOURS[grade]}"
            else:
                yield f" {key}{mark} ", ""

    def _marks(self, balls: tuple[Ball, ...], width: int, letters: bool) -> str:
        last, marks = balls[-width:] if width else (), _MARKS[letters]
        return "".join([marks[ball.grades[self.row]] for ball in last]).ljust(width)


class MessageLine(Part):
    """What was said to the coach last, on two lines at most."""

    def subject(self, view: CourtView) -> object:
        return view.message

    def text(self, view: CourtView, width: int) -> Content:
        return two_lines(view.message, width)


def two_lines(message: str, width: int) -> Content:
    """A message on at most two lines."""
    words = Content.styled(fit_short(plain(message), 2 * width - 12), "bold")
    if cells(words.plain) <= width:
        return words
    return Content("\n").join(words.wrap(width)[:2])


def _before_any_round(act: NextAct | None, width: int) -> Content:
    """What to do on a day without a round."""
    if act is None:
        return Content("")
    lines = [(f"{fit_short(act.reached, width)}\n", "bold"), _act_line(act, width)]
    if act.does(Act.NEXT_PLAYER):
        lines.append((f"\n{fit_short('g chooses a drill, y a player.', width)}", ""))
    return Content.assemble(*lines)


def _what_comes(
    view: CourtView, live: LiveRound, label: str, width: int
) -> Iterator[tuple[str, str]]:
    """The two lowest lines: what to say and the next feed, or at a standstill what to do."""
    act = view.next_act
    if view.ended:
        over = "ROUND OVER"
        over += f" · {act.reached}" if act is not None and act.reached != ROUND_OVER else ""
        yield f"{fit_short(plain(over), width)}\n", "bold"
        if act is not None:
            yield _act_line(act, width)
        return
    if act is not None:
        label = first_that_fits(act.in_ever_fewer_words, width - ROOM_FOR_ADVICE)
    yield from advice_line(view.advice, plain(label), width)
    yield f" ► {fit_short(plain(live.next_feed()), width - 4)} ", "bold reverse"


def _what_for(live: LiveRound) -> str:
    """What the round is for; before a yardstick's first ball, which settles it, the main cue."""
    main = live.main_cue
    if live.purpose is Purpose.YARDSTICK and main is not None and live.feeding.number == 1:
        return f"main cue: {plain(main.name)}"
    return live.purpose.meaning


def _act_line(act: NextAct, width: int) -> tuple[str, str]:
    """What to do, in as many words as there is room for: the key is never cut."""
    return f" ► {plain(first_that_fits(act.in_ever_fewer_words, width - 4))} ", "bold reverse"


def advice_line(advice: Advice | None, label: str, width: int) -> list[tuple[str, str]]:
    """The line over the next feed: whether to speak comes first, and the label takes the rest."""
    if advice is None:
        return [(f"{label}\n", "$quiet")]
    words = fit_short(plain(advice.words), width)
    label = fit_short(f" · {label}", width - cells(words))
    return [(words, "bold reverse" if advice.speak else "$quiet"), (f"{label}\n", "$quiet")]


def _word(grade: Grade | None) -> Run:
    if grade is None:
        return " " * WORD, ""
    return fit(LOOKS[grade].word, WORD), f"bold {GRADE_COLOURS[grade]}"


def marks_width(width: int) -> int:
    """Cells left for the round's marks in a cue row of this width."""
    return max(0, width - CUE_NAME - KEYS - 1 - WORD)


def grade_mark(grade: Grade | None, letters: bool) -> str:
    """The mark of a grade, as a shape or as a letter."""
    return _MARKS[letters][grade]


_MARKS = {
    False: {grade: look.mark for grade, look in LOOKS.items()},
    True: {grade: look.letter_mark for grade, look in LOOKS.items()},
}
