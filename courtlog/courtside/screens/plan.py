"""The plan of a day on the screen: look at it, change it before the day, keep it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, suppress
from datetime import date, timedelta

from textual.app import ComposeResult
from textual.events import Key

from courtlog.coaching.game.drills import Drill, Ladder
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans import plan_edits
from courtlog.coaching.plans.court_dealing import CourtGroup
from courtlog.coaching.plans.plan_edits import MOST_BALLS, Plan, RoundChange
from courtlog.courtside.desk.court_state import CourtState
from courtlog.courtside.dialogs.own_screen import (
    OwnDialog,
    Refusal,
    next_index,
    refusal_words,
)
from courtlog.courtside.dialogs.questions import (
    Choice,
    PickList,
    TextQuestion,
    YesNoQuestion,
    drill_choices,
    purpose_choices,
)
from courtlog.courtside.surface.lettering import Line, Lines, around, fit_short, foot_lines
from courtlog.errors import CourtlogError
from courtlog.logbook.reads.clinic_lookups import next_planned
from courtlog.logbook.reads.courts.origins import assistants_group
from courtlog.plain_text import plain
from courtlog.plan_keeper import PlanKeeper
from courtlog.reports.facts.plan_facts import (
    PlanRequest,
    Plans,
    last_played,
)
from courtlog.reports.facts.plan_models import (
    PlanFacts,
)
from courtlog.reports.layout.page import lines_of
from courtlog.reports.pages.plan_notes_text import differs, notes
from courtlog.reports.pages.plan_reach_text import reach_lines
from courtlog.reports.pages.plan_text import (
    PLAN_HEAD,
    court_lines,
    effort_words,
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
"""Lines of words under the rounds, where there is room; lines that are left to the rounds."""


class PlanScreen(OwnDialog[None]):
    """One day's rounds in the order of play; every change is in the book before it is shown."""

    TOPIC = "plan"

    def __init__(self, state: CourtState) -> None:
        super().__init__()
        self._state = state
        self._message = ""
        self._index = 0
        self._days = _days_of(state)
        self._stroke: str | None = None
        self._look(self._days[1 if _played(state) else 0])

    def compose(self) -> ComposeResult:
        yield Lines()

    def on_mount(self) -> None:
        self.show()

    def on_resize(self) -> None:
        self.show()

    def in_book(self) -> AbstractContextManager[None]:
        return self._state.book.reading()

    def show(self) -> None:
        self.query_one(Lines).show(self._lines())

    def refuse(self, error: Refusal) -> None:
        """Say why something could not be done, over the plan as the book holds it."""
        with suppress(CourtlogError), self.in_book():
            self._look(self._plan.on)
        self.say(refusal_words(error))

    def say(self, message: str) -> None:
        self._message = message

    def take_key(self, event: Key) -> None:
        self._message = ""
        key = event.key
        places = self._places()
        now = places.index(self._index) if self._index in places else 0
        to = next_index(key, now, len(places))
        if key in ("escape", "ctrl+p"):
            self.dismiss(None)
        elif to is not None:
            self._choose(places[to])
        elif key == "o":
            self._index = 0
            self._look(next(day for day in self._days if day != self._plan.on))
        elif key == "k":
            self._keep()
        elif key == "f":
            self._forget()
        elif key == "s":
            self._choose_stroke()
        elif key == "a":
            self._add()
        elif self._both.rounds:
            self._take_for(self._index + 1, key)

    def _take_for(self, place: int, key: str) -> None:
        """Act on a key for the chosen round, counted from 1."""
        if key in ("e", "l"):
            to = place + (-1 if key == "e" else 1)
            if 1 <= to <= len(self._both.rounds):
                moved = f"Round {to} now."
                self._edit(lambda plan: plan_edits.moved(plan, place, to), moved, lambda: to - 1)
        elif key == "x":
            self._edit(lambda plan: plan_edits.dropped(plan, place), "Left out.")
        elif key == "b":
            balls = str(self._both.rounds[place - 1].balls)
            title = f"Balls of the round (1 to {MOST_BALLS})"
            self.ask(
                TextQuestion(title, balls, 3),
                lambda text: self._change(RoundChange(balls=_number(text))),
            )
        elif key == "w":
            index = list(Purpose).index(self._both.rounds[place - 1].purpose)
            self.ask(
                PickList("Purpose", purpose_choices(), index),
                lambda purpose: self._change(RoundChange(purpose=purpose)),
            )
        elif key == "g":
            self._ask_drill(lambda name: self._change(RoundChange(drill=name)))

    def _change(self, change: RoundChange) -> None:
        ladders, place = self._state.library.ladders, self._index + 1
        self._edit(lambda plan: plan_edits.changed(plan, place, change, ladders), "Changed.")

    def _forget(self) -> None:
        def forget() -> None:
            self._plan.forget(self._state.clock(), self._both)
            self._again("Forgotten: this is the proposal.")

        if self._both.kept:
            words = "Forget the plan you kept, with all you changed in it?"
            question = YesNoQuestion(words, "forgets it", "leaves it")
            self.ask(question, lambda yes: forget() if yes else None)
        else:
            self._message = "No plan is kept for this day: this is the proposal."

    def _add(self) -> None:
        def chosen(player: Player) -> None:
            self._ask_drill(lambda name: added(player, name))

        def added(player: Player, name: str) -> None:
            ladders = self._state.library.ladders
            change = RoundChange(drill=name)
            self._edit(
                lambda plan: plan_edits.added(plan, player, change, ladders),
                "Added.",
                lambda: len(self._both.rounds) - 1,
            )

        players = [Choice(player, player.shown_name) for player in self._state.view.court_first]
        self.ask(PickList("Whose round is it?", players), chosen)

    def _ask_drill(self, then: Callable[[str], None]) -> None:
        ladders = [ladder for _, ladder in sorted(self._state.library.ladders.items())]
        choices = drill_choices(ladders)
        names = [_full_name(choice.value) for choice in choices]
        rounds = self._both.rounds
        now = rounds[self._index].drill if rounds else ""
        index = names.index(now) if now in names else 0
        self.ask(PickList("Drill", choices, index), lambda drill: then(_full_name(drill)))

    def _choose_stroke(self) -> None:
        ladders = sorted(self._state.library.ladders.items())
        choices = [Choice("", "each player's own")]
        choices += [Choice(stroke, ladder.title) for stroke, ladder in ladders]

        def chosen(stroke: str) -> None:
            self._stroke = stroke or None
            self._look(self._plan.on)
            self._message = "The plan you kept stays; f forgets it." if self._both.kept else ""

        self.ask(PickList("Stroke to propose for", choices), chosen)

    def _keep(self) -> None:
        if self._both.kept:
            self._message = "The plan is kept: the court goes by it."
        else:
            self._plan.keep_proposal(self._state.clock(), self._both)
            self._again("Kept: the court goes by it.")

    def _edit(
        self,
        change: Callable[[Plan], Plan],
        message: str,
        then_choose: Callable[[], int] | None = None,
    ) -> None:
        """Change the kept plan; a proposal is kept with the change only when the coach says so."""

        def edit() -> None:
            self._plan.edit(change, self._state.clock(), self._both)
            self._again(f"{message} Kept.")
            if then_choose is not None:
                self._choose(then_choose())

        if self._both.kept:
            edit()
            return
        change(self._both.rounds)  # What cannot be is said before anything is asked.
        words = "No plan is kept for this day yet. Keep this proposal with the change?"
        question = YesNoQuestion(words, "keeps it", "leaves it as it was")
        self.ask(question, lambda yes: edit() if yes else None)

    def _again(self, message: str) -> None:
        """Show the plan as the book holds it now."""
        self._look(self._plan.on)
        self._message = message

    def _look(self, on: date) -> None:
        state = self._state
        request = PlanRequest(stroke=self._stroke)
        self._plan = PlanKeeper(state.book, state.view.clinic, state.library, on, request)
        self._both: Plans = self._plan.plans()
        self._facts: PlanFacts = self._plan.facts(self._both)
        self._choose(self._index)

    def _places(self) -> list[int]:
        """Which rounds are shown, counted from 0: on an assistant's court those of its group."""
        group = self._group()
        here = None if group is None else {player.id for player in group.players}
        return [
            place
            for place, round_ in enumerate(self._both.rounds)
            if here is None or round_.player.id in here
        ]

    def _group(self) -> CourtGroup | None:
        return assistants_group(self._state.book, self._both.courts)

    def _choose(self, index: int) -> None:
        self._index = min(max(index, 0), max(0, len(self._both.rounds) - 1))

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
        lines = [*head, *around(rows, chosen, shown), *tail]
        lines += [("", "")] * (self.size.height - len(lines) - len(foot))
        return [(fit_short(line, width), style) for line, style in (*lines, *foot)]

    def _rows(self) -> tuple[list[Line], int]:
        """The rounds, a blank line between blocks, and where the chosen one stands."""
        rows: list[Line] = []
        chosen = 0
        places = self._places()
        if places and self._index not in places:
            self._index = places[0]
        for block in self._facts.blocks:
            of_court = [line for line in block if line.place - 1 in places]
            if rows and of_court:
                rows.append(("", ""))
            for line in of_court:
                words = plan_line(line)
                if line.place == self._index + 1:
                    chosen = len(rows)
                    rows.append((f"►{words[1:]}", "bold"))
                else:
                    rows.append((words, ""))
        return rows or [("No round is planned: a adds one.", "")], chosen

    def _tail(self) -> Iterator[Line]:
        """The message, what a chosen yardstick can tell, why the rounds are so, what they take."""
        width = self.size.width - 2
        yield from ((line, "bold") for line in lines_of(plain(self._message), width=width))
        group = self._group()
        if self._both.rounds:
            chosen = self._both.rounds[self._index]
            if chosen.purpose is Purpose.YARDSTICK:
                yield from ((line, "") for line in reach_lines(self._facts.reach))
            name = chosen.player.shown_name
            own = [reason for reason in self._facts.reasons if reason.player == name]
            words = [*map(reason_words, own)]
            if group is None:
                yield from ((line, "") for line in court_lines(self._facts))
                words += effort_words(self._facts)
            else:
                words.append(f"Court {plain(group.court)} alone, numbered as in the whole plan.")
        else:
            words = []
        for text in [*notes(self._facts), *words, *differs(self._facts)]:
            yield from ((line, "") for line in lines_of(text, width=width))


def _days_of(state: CourtState) -> tuple[date, date]:
    """The day on court, and the next one: that of the next kept plan, else the day after."""
    on = state.view.day.date
    return on, next_planned(state.book, state.view.clinic.id, on) or on + timedelta(days=1)


def _played(state: CourtState) -> bool:
    """Whether the day on court has a ball already."""
    last = last_played(state.book, state.view.clinic)
    return last is not None and last >= state.view.day.date


def _full_name(drill: tuple[Ladder, Drill]) -> str:
    return f"{drill[0].stroke}/{drill[1].key}"


def _number(text: str) -> int:
    if not text.strip().isdigit():
        raise CourtlogError("Nothing changed.", f"Write a number from 1 to {MOST_BALLS}.")
    return int(text)
