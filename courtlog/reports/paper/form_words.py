"""What is said on the form beside its questions, shared by its text and its HTML."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog.plain_text import many
from courtlog.reports.paper.form_facts import Form, Question

FILL_IN = "Please write clearly, and tick one box. Leave out what you like."

CHECK = "What stands here already: please check it, and cross out what is wrong."

SIGN = ("Filled in by", "Date")

BACK = "Give this sheet back to the coach. It does not go on court."

ASK = (
    "You can ask the coach at any time what is kept of you. It is printed on one page, put right,"
    " or removed."
)

LOCAL_RULES = "Your local rules on such data go first."

GUARDIAN = "For a minor a parent or guardian fills this in, and says yes or no to filming."


def title(form: Form) -> str:
    """`Maren, before Harbour Week`."""
    return f"{form.player}, before {form.clinic}" if form.player else f"Before {form.clinic}"


def head_lines(form: Form) -> Iterator[str]:
    """What is said before the first question."""
    yield FILL_IN
    if any(question.known for question in form.questions):
        yield CHECK
    yield GUARDIAN


def reason(question: Question) -> str:
    """`Why: so that ... Seen by: the coaches of this clinic.`."""
    return f"Why: {question.why[0].lower()}{question.why[1:]} Seen by: {question.seen_by}."


def foot_lines(form: Form) -> Iterator[str]:
    """How long it is kept, and what can be asked."""
    if form.months:
        yield (
            f"Your answers are kept in the coach's book for {many(form.months, 'month')} after the"
            " last day. Then the coach is reminded to remove them."
        )
    else:
        yield "Your answers are kept in the coach's book until you ask to have them removed."
    yield ASK
    yield f"{LOCAL_RULES} {BACK}"
