"""The list in which cues are picked, and one of them named the main cue."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from courtlog.coaching.answers.highlights import highlights
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.drills import Cue
from courtlog.courtside.desk.keymap import key_name
from courtlog.courtside.dialogs.own_screen import OwnDialog
from courtlog.courtside.dialogs.questions import DIGITS
from courtlog.logbook.reads.main_cue_lookups import SETTLED, MainCue
from courtlog.plain_text import plain

TITLE = """\
Cues: 1-9 or Space ticks, m names the main one, Enter takes,
w takes and asks why, Escape leaves"""

FEW = 3
"""Cues that can be seen on every ball."""

FOUR = "Four is a lot to see on every ball; three or fewer are rated more surely."

LEFT_OUT = "The main cue is left out: its change cannot be told from balls that do not show it."


@dataclass(frozen=True, slots=True)
class PickedCues:
    """The picked cues by their keys in stroke order, and the main one among them."""

    cues: tuple[str, ...]
    main: str
    asks_why: bool = False
    """Whether the coach wants to say what is good already, and why these."""


class CueList(OwnDialog[PickedCues | None]):
    """A digit or Space ticks, m names the main cue, Enter or w takes, Escape leaves.

    The main cue is the one named. Else it is the one thing to work on by the `counts` of the
    ticked ones, or without balls the first that was ticked. A settled one stays.
    """

    def __init__(
        self,
        cues: Sequence[Cue],
        ticked: Sequence[str],
        main: MainCue,
        counts: Mapping[str, Counts],
        most: int,
    ) -> None:
        super().__init__()
        self._counts = {cue.key: counts.get(cue.key, Counts()) for cue in cues}
        self._cues = list(cues)
        self._picked = list(ticked)
        self._named = main.cue
        self._is_settled = main.is_settled
        self._most = most

    def compose(self) -> ComposeResult:
        with Vertical(classes="box"):
            yield Static(Content(TITLE))
            yield OptionList(*map(Option, self._lines()), compact=True)
            yield Static("", id="caution")

    def take_key(self, event: Key) -> bool:
        name = key_name(event.key, event.character)
        if name == "escape":
            self.dismiss(None)
        elif name in ("enter", "w"):
            if self._picked:
                picked = tuple(cue.key for cue in self._cues if cue.key in self._picked)
                self.dismiss(PickedCues(picked, self._main, name == "w"))
        elif name in DIGITS[: len(self._cues)]:
            self.query_one(OptionList).highlighted = DIGITS.index(name)
            self._act_on_line(self._tick)
        elif name == "space":
            self._act_on_line(self._tick)
        elif name == "m":
            self._act_on_line(self._name_main)
        else:
            return False
        return True

    @property
    def _main(self) -> str:
        if self._is_settled or self._named in self._picked:
            return self._named
        return self._one_thing or (self._picked[0] if self._picked else "")

    @property
    def _one_thing(self) -> str:
        """The one thing to work on of the ticked cues; empty where the balls name none."""
        ticked = [cue.key for cue in self._cues if cue.key in self._picked]
        found = highlights(self._counts, ticked).one_thing
        return found.cue if found else ""

    def _act_on_line(self, act: Callable[[str], str]) -> None:
        """Act on the cue the cursor is on, and show what is picked and what the act has to say."""
        options = self.query_one(OptionList)
        if options.highlighted is None:
            return
        caution = act(self._cues[options.highlighted].key)
        for index, line in enumerate(self._lines()):
            options.replace_option_prompt_at_index(index, line)
        self.query_one("#caution", Static).update(Content(caution))

    def _tick(self, cue: str) -> str:
        if cue in self._picked:
            self._picked.remove(cue)
            return LEFT_OUT if self._is_settled and cue == self._named else self._are_many()
        if len(self._picked) >= self._most:
            return f"At most {self._most}: take one out first."
        self._picked.append(cue)
        return self._are_many()

    def _name_main(self, cue: str) -> str:
        if cue == self._main:
            return self._are_many()
        if self._is_settled:
            return SETTLED
        if cue not in self._picked and len(self._picked) >= self._most:
            return f"At most {self._most}: take one out first."
        if cue not in self._picked:
            self._picked.append(cue)
        self._named = cue
        return self._are_many()

    def _are_many(self) -> str:
        return FOUR if len(self._picked) > FEW else ""

    def _lines(self) -> list[Content]:
        digits = DIGITS + " " * len(self._cues)
        return [self._line(digit, cue) for digit, cue in zip(digits, self._cues, strict=False)]

    def _line(self, digit: str, cue: Cue) -> Content:
        is_main = cue.key == self._main
        mark = "[ ]" if cue.key not in self._picked else "[M]" if is_main else "[x]"
        counts = self._counts[cue.key]
        words = [f"{mark} {cue.name} ({cue.part})"]
        if counts.seen:
            words.append(f"made {counts.of_words()}")
        if is_main:
            least = cue.key == self._one_thing and len(self._picked) > 1
            words.append(f"the main cue{': made least' * least}")
        return Content.assemble((digit, "bold"), " ", plain(", ".join(words)))
