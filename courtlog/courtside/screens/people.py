"""The people of the clinic: the roster as a list, and each player's card as a form."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import AbstractContextManager

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.reactive import reactive
from textual.visual import VisualType
from textual.widget import Widget
from textual.widgets import Static

from courtlog.coaching.game.cards import FIELDS, Focus, PlayerCard, missing
from courtlog.coaching.game.people import Player
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.people_desk import PeopleDesk, mistake_words, new_card
from courtlog.courtside.dialogs.line_form import FormLine, LineForm
from courtlog.courtside.dialogs.own_screen import OwnDialog, OwnScreen, next_index
from courtlog.courtside.dialogs.questions import DIGITS, TextQuestion, YesNoQuestion
from courtlog.courtside.surface.lettering import cells, fit, fit_short, foot
from courtlog.logbook.reads.people_lookups import FocusInWords, RosterLine
from courtlog.plain_text import plain
from courtlog.reports.layout.person_lines import look_words

NUMBER, HAND, LIMIT, AGE = 4, 7, 7, 7
"""Widths of the columns, in cells; the name and the level share what is left."""

LEAST_NAME = 16

FOOT = (
    ("↑ ↓", "player"),
    ("1-9 Enter", "card"),
    ("a", "add a player"),
    ("u", "up"),
    ("d", "down"),
    ("Esc", "back to the court"),
)

NOT_SAID = "not said"

NEW_PLAYER = "The new player's name; left or minor after it: Tove left, Mila minor"


class RosterList(Widget):
    """A line for each player, the chosen one reversed."""

    index: reactive[int] = reactive(0)
    entries: reactive[tuple[RosterLine, ...]] = reactive(())

    def render(self) -> VisualType:
        width, height = self.size
        if not self.entries:
            return Content("Nobody is on the roster yet: a adds a player.")
        head, *lines = roster_lines(self.entries, width)
        room = max(height - 1, 1)
        first = min(max(self.index - room // 2, 0), max(len(lines) - room, 0))
        styled = [
            Content.styled("►" + line[1:], "bold reverse") if row == self.index else Content(line)
            for row, line in enumerate(lines)
        ]
        return Content("\n").join([Content(head), *styled[first : first + room]])


class PeopleScreen(OwnScreen[None]):
    """Arrows move, Enter opens a card, Escape goes back to the court."""

    TOPIC = "roster"
    AUTO_FOCUS = None

    def __init__(self, desk: Desk, chosen: Player | None) -> None:
        super().__init__()
        self._desk = desk
        self._title = desk.view.clinic.name
        ids = [player.id for player in desk.view.roster]
        self._index = ids.index(chosen.id) if chosen and chosen.id in ids else 0

    def compose(self) -> ComposeResult:
        yield Static(Content(f" People · {plain(self._title)}"), id="people-top")
        yield RosterList(id="people-list")
        yield Static("", id="people-message")
        yield Static(foot(FOOT), id="people-foot")

    def on_mount(self) -> None:
        self.carry_out(self._read_entries)

    def in_book(self) -> AbstractContextManager[None]:
        return self._desk.book.reading()

    def take_key(self, event: Key) -> None:
        key = event.key
        to = next_index(key, self._index, len(self._entries))
        if key in ("escape", "f9"):
            self.dismiss(None)
        elif to is not None:
            self._go_to(to)
        elif key == "a":
            self._desk.people.check_set_up()
            self.ask(TextQuestion(NEW_PLAYER, most=80), self._take_name)
        elif self._entries and key == "enter":
            self._open_card()
        elif key in DIGITS[: len(self._entries)]:
            self._go_to(DIGITS.index(key))
            self._open_card()
        elif self._entries and key in ("u", "d"):
            self._move(-1 if key == "u" else 1)

    @property
    def _entries(self) -> tuple[RosterLine, ...]:
        return self.query_one(RosterList).entries

    def _go_to(self, index: int) -> None:
        self._index = min(max(index, 0), max(len(self._entries) - 1, 0))
        self.query_one(RosterList).index = self._index
        self.say(_asks(self._entries[self._index].card) if self._entries else "")

    def say(self, message: str) -> None:
        self.query_one("#people-message", Static).update(Content(plain(message)))

    def _read_entries(self) -> None:
        """Show the roster as the book holds it."""
        self.query_one(RosterList).entries = tuple(self._desk.people.entries())
        self._go_to(self._index)

    def _move(self, by: int) -> None:
        self._desk.people.move(self._entries[self._index].player, by)
        self._index += by
        self._read_entries()

    def _take_name(self, name: str) -> None:
        """Add a player of that name; ask first where one has it."""
        if not name.strip():
            return
        alone = new_card(name).name
        if self._desk.people.is_on_roster(alone):
            question = YesNoQuestion(
                f"{alone} is on the roster already.",
                "adds another person of that name",
                "adds nobody",
            )
            self.ask(question, lambda yes: self._add(name, True) if yes else None)
        else:
            self._add(name, False)

    def _add(self, name: str, other: bool) -> None:
        self._desk.people.add(name, other)
        self._index = len(self._entries)
        self._read_entries()

    def _open_card(self) -> None:
        def closed(_: object) -> None:
            self.carry_out(self._read_entries)

        card = CardScreen(self._desk.people, self._entries[self._index])
        self.app.push_screen(card, closed)


class CardScreen(OwnDialog[None]):
    """One player's card; Enter goes on and keeps it on the last line, Escape changes nothing."""

    TOPIC = "roster"

    def __init__(self, people: PeopleDesk, entry: RosterLine) -> None:
        super().__init__()
        self._people = people
        self._entry = entry
        self._looks = people.looks(entry.player)

    def compose(self) -> ComposeResult:
        name = plain(self._entry.player.shown_name)
        with Vertical(classes="box card"):
            yield Static(
                Content.assemble(
                    (fit_short(name, 34), "bold"), ": Enter goes on, Ctrl+S keeps, Escape leaves."
                ),
            )
            yield LineForm(card_lines(self._entry.card))
            yield Static(looks_text(self._looks), id="looks")

    def take_key(self, event: Key) -> bool:
        if event.key not in ("escape", "ctrl+s"):
            return False
        form = self.query_one(LineForm)
        if event.key == "ctrl+s":
            form.finish()
        elif form.may_leave():
            self.dismiss(None)
        return True

    def in_book(self) -> AbstractContextManager[None]:
        return self._people.in_book()

    def on_line_form_done(self, event: LineForm.Done) -> None:
        mistakes = self._people.mistakes(self._entry, event.values)
        if mistakes:
            first = next(iter(mistakes))
            self.query_one(LineForm).point_to(first, mistake_words(mistakes.values()))
        elif self.carry_out(lambda: self._people.save(self._entry, event.values)):
            self.dismiss(None)

    def say(self, message: str) -> None:
        self.query_one(LineForm).point_to(FIELDS[0].key, message)


