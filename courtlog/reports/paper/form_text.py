"""The form as plain text: at most 78 columns, one sheet of paper of 66 lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog.plain_text import plain
from courtlog.reports.layout.page import WIDTH, lines_of
from courtlog.reports.layout.paper_pages import joined_pages
from courtlog.reports.paper import form_words as words
from courtlog.reports.paper.form_facts import Form, Question

RULE = "=" * WIDTH
INDENT = "   "

MOST_KNOWN = 4
"""Lines of one answer that is known already."""


def form_text(forms: Sequence[Form]) -> str:
    """The forms, each on a page of its own."""
    return joined_pages([list(_form(form)) for form in forms])


def _form(form: Form) -> Iterator[str]:
    yield from lines_of(f"{plain(words.title(form))} · {form.code}")
    yield RULE
    for said in words.head_lines(form):
        yield from lines_of(said)
    for number, question in enumerate(form.questions, 1):
        yield ""
        yield from _question(number, question)
    yield ""
    yield f"{words.SIGN[0]} {'_' * 36}  {words.SIGN[1]} {'_' * 18}"
    yield ""
    for said in words.foot_lines(form):
        yield from lines_of(said)


def _question(number: int, question: Question) -> Iterator[str]:
    boxes = "".join(
        f"   [{'x' if choice == question.known else ' '}] {choice}" for choice in question.choices
    )
    yield f"{number}. {question.asks}{boxes}"
    yield from lines_of(words.reason(question), INDENT)
    if question.hint:
        yield from lines_of(question.hint, INDENT)
    if question.lines and question.known:
        yield from _known(question.known)
    for _ in range(question.blank_lines):
        yield INDENT + "_" * (WIDTH - len(INDENT))


def _known(text: str) -> Iterator[str]:
    """The text to check, with … where it has more lines than there is room for."""
    lines = list(lines_of(plain(text), f"{INDENT}> "))
    yield from lines[: MOST_KNOWN - 1]
    if len(lines) > MOST_KNOWN:
        yield f"{lines[MOST_KNOWN - 1][: WIDTH - 2]} …"
    else:
        yield from lines[MOST_KNOWN - 1 :]
