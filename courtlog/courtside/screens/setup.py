"""The first screen of a new clinic: what is not known yet is asked, then straight to the court."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Static

from courtlog import times
from courtlog.coaching.game.cards import from_first_line
from courtlog.coaching.game.drills import Ladder
from courtlog.courtside.desk.clinic_desk import NO_ANSWERS, SetUpAnswers, SetUpQuestions
from courtlog.courtside.desk.keymap import PADS
from courtlog.courtside.dialogs.line_form import FormLine, LineForm
from courtlog.courtside.dialogs.own_screen import OwnScreen
from courtlog.names import folded_name
from courtlog.plain_text import plain

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
            yield LineForm(self._lines, self._caution)

    def on_line_form_done(self, event: LineForm.Done) -> None:
        typed = {line.key: line.value for line in self._lines} | event.values
        typed = {key: value.strip() for key, value in typed.items()}
        form = self.query_one(LineForm)
        mistake = next(_mistakes(typed), None)
        if mistake is not None:
            form.point_to(*mistake)
            return
        known = self._questions
        clinic = known.clinic
        self.dismiss(
            SetUpAnswers(
                clinic=clinic.name if clinic else typed["clinic"],
                zone=clinic.zone if clinic else typed["zone"],
                coach=typed.get("coach", known.coach),
                court=typed.get("court", known.court),
                players=tuple(from_first_line(typed.get("players", ""))),
                stroke=typed.get("stroke", ""),
                pad=typed.get("pad", known.pad),
                typed=typed,
            )
        )


def _lines(questions: SetUpQuestions, ladders: Sequence[Ladder]) -> Iterator[FormLine]:
    if questions.clinic is None:
        yield FormLine("clinic", "clinic", "A name for it, for example Harbour Week.", most=80)
    if not questions.has_players:
        hint = "Commas between the names; after a left-hander's name left, as in Tove left."
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
        yield FormLine(
            "pad", "your pad", "The keys that rate; F6 changes them later.", questions.pad, pads
        )
    if not questions.has_coach:
        yield FormLine(
            "coach", "your name", "It stands on the pages you print.", questions.coach, most=80
        )
    if questions.clinic is None:
        yield FormLine("court", "court", "Which court you are on.", questions.court, most=40)
        yield FormLine("zone", "time zone", "Like Europe/Lisbon, or UTC.", questions.zone, most=80)


def _keys(rows: Sequence[tuple[str, str, str]]) -> str:
    return " / ".join(" ".join(row) for row in rows[:3])


def _mistakes(typed: dict[str, str]) -> Iterator[tuple[str, str]]:
    """Each line that cannot stay as it is, with a sentence."""
    if typed.get("clinic") == "":
        yield "clinic", "Write the clinic, please."
    if "players" in typed:
        try:
            cards = from_first_line(typed["players"])
        except ValueError as error:
            yield "players", f"{error.args[0]}."
            return
        for name, count in Counter(folded_name(card.name) for card in cards).items():
            if count > 1:
                twice = next(card.name for card in cards if folded_name(card.name) == name)
                yield "players", f"{twice} stands twice: write a letter more of one."
        if not cards:
            yield "players", "Write the players, please."
    try:
        times.zone(typed.get("zone", "UTC"))
    except ValueError as error:
        yield "zone", f"{error}."