READ_AT_HOME = "The player reads this at home: it stands on the take-home sheet in your words."


class ReasonsScreen(OwnDialog[Focus | None]):
    """What is good already, and why these cues; both may stay empty, Escape keeps neither."""

    TOPIC = "roster"

    def __init__(self, focus: Focus, whose: str) -> None:
        super().__init__()
        self._focus = focus
        self._whose = whose

    def compose(self) -> ComposeResult:
        with Vertical(classes="box"):
            yield Static(
                Content(f"{plain(self._whose)}: the cues are kept. Enter goes on, Escape leaves.")
            )
            yield LineForm(
                (
                    FormLine(
                        "strengths", "What is good already", READ_AT_HOME, self._focus.strengths
                    ),
                    FormLine("why", "Why these cues", "", self._focus.why),
                )
            )

    def take_key(self, event: Key) -> bool:
        if event.key != "escape":
            return False
        if self.query_one(LineForm).may_leave():
            self.dismiss(None)
        return True

    def on_line_form_done(self, event: LineForm.Done) -> None:
        words = {"strengths": self._focus.strengths, "why": self._focus.why} | event.values
        self.dismiss(self._focus.saying(**words))


def roster_lines(entries: Sequence[RosterLine], width: int) -> list[str]:
    """A head and a line a player, all columns under each other, `width` cells wide."""
    names = [plain(entry.player.full_name) for entry in entries]
    free = max(width - NUMBER - HAND - LIMIT - AGE, LEAST_NAME)
    name_width = min(max(max(map(cells, names)) + 2, LEAST_NAME), max(free * 2 // 3, LEAST_NAME))
    level_width = free - name_width
    lines = [_line("", "name", "hand", "level", "balls", "", name_width, level_width)]
    for number, (name, entry) in enumerate(zip(names, entries, strict=True), 1):
        card = entry.card
        limit = "" if card.limit is None else str(card.limit)
        age = card.age if card.minor else ""
        line = (str(number), name, card.hand, plain(card.level), limit, age)
        lines.append(_line(*line, name_width, level_width))
    return [fit(line, width) for line in lines]


def card_lines(card: PlayerCard) -> list[FormLine]:
    """The card's fields as lines of a form."""
    words = card.words()
    return [
        FormLine(
            field.key,
            field.title,
            field.hint,
            words[field.key],
            tuple((choice, choice or NOT_SAID) for choice in field.choices),
            field.most,
        )
        for field in FIELDS
    ]


def looks_text(looks: Sequence[FocusInWords]) -> Content:
    """What the coach saw, a line or two a stroke."""
    return Content("\n".join(f"{plain(look.title)}: " + look_words(look) for look in looks))


def _line(
    number: str, name: str, hand: str, level: str, limit: str, age: str, wide: int, level_wide: int
) -> str:
    return (
        f" {number:>2} "
        + fit(fit_short(name, wide - 1), wide)
        + fit(hand, HAND)
        + fit(fit_short(level, level_wide - 1), level_wide)
        + fit(limit, LIMIT)
        + fit(age, AGE)
    )


def _asks(card: PlayerCard) -> str:
    asked = missing(card)
    return f"Still to ask: {', '.join(asked)}." if asked else ""
