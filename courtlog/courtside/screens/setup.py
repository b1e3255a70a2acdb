"""The first screen of a new clinic: what is not known yet is asked, then straight to the court."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog import times
from courtlog.coaching.game.cards import from_first_line, same_name
from courtlog.coaching.game.drills import Ladder
from courtlog.courtside.desk.keymap import PADS
from courtlog.courtside.desk.people_desk import NOTHING, Beginning, Known
from courtlog.courtside.dialogs.line_form import Line, LineForm
from courtlog.courtside.dialogs.own_screen import OwnScreen
from courtlog.plain_text import plain

FIRST_STROKE = "forehand"


class SetUpScreen(OwnScreen[Beginning | None]):
    """Enter goes on to the next line, and from the last one to the court.

    `typed` fills the lines; a caution says what went wrong when they were to be stored.
    """

    def __init__(
        self,
        known: Known,
        ladders: Sequence[Ladder],
        typed: Mapping[str, str] = NOTHING,
        caution: str = "",
    ) -> None:
        super().__init__()
        self._known = known
        self._caution = caution
        self._lines = tuple(
            replace(line, value=typed.get(line.key, line.value)) for line in _lines(known, ladders)
        )

    def compose(self) -> ComposeResult:
        clinic = self._known.clinic
        what = f"{plain(clinic.name)} has no day yet." if clinic else "A new book."
        with Vertical(classes="box"):
            yield Static(
                Content.assemble(
                    (what, "bold"),
                    f" Enter goes on, Shift+Tab back, Escape {plain(self._known.escape)}.",
                ),
            )
            yield LineForm(self._lines, self._caution)

    def on_key(self, event: Key) -> None:
        if event.key == "escape":
            event.stop()
            self.dismiss(None)

    def on_line_form_done(self, event: LineForm.Done) -> None:
        said = {line.key: line.value for line in self._lines} | event.values
        said = {key: value.strip() for key, value in said.items()}
        form = self.query_one(LineForm)
        mistake = next(_mistakes(said), None)
        if mistake is not None:
            form.point_to(*mistake)
            return
        known = self._known
        clinic = known.clinic
        self.dismiss(
            Beginning(
                clinic.name if clinic else said["clinic"],
                clinic.zone if clinic else said["zone"],
                said.get("coach", known.coach),
                said.get("court", known.court),
                tuple(from_first_line(said.get("players", ""))),
                said.get("stroke", ""),
                said.get("pad", known.pad),
                said,
            )
        )


def _lines(known: Known, ladders: Sequence[Ladder]) -> Iterator[Line]:
    if known.clinic is None:
        yield Line("clinic", "clinic", "A name for it, for example Harbour Week.", most=80)
    if not known.has_players:
        hint = "Commas between the names; after a left-hander's name left, as in Tove left."
        yield Line("players", "players", hint, most=2000)
    if ladders:
        strokes = sorted(ladders, key=lambda one: (one.stroke != FIRST_STROKE, one.title))
        yield Line(
            "stroke",
            "stroke",
            "It begins with the first drill fed from the basket.",
            strokes[0].stroke,
            tuple((ladder.stroke, ladder.title) for ladder in strokes),
        )
    if known.asks_pad:
        pads = tuple((pad.key, f"{pad.title}: {_keys(pad.rows)}") for pad in PADS.values())
        yield Line("pad", "your pad", "The keys that rate; F6 changes them later.", known.pad, pads)
    if not known.has_coach:
        yield Line("coach", "your name", "It stands on the pages you print.", known.coach, most=80)
    if known.clinic is None:
        yield Line("court", "court", "Which court you are on.", known.court, most=40)
        yield Line("zone", "time zone", "Like Europe/Lisbon, or UTC.", known.zone, most=80)


def _keys(rows: Sequence[tuple[str, str, str]]) -> str:
    return " / ".join(" ".join(row) for row in rows[:3])


def _mistakes(said: dict[str, str]) -> Iterator[tuple[str, str]]:
    """Each line that cannot stay as it is, with a sentence."""
    if said.get("clinic") == "":
        yield "clinic", "Write the clinic, please."
    if "players" in said:
        try:
            cards = from_first_line(said["players"])
        except ValueError as error:
            yield "players", f"{error.args[0]}."
            return
        for name, times_said in Counter(same_name(card.name) for card in cards).items():
            if times_said > 1:
                twice = next(card.name for card in cards if same_name(card.name) == name)
                yield "players", f"{twice} stands twice: write a letter more of one."
        if not cards:
            yield "players", "Write the players, please."
    try:
        times.zone(said.get("zone", "UTC"))
    except ValueError as error:
        yield "zone", f"{error}."
