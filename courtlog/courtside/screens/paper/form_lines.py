"""What the screen of a form shows: each question with its number, and its answer below it.

The lines around the one in hand are shown, so that it is always seen.
"""

from __future__ import annotations

from collections.abc import Sequence

from courtlog.coaching.paper.filled_form import FilledForm, choices_of
from courtlog.courtside.surface.lettering import Line, cells
from courtlog.plain_text import plain
from courtlog.reports.paper.form_facts import Question

EACH = 2
"""Rows of a question: what is asked, and the answer."""
INDENT = "    "
IN_HAND, CURSOR = "►", "│"
_AFTER = 8
"""Cells behind the cursor that are kept in sight of a long answer."""

FOOT = (
    "Enter next line, done at the end   arrows mend   one letter for a choice",
    "Space clears a choice   Backspace take back   Esc keep, leave, throw away",
)


def form_lines(
    form: FilledForm, questions: Sequence[Question], width: int, height: int
) -> list[Line]:
    """The block of questions with the one in hand, in so many lines at most."""
    block = max(height // EACH, 1)
    shown = min(form.line, len(questions) - 1)
    first = shown // block * block
    lines: list[Line] = []
    for index, question in enumerate(questions[first : first + block], first):
        in_hand = index == form.line
        style = "bold" if in_hand else ""
        lines.append((f"{IN_HAND if in_hand else ' '}{index + 1:>2} {question.asks}", style))
        lines.append((INDENT + _answer(form, index, question, width - len(INDENT)), style))
    return lines


def hint_line(question: Question) -> str:
    """What helps with the line in hand."""
    return question.hint or question.why


def _answer(form: FilledForm, index: int, question: Question, width: int) -> str:
    text, choices = form.answers[index], choices_of(question.key)
    if choices:
        return "   ".join(
            f"{key} [{'x' if choice == text else ' '}] {choice}" for key, choice in choices.items()
        )
    if index != form.line:
        return plain(text)
    before, after = plain(text[: form.cursor]), plain(text[form.cursor :])
    room = max(width - min(cells(after), _AFTER) - 2, 1)
    if cells(before) > room:
        while before and cells(before) >= room:
            before = before[1:]
        before = f"…{before}"
    return f"{before}{CURSOR}{after}"
