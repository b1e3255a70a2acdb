"""The questions around the boxes of a sheet: its lines, and the look through before it is kept."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from courtlog.coaching.game.sheet_code import SheetKind
from courtlog.coaching.paper.filled_sheet import LONGEST, FilledSheet, SheetLines
from courtlog.coaching.paper.look_through import look_through
from courtlog.courtside.dialogs.form import Answers, Form, TextField
from courtlog.courtside.screens.paper.typing_session import TypingSession
from courtlog.plain_text import listed, many

_SHOWN = 8
"""Row numbers that are listed at most."""


def lines_form(session: TypingSession, sheet: FilledSheet) -> Form:
    """The lines that stand on this kind of sheet, as far as they are known."""
    home = session.at.code.kind is SheetKind.HOME
    fields = _home_fields(sheet.lines) if home else _court_fields(sheet.lines, session.courts())
    title = "The lines at home" if home else "The lines around the boxes"
    return Form(f"{title} (empty where nothing is written)", fields, _complaint(session, sheet))


def lines_of(sheet: FilledSheet, answers: Answers) -> SheetLines:
    """The lines with these answers."""
    return replace(sheet.lines, **answers)


def _court_fields(lines: SheetLines, courts: Sequence[str]) -> list[TextField]:
    return [
        TextField("court", "court", lines.court, _courts_hint(courts), 40, tuple(courts)),
        TextField("who", "rated by", lines.who, "Who wrote the marks.", 80),
        TextField("began", "began", lines.began, "Like 9:40. It gives the round its place.", 8),
        TextField("pain", "pain 0-10", lines.pain, "", 2),
        TextField("place", "where it hurts", lines.place, "", 80),
        TextField("effort", "effort 0-10", lines.effort, "", 2),
        TextField("note", "note", lines.note, "", LONGEST),
    ]


def _home_fields(lines: SheetLines) -> list[TextField]:
    hint = "The date written on the sheet, like 2026-06-20."
    return [
        TextField("date", "date", lines.date, hint, 10),
        TextField("who", "watched by", lines.who, "Who filled it in.", 80),
    ]


def _courts_hint(courts: Sequence[str]) -> str:
    return f"Courts so far: {listed(courts)}." if any(courts) else ""


def _complaint(session: TypingSession, sheet: FilledSheet) -> Callable[[Answers], str]:
    def complaint(answers: Answers) -> str:
        return session.wrong_with(lines_of(sheet, answers))

    return complaint


def look_through_lines(session: TypingSession) -> Iterator[str]:
    """What to hold against the paper before it is kept."""
    sheet = session.in_hand
    looked = look_through(sheet)
    planned = f", {looked.planned} were planned" if looked.planned else ""
    yield f"{many(looked.balls, 'ball')} in rows 1 to {sheet.rows.last}{planned}."
    names = session.cue_names
    for name, counts in zip(names, looked.counts, strict=True):
        yield (
            f"{name}: {counts.made} made, {counts.near} near, {counts.missed} missed,"
            f" {counts.unseen} not seen."
        )
    tough = sum(ball.tough for ball in sheet.rows.balls)
    if tough:
        yield f"{tough} marked tough."
    if looked.left_out:
        yield f"Left out, so no ball: {_rows(looked.left_out)}."
    if looked.nothing_seen:
        yield f"A ball of which nothing was seen: {_rows(looked.nothing_seen)}."
    if looked.without_mark:
        keys = sheet.task.cues
        without = [names[keys.index(cue)] for cue in looked.without_mark]
        yield f"No mark at all for {listed(without)}."
    new_court = session.new_court()
    if new_court:
        yield new_court
    said = [
        f"{label} {text}"
        for label, text in (
            ("court", sheet.lines.court),
            ("began", sheet.lines.began),
            ("pain", " ".join(filter(None, (sheet.lines.pain, sheet.lines.place)))),
            ("effort", sheet.lines.effort),
            ("note", sheet.lines.note and f"“{sheet.lines.note}”"),
            ("date", sheet.lines.date),
            ("by", sheet.lines.who),
        )
        if text
    ]
    if said:
        yield f"{' · '.join(said)}."


def _rows(numbers: Sequence[int]) -> str:
    """`row 7`, `rows 7, 9 and 12`, the first of very many."""
    shown = [str(number) for number in numbers[:_SHOWN]]
    if len(numbers) > _SHOWN:
        shown.append(f"{len(numbers) - _SHOWN} more")
    return f"row{'' if len(numbers) == 1 else 's'} {listed(shown)}"
