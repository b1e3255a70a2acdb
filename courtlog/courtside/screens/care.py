"""The screens of arm and heat care: the check-in, the caution it raises, heat and its lines."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog.coaching.care.arm_care import (
    PLACES,
    STOP,
    Caution,
    CautionLevel,
    caution_lines,
    loudest,
)
from courtlog.coaching.care.heat_care import reading_of
from courtlog.coaching.game.clinic_record import CheckIn, CheckInMoment, Sign
from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.clinic_plan import MOST_RULE, ClinicPlan, plan_with
from courtlog.courtside.dialogs.form import Answers, ChoiceField, Field, Form, TextField, TickField
from courtlog.courtside.dialogs.own_screen import OwnDialog
from courtlog.errors import CourtlogError
from courtlog.plain_text import plain

EFFORT = (
    "Ask about 30 minutes after. 0 rest · 1 very very easy · 2 easy · 3 moderate · 4 somewhat hard"
    " · 5 hard · 7 very hard · 10 maximal"
)
"""Foster C and others 2001, J Strength Cond Res 15:109-115."""

SIGNS = "Space ticks it. Any one of these signs is a red."


def check_in_form(players: Sequence[Player], index: int, moment: CheckInMoment) -> Form:
    """The check-in, with this player and moment chosen already; pain is asked first."""
    names = tuple(player.shown_name for player in players)
    moments = tuple(CheckInMoment)
    when = "Morning: before the first ball of the day, held against the morning before."
    fields: list[Field] = [
        ChoiceField("player", "player", names, index, "Left and right, or the first letter."),
        ChoiceField("moment", "when", tuple(map(str, moments)), moments.index(moment), when),
        TextField("pain", "pain 0-10", most=2, hint="0 no pain, 10 the worst. Enter keeps it."),
        TextField(
            "place",
            "place",
            most=60,
            usual=PLACES,
            hint="Left and right: the usual places. Or write it in your own words.",
        ),
        TextField("effort", "effort 0-10", most=2, hint=EFFORT),
        TextField("minutes", "minutes", most=4, hint="Time on court, for the load."),
        *(TickField(str(sign), sign.words, SIGNS) for sign in Sign),
        TextField("note", "note", hint="In the player's own words."),
    ]
    return Form("Check-in", fields, _wrong_with, first="pain")


def check_in_of(answers: Answers, player: Player) -> CheckIn:
    """The check-in as the form was answered."""
    return CheckIn(
        player=player.shown_name,
        moment=tuple(CheckInMoment)[int(answers["moment"])],
        pain=_whole(answers["pain"]),
        place=answers["place"],
        effort=_whole(answers["effort"]),
        minutes=_whole(answers["minutes"]),
        note=answers["note"],
        signs=tuple(sign for sign in Sign if answers[sign]),
    )


def _whole(text: str) -> int | None:
    return int(text) if text else None


def _wrong_with(answers: Answers) -> str:
    for key, most in (("pain", 10), ("effort", 10), ("minutes", 1440)):
        text = answers[key]
        if text and not (text.isascii() and text.isdigit() and int(text) <= most):
            return f"{key.capitalize()} is a whole number from 0 to {most}, not {text!r}."
    if answers["place"] and not answers["pain"]:
        return "How much does it hurt there, 0 to 10? Write it in the line of pain."
    lines = ("pain", "effort", "minutes", "note", *Sign)
    return (
        "" if any(answers[key] for key in lines) else "Nothing to keep yet: write the pain, 0-10."
    )


class Notice(OwnDialog[None]):
    """Paragraphs that must be read: Enter, Space or Escape goes on; no other key does."""

    TOPIC = "care"

    def __init__(self, title: str, paragraphs: Sequence[str]) -> None:
        super().__init__()
        self._title, self._paragraphs = title, paragraphs

    def compose(self) -> ComposeResult:
        with Vertical(classes="box notice"):
            yield Static(Content.styled(f" {plain(self._title)} ", "bold reverse"))
            for paragraph in self._paragraphs:
                yield Static(Content(plain(paragraph)))
            yield Static(Content.assemble(("Enter", "bold"), " goes on"))

    def take_key(self, event: Key) -> None:
        if event.key in ("enter", "escape", "space"):
            self.dismiss(None)


def caution_screen(player: Player, cautions: Sequence[Caution], letters: bool) -> Notice | None:
    """What a check-in calls for; None when it calls for nothing."""
    level = loudest(cautions)
    if level is None:
        return None
    paragraphs = list(caution_lines(cautions))
    if level is CautionLevel.RED:
        paragraphs.append("The red stays in the book and on the screen, whatever is said later.")
    return Notice(f"{level.mark(letters)}: {player.shown_name}", paragraphs)


def red_form(players: Sequence[Player], index: int) -> Form:
    """A red set by hand, with its reason."""
    names = tuple(player.shown_name for player in players)
    return Form(
        "Set red by hand: it stays in the book",
        [
            ChoiceField("player", "player", names, index, "Left and right, or the first letter."),
            TextField("reason", "reason", hint=f"What you saw or heard. {STOP}"),
        ],
        lambda answers: "" if answers["reason"] else "A red needs a reason: write what you saw.",
        first="reason",
    )


def word_form(who: str, on: date, reason: str) -> Form:
    """What a clinician said of a red."""

    def mistake(answers: Answers) -> str:
        done = answers["who"] and answers["text"]
        return "" if done else "Write both: who it was, and what was said."

    return Form(
        f"A clinician's word on {who}, {on.isoformat()}: {reason}",
        [
            TextField("who", "who", most=120, hint="The clinician's name."),
            TextField(
                "text", "what", hint="What was said. The red stays; the word stands beside it."
            ),
        ],
        mistake,
    )


def heat_form() -> Form:
    """Temperature, humidity, and a WBGT measured on court."""

    def mistake(answers: Answers) -> str:
        try:
            reading_of(answers["temperature"], answers["humidity"], answers["wbgt"], 0)
        except ValueError as error:
            return str(error)
        return ""

    return Form(
        "Heat now",
        [
            TextField(
                "temperature", "temperature", most=12, hint="Air, in the shade: 31, 31C or 88F."
            ),
            TextField("humidity", "humidity %", most=12, hint="Relative, 0 to 100."),
            TextField(
                "wbgt", "WBGT", most=12, hint="Only if it was measured on court: 29.5 or 85F."
            ),
        ],
        mistake,
    )


def lines_form(plan: ClinicPlan) -> Form:
    """The coach's own lines, and the timer to drink and rest; the answers are those of a plan."""

    def mistake(answers: Answers) -> str:
        try:
            plan_with(plan, answers)
        except CourtlogError as error:
            return error.next_step
        return ""

    def degrees(line: float | None) -> str:
        return "" if line is None else f"{round(line, 2):g}"

    rule = "From your local rule; leave it empty if there is none. Example: ITF events {}."
    whose = "The club or body the lines come from."
    return Form(
        "Your heat lines, for a measured WBGT, and the timer to rest",
        [
            TextField(
                "wbgt_modify", "modify at", degrees(plan.wbgt_modify), rule.format("30.1 C"), 12
            ),
            TextField("wbgt_stop", "stop at", degrees(plan.wbgt_stop), rule.format("32.2 C"), 12),
            TextField("wbgt_rule", "whose rule", plan.wbgt_rule, whose, MOST_RULE),
            TextField(
                "rest_minutes",
                "rest every",
                str(plan.rest_minutes or ""),
                "Minutes between prompts to drink, go into the shade and rest; empty: none.",
                3,
            ),
        ],
        mistake,
    )
