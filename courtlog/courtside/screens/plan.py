"""The plan of a day on the screen: look at it, change it before the day, keep it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta
from typing import TypeVar

from textual.app import ComposeResult
from textual.events import Key
from textual.screen import Screen

from courtlog.coaching.game.drills import Drill, Ladder
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans import plan_edits
from courtlog.coaching.plans.plan_edits import MOST_BALLS, Plan, RoundChange
from courtlog.courtside.commands.rounds import drill_choices
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.dialogs.own_keys import OwnKeys, moved
from courtlog.courtside.dialogs.own_screen import OwnDialog
from courtlog.courtside.dialogs.questions import Ask, Choice, Decide, Pick
from courtlog.courtside.surface.lettering import fit_short
from courtlog.courtside.surface.lines import Line, Lines, foot_lines
from courtlog.errors import CourtlogError
from courtlog.logbook.reads.plan_lookups import next_planned
from courtlog.plain_text import plain
from courtlog.plan_keeper import PlanKeeper
from courtlog.reports.facts.plan_facts import PlanFacts, PlanRequest, Plans, last_played
from courtlog.reports.layout.page import lines_of
from courtlog.reports.pages.plan_text import (
    PLAN_HEAD,
    differs,
    effort_words,
    notes,
    plan_line,
    reason_words,
    title,
)

FOOT = (
    ("↑↓", "choose"),
    ("e", "earlier"),
    ("l", "later"),
    ("g", "drill"),
    ("w", "purpose"),
    ("b", "balls"),
    ("x", "leave out"),
    ("a", "add a round"),
    ("s", "stroke"),
    ("k", "keep"),
    ("f", "forget the kept one"),
    ("o", "other day"),
    ("Esc", "close"),
)

TAIL, LEAST_ROWS = 8, 6
"""Lines of words beneath the rounds, where there are so many; lines that they always leave."""

T = TypeVar("T")


class PlanScreen(OwnKeys[None], OwnDialog[None]):
    """One day's rounds in the order of play; every change is in the book before it is shown."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._said = ""
        self._at = 0
        self._days = _days_of(desk)
        self._stroke: str | None = None
        self._look(self._days[1 if _played(desk) else 0])

    def compose(self) -> ComposeResult:
        yield Lines()

    def on_mount(self) -> None:
        self._show()

    def on_resize(self) -> None:
        self._show()

    def take_key(self, event: Key) -> None:
        self._said = ""
        self._do(lambda: self._take(event.key))

    def _take(self, key: str) -> None:
        to = moved(key, self._at, len(self._both.rounds))
        if key in ("escape", "ctrl+p"):
            self.dismiss(None)
        elif to is not None:
            self._choose(to)
        elif key == "o":
            self._at = 0
            self._look(next(day for day in self._days if day != self._plan.on))
        elif key == "k":
            self._plan.keep_proposal(self._desk.clock(), self._both)
            self._again("Kept: the court goes by it.")
        elif key == "f":
            self._forget()
        elif key == "s":
            self._choose_stroke()
        elif key == "a":
            self._add()
        elif self._both.rounds:
            self._take_for(self._at + 1, key)

    def _take_for(self, place: int, key: str) -> None:
        """A key for the chosen round, counted from 1."""
        if key in ("e", "l"):
            to = place + (-1 if key == "e" else 1)
            if 1 <= to <= len(self._both.rounds):
                self._edit(lambda plan: plan_edits.moved(plan, place, to), f"Round {to} now.")
                self._choose(to - 1)
        elif key == "x":
            self._edit(lambda plan: plan_edits.dropped(plan, place), "Left out.")
        elif key == "b":
            balls = str(self._both.rounds[place - 1].balls)
            title = f"Balls of the round (1 to {MOST_BALLS})"
            self._ask(
                Ask(title, balls, 3), lambda text: self._change(RoundChange(balls=_number(text)))
            )
        elif key == "w":
            purposes = [Choice(one, f"{one}: {one.meaning}") for one in Purpose]
            at = list(Purpose).index(self._both.rounds[place - 1].purpose)
            self._ask(
                Pick("Purpose", purposes, at), lambda one: self._change(RoundChange(purpose=one))
            )
        elif key == "g":
            self._ask_drill(lambda name: self._change(RoundChange(drill=name)))

    def _change(self, change: RoundChange) -> None:
        ladders, place = self._desk.library.ladders, self._at + 1
        self._edit(lambda plan: plan_edits.changed(plan, place, change, ladders), "Changed.")

    def _forget(self) -> None:
        def forget() -> None:
            self._plan.forget(self._desk.clock(), self._both)
            self._again("Forgotten: this is the proposal.")

        def answered(yes: bool | None) -> None:
            if yes:
                self._do(forget)

        if self._both.kept:
            question = "Forget the plan you kept, with all you changed in it?"
            self.app.push_screen(Decide(question, "forgets it", "leaves it"), answered)
        else:
            self._said = "No plan is kept for this day: this is the proposal."

    def _add(self) -> None:
        def chosen(player: Player) -> None:
            self._ask_drill(lambda name: added(player, name))

        def added(player: Player, name: str) -> None:
            ladders = self._desk.library.ladders
            change = RoundChange(drill=name)
            self._edit(lambda plan: plan_edits.added(plan, player, change, ladders), "Added.")
            self._choose(len(self._both.rounds) - 1)

        players = [Choice(player, player.shown_name) for player in self._desk.view.roster]
        self._ask(Pick("Whose round is it?", players), chosen)

    def _ask_drill(self, then: Callable[[str], None]) -> None:
        ladders = [ladder for _, ladder in sorted(self._desk.library.ladders.items())]
        choices = drill_choices(ladders)
        names = [_full_name(choice.value) for choice in choices]
        rounds = self._both.rounds
        now = rounds[self._at].drill if rounds else ""
        at = names.index(now) if now in names else 0
        self._ask(Pick("Drill", choices, at), lambda drill: then(_full_name(drill)))

    def _choose_stroke(self) -> None:
        ladders = sorted(self._desk.library.ladders.items())
        choices = [Choice("", "each player's own"), *(Choice(s, one.title) for s, one in ladders)]

        def chosen(stroke: str) -> None:
            self._stroke = stroke or None
            self._look(self._plan.on)
            self._said = "The plan you kept stays; f forgets it." if self._both.kept else ""

        self._ask(Pick("Stroke to propose for", choices), chosen)

    def _edit(self, change: Callable[[Plan], Plan], said: str) -> None:
        self._plan.edit(change, self._desk.clock(), self._both)
        self._again(f"{said} Kept.")

    def _again(self, said: str) -> None:
        self._look(self._plan.on)
        self._said = said

    def _look(self, on: date) -> None:
        desk = self._desk
        asked = PlanRequest(stroke=self._stroke)
        self._plan = PlanKeeper(desk.book, desk.view.clinic, desk.library, on, asked)
        self._both: Plans = self._plan.plans()
        self._facts: PlanFacts = self._plan.facts(self._both)
        self._choose(self._at)

    def _choose(self, at: int) -> None:
        self._at = min(max(at, 0), max(0, len(self._both.rounds) - 1))

    def _ask(self, dialog: Pick[T] | Screen[T | None], then: Callable[[T], None]) -> None:
        def answered(answer: T | None) -> None:
            if answer is not None:
                self._do(lambda: then(answer))

        self.app.push_screen(dialog, answered)

    def _do(self, action: Callable[[], None]) -> None:
        """A refusal becomes a sentence, and the plan is shown as the book holds it."""
        try:
            with self._desk.book.told():
                action()
        except CourtlogError as error:
            self._look(self._plan.on)
            self._said = str(error)
        self._show()

    def _show(self) -> None:
        if self.is_attached:
            self.query_one(Lines).show(self._lines())

    def _lines(self) -> list[Line]:
        """As many rounds as there is room for around the chosen one; the foot stays."""
        width = self.size.width - 2
        foot = foot_lines(FOOT, width)
        head = [(title(self._facts), "bold"), (PLAN_HEAD, "$quiet")]
        rows, chosen = self._rows()
        room = self.size.height - len(head) - len(foot)
        words = min(max(TAIL, room - len(rows)), max(1, room - LEAST_ROWS))
        tail = list(self._tail())[:words]
        shown = max(1, room - len(tail))
        start = min(max(0, chosen - shown // 2), max(0, len(rows) - shown))
        lines = [*head, *rows[start : start + shown], *tail]
        lines += [("", "")] * (self.size.height - len(lines) - len(foot))
        return [(fit_short(line, width), style) for line, style in (*lines, *foot)]

    def _rows(self) -> tuple[list[Line], int]:
        """The rounds, a blank line between blocks, and where the chosen one stands."""
        rows: list[Line] = []
        chosen = 0
        for block in self._facts.blocks:
            if rows:
                rows.append(("", ""))
            for line in block:
                words = plan_line(line)
                if line.place == self._at + 1:
                    chosen = len(rows)
                    rows.append((f"►{words[1:]}", "bold"))
                else:
                    rows.append((words, ""))
        return rows or [("No round is planned: a adds one.", "")], chosen

    def _tail(self) -> Iterator[Line]:
        """What was said, why the chosen player's rounds are so, and what the plan takes."""
        yield plain(self._said), "bold"
        if self._both.rounds:
            who = self._both.rounds[self._at].player.shown_name
            said = [one for one in self._facts.reasons if one.player == who]
            words = [*map(reason_words, said), *effort_words(self._facts)]
        else:
            words = []
        for text in [*notes(self._facts), *words, *differs(self._facts)]:
            yield from ((line, "") for line in lines_of(text))


def _days_of(desk: Desk) -> tuple[date, date]:
    """The day on court, and the next one: that of the next kept plan, else the day after."""
    on = desk.view.day.date
    return on, next_planned(desk.book, desk.view.clinic.id, on) or on + timedelta(days=1)


def _played(desk: Desk) -> bool:
    """Whether the day on court has a ball already."""
    last = last_played(desk.book, desk.view.clinic)
    return last is not None and last >= desk.view.day.date


def _full_name(drill: tuple[Ladder, Drill]) -> str:
    return f"{drill[0].stroke}/{drill[1].key}"


def _number(text: str) -> int:
    if not text.strip().isdigit():
        raise CourtlogError("Nothing changed.", f"Write a number from 1 to {MOST_BALLS}.")
    return int(text)
