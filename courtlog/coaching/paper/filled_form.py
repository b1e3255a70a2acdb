"""A form before the clinic as it is typed in: its numbered lines, and what a key does to them.

A key goes into the line in hand. What is typed replaces what the card has. A line left empty, or as
it stood, changes nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Annotated

from courtlog.coaching.game.cards import FIELDS, one_line
from courtlog.values import NOTHING_ELSE, LengthRule, TextRule, json_of, take_json

NAME = "name"
FILMING, FILMING_BY, FILMING_ON = "filming", "filming_by", "filming_on"

KEYS = (
    NAME,
    "age",
    "hand",
    "complaints",
    "contact",
    FILMING,
    "goal",
    FILMING_BY,
    FILMING_ON,
)
"""The lines in the order of the paper: its questions, then who filled it in, and when."""

_FIELDS = {field.key: field for field in FIELDS}
_JOINERS = "\u200c\u200d"
"""Joiners within a word of several scripts."""
_STEPS = {"enter": 1, "down": 1, "tab": 1, "up": -1, "shift+tab": -1}
_CLEARS = ("backspace", "delete", " ")
_LONGEST = max(field.most for field in FIELDS)


@dataclass(frozen=True, slots=True, kw_only=True)
class FilledForm:
    """One form while it is typed in."""

    code: str
    player: str = ""
    """Whose card it fills in, as the roster shows the name; empty where the player is new."""
    answers: tuple[str, ...]
    """One for each of KEYS, as typed so far."""
    printed: tuple[str, ...]
    """What stood there before anything was typed."""
    line: int = 0
    """The line in hand, from 0; behind the last one all are done."""
    cursor: int = 0
    """Characters of the line in hand before the next one that is typed."""

    @classmethod
    def fresh(cls, code: str, player: str, known: Mapping[str, str]) -> FilledForm:
        """A form with what was known when typing began."""
        printed = tuple(one_line(known.get(key, "")) for key in KEYS)
        return cls(code=code, player=player, answers=printed, printed=printed).at_line(0)

    @property
    def is_behind_all(self) -> bool:
        """Whether the hand is behind the last line."""
        return self.line == len(KEYS)

    @property
    def is_changed(self) -> bool:
        """Whether anything was typed."""
        return self.answers != self.printed

    @property
    def name(self) -> str:
        """The name on the form."""
        return one_line(self.answers[0])

    def at_line(self, line: int) -> FilledForm:
        """The hand at this line, at its end."""
        line = min(max(line, 0), len(KEYS))
        cursor = len(self.answers[line]) if line < len(KEYS) else 0
        return replace(self, line=line, cursor=cursor)

    def with_answer(self, answer: str, cursor: int) -> FilledForm:
        """Another answer in the line in hand."""
        answers = (*self.answers[: self.line], answer, *self.answers[self.line + 1 :])
        return replace(self, answers=answers, cursor=cursor)

    def card_values(self) -> dict[str, str]:
        """What the card is to say other than before, by its keys.

        Who filled it in, and when, goes with the word on filming; without one it says nothing.
        """
        answers = dict(zip(KEYS, map(one_line, self.answers), strict=True))
        before = dict(zip(KEYS, self.printed, strict=True))
        changed = {key: text for key, text in answers.items() if text and text != before[key]}
        by, on = changed.pop(FILMING_BY, ""), changed.pop(FILMING_ON, "")
        if answers[FILMING] and (by or on):
            changed |= {FILMING: answers[FILMING], FILMING_ON: on}
            if by:
                changed[FILMING_BY] = by
        return changed


def choices_of(key: str) -> dict[str, str]:
    """The answers of a line by the key that takes each; empty for a line of text."""
    return {choice[0]: choice for choice in _FIELDS[key].choices if choice}


def press(form: FilledForm, key: str) -> FilledForm | None:
    """The form after a key, a character or a key's name; None where it means nothing here."""
    if key in _STEPS:
        return form.at_line(form.line + _STEPS[key])
    if key in ("pageup", "pagedown"):
        return form.at_line(0 if key == "pageup" else len(KEYS))
    if form.is_behind_all:
        return None
    choices = choices_of(KEYS[form.line])
    return _press_choice(form, key, choices) if choices else _press_text(form, key)


def paste(form: FilledForm, text: str) -> tuple[FilledForm, bool]:
    """The form after text was pasted into the line in hand, and whether all of it is there.

    Line breaks become blanks, and what cannot be seen is left out. Of a choice it is one whole.
    """
    text = "".join(sign for sign in one_line(text) if _is_written(sign))
    if form.is_behind_all:
        return form, not text
    choices = choices_of(KEYS[form.line])
    if choices:
        taken = text.casefold()
        fits = taken in choices.values()
        return (form.with_answer(taken, len(taken)) if fits else form), fits
    before, cursor = form.answers[form.line], form.cursor
    shown = text[: _FIELDS[KEYS[form.line]].most - len(before)]
    after = before[:cursor] + shown + before[cursor:]
    return form.with_answer(after, cursor + len(shown)), shown == text


def _is_written(sign: str) -> bool:
    return sign.isprintable() or sign in _JOINERS


def _press_choice(form: FilledForm, key: str, choices: Mapping[str, str]) -> FilledForm | None:
    if key in _CLEARS:
        return form.with_answer("", 0)
    if key in ("left", "right"):
        ways = ["", *choices.values()]
        now = ways.index(form.answers[form.line]) if form.answers[form.line] in ways else 0
        choice = ways[(now + (1 if key == "right" else -1)) % len(ways)]
        return form.with_answer(choice, len(choice))
    taken = choices.get(key.casefold())
    return None if taken is None else form.with_answer(taken, len(taken))


def _press_text(form: FilledForm, key: str) -> FilledForm | None:
    text, cursor = form.answers[form.line], form.cursor
    moves = {"left": cursor - 1, "right": cursor + 1, "home": 0, "end": len(text)}
    if key in moves:
        return replace(form, cursor=min(max(moves[key], 0), len(text)))
    if key == "backspace":
        start = max(cursor - 1, 0)
        return form.with_answer(text[:start] + text[cursor:], start)
    if key == "delete":
        return form.with_answer(text[:cursor] + text[cursor + 1 :], cursor)
    if len(key) != 1 or not _is_written(key):
        return None
    if len(text) >= _FIELDS[KEYS[form.line]].most:
        return None
    return form.with_answer(text[:cursor] + key + text[cursor:], cursor + 1)


_Answer = Annotated[str, TextRule(_LONGEST, empty=True)]
_Answers = Annotated[tuple[_Answer, ...], LengthRule(len(KEYS), len(KEYS))]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Draft:
    """A form as its draft has it."""

    __pydantic_config__ = NOTHING_ELSE

    code: Annotated[str, TextRule(20)]
    player: Annotated[str, TextRule(_LONGEST, empty=True)]
    answers: _Answers
    printed: _Answers


def form_draft_text(form: FilledForm) -> str:
    """The form as text, to go on with later."""
    return json_of(
        _Draft(code=form.code, player=form.player, answers=form.answers, printed=form.printed)
    )


def form_of_draft(text: str | bytes) -> FilledForm:
    """The form of a draft. Raises ValueError where the text is none."""
    draft = take_json(_Draft, text)
    form = FilledForm(
        code=draft.code, player=draft.player, answers=draft.answers, printed=draft.printed
    )
    return form.at_line(0)
