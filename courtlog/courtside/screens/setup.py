"""The first screen of a new clinic: what is not known yet is asked, then straight to the court."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog import times
from courtlog.coaching.game.cards import PlayerCard, from_first_line, is_doubtful_name
from courtlog.coaching.game.drills import Ladder
from courtlog.coaching.plans.clinic_plan import days_of
from courtlog.courtside.desk.clinic_desk import NO_ANSWERS, SetUpAnswers, SetUpQuestions
from courtlog.courtside.desk.keymap import PADS
from courtlog.courtside.dialogs.line_form import FormLine, LineForm
from courtlog.courtside.dialogs.own_screen import OwnScreen
from courtlog.names import folded_name
from courtlog.plain_text import capital, plain

FIRST_STROKE = "forehand"


class SetUpScreen(OwnScreen[SetUpAnswers | None]):
    """Enter goes on to the next line, and from the last one to the court.

    `typed` fills the lines; a caution says what went wrong when they were to be stored.
    """

    def __init__(
        self,
        questions: SetUpQuestions,
        ladders: Sequence[Ladder],
        typed: Mapping[str, str] = NO_ANSWERS,
        caution: str = "",
    ) -> None:
        super().__init__()
        self._questions = questions
        self._caution = caution
        self._asked_about = ""
        self._lines = tuple(
            replace(line, value=typed.get(line.key, line.value))
            for line in _lines(questions, ladders)
        )

    def compose(self) -> ComposeResult:
        clinic = self._questions.clinic
        what = f"{plain(clinic.name)} has no day yet." if clinic else "A new book."
        with Vertical(classes="box"):
            yield Static(
                Content.assemble(
                    (what, "bold"),
                    f" Enter goes on, Shift+Tab back, Escape {plain(self._questions.escape)}.",
                ),
            )
            yield LineForm(self._lines, self._caution, self._mistake_of, proposes=True)

    def take_key(self, event: Key) -> bool:
        if event.key != "escape":
            return False
        if self.query_one(LineForm).may_leave():
            self.dismiss(None)
        return True

    def on_line_form_done(self, event: LineForm.Done) -> None:
        typed = {line.key: line.value for line in self._lines} | event.values
        typed = {key: value.strip() for key, value in typed.items()}
        form = self.query_one(LineForm)
        for key, value in typed.items():
            if mistake := self._mistake_of(key, value):
                form.point_to(key, mistake)
                return
        known = self._questions
        clinic = known.clinic
        self.dismiss(
            SetUpAnswers(
                clinic=clinic.name if clinic else typed["clinic"],
                zone=clinic.zone if clinic else typed.get("zone", known.zone),
                days=clinic.planned_days if clinic else days_of(typed["days"]),
                coach=typed.get("coach", known.coach),
                court=typed.get("court", known.court),
                players=tuple(from_first_line(typed.get("players", ""))),
                stroke=typed.get("stroke", ""),
                pad=typed.get("pad", known.pad),
                typed=typed,
            )
        )

    def _mistake_of(self, key: str, value: str) -> str:
        """What is wrong with a line; a doubtful name is asked about once."""
        mistake = _mistake_of(key, value)
        if not mistake and key == "players" and value.strip() != self._asked_about:
            names = [card.name for card in from_first_line(value)]
            doubtful = next(filter(is_doubtful_name, names), "")
            if doubtful:
                self._asked_about = value.strip()
                return (
                    f"Is “{plain(doubtful)}” the whole name? Enter keeps it so."
                    " Behind a name go left, right, minor or adult."
                )
        return mistake


def _lines(questions: SetUpQuestions, ladders: Sequence[Ladder]) -> Iterator[FormLine]:
    if questions.clinic is None:
        yield FormLine("clinic", "clinic", "A name for it, for example Harbour Week.", most=80)
    if not questions.has_players:
        hint = "Commas between the names; left or minor after one: Tove left, Mila minor."
        yield FormLine("players", "players", hint, most=2000)
    if ladders:
        strokes = sorted(ladders, key=lambda ladder: (ladder.stroke != FIRST_STROKE, ladder.title))
        yield FormLine(
            "stroke",
            "stroke",
            "It begins with the first drill fed from the basket.",
            strokes[0].stroke,
            tuple((ladder.stroke, ladder.title) for ladder in strokes),
        )
    if questions.asks_pad:
        pads = tuple((pad.key, f"{pad.words}: {_keys(pad.rows)}") for pad in PADS.values())
        hint = f"The keys that rate; {questions.pad_key} changes them later."
        yield FormLine("pad", "your pad", hint, questions.pad, pads)
    if not questions.has_coach:
        yield FormLine(
            "coach", "your name", "It stands on the pages you print.", questions.coach, most=80
        )
    if questions.clinic is None:
        yield FormLine("court", "court", "Which court you are on.", questions.court, most=40)
        by = f" Its dates go by {questions.zone}." if questions.zone else ""
        hint = f"How many days it lasts; leave it empty if you do not know yet.{by}"
        yield FormLine("days", "days", hint, most=3)
        if not questions.zone:
            hint = "This laptop does not tell it. Like Europe/Lisbon, or UTC."
            yield FormLine("zone", "time zone", hint, most=80)


def _keys(rows: Sequence[tuple[str, str, str]]) -> str:
    return " / ".join(" ".join(row) for row in rows[:3])


def _mistake_of(key: str, value: str) -> str:
    """What is wrong with what stands in a line, in a sentence; nothing where it can stay."""
    value = value.strip()
    try:
        match key:
            case "clinic":
                return "" if value else "Give the clinic a name."
            case "players":
                return _mistake_of_players(from_first_line(value))
            case "days":
                days_of(value)
            case "zone":
                times.zone(value)
    except ValueError as error:
        return capital(f"{error.args[0]}.")
    return ""


def _mistake_of_players(cards: Sequence[PlayerCard]) -> str:
    """That nobody is named, or which two of the names are the same."""
    places: dict[str, int] = {}
    for place, card in enumerate(cards, 1):
        first = places.setdefault(folded_name(card.name), place)
        if first != place:
            return (
                f"{card.name} stands twice, as player {first} and player {place}:"
                " write a letter more of one."
            )
    return "" if cards else "Name at least one player."
