"""What a sheet changed in the book, and where its rounds went, in lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog import times
from courtlog.coaching.game.clinic_record import ClinicRecord
from courtlog.logbook.writes.sheets.taken_in import PlacedRound, TakenIn
from courtlog.plain_text import listed, many
from courtlog.times import date_words, minute_words


def taken_in_lines(sheet: ClinicRecord, came: TakenIn, step: int | None) -> Iterator[str]:
    """The lines; `step` is the number by which it can be taken back."""
    if came.rounds or came.balls:
        yield (
            f"{sheet.name}: {many(came.days, 'day')}, {many(came.rounds, 'round')} and"
            f" {many(came.balls, 'ball')} came into the book."
        )
    else:
        yield f"{sheet.name}: no new round; the book stays as it is{_but_for(came)}."
    for placed in came.placed:
        yield f"  {_place(placed, sheet)}"
    if came.known:
        count = len(came.known)
        yield f"{many(count, 'round')} of the sheet {_was(count)} in the book already:"
        for line in _known_lines(came.known):
            yield f"  {line}."
    if came.kept:
        yield f"Of {many(came.kept, 'round')} the balls of the book were kept."
    if came.mended:
        reads = "now reads" if came.mended == 1 else "now read"
        yield f"{many(came.mended, 'round')} {reads} as on the sheet."
    if came.texts and (came.known or came.kept or came.mended):
        yield f"The sheet's notes and check-ins came in beside them: {came.texts}."
    if step is not None:
        yield f"`courtlog history back {step}` takes it back."


def _was(count: int) -> str:
    return "was" if count == 1 else "were"


def _known_lines(known: Sequence[PlacedRound]) -> Iterator[str]:
    """`Tue 12 May, court 2: Maren, rounds 1 and 4`: a line for each player and day."""
    numbers: dict[tuple[str, str], list[str]] = {}
    for placed in known:
        court = f", court {placed.court}" if placed.court else ""
        day = f"{date_words(placed.date)}{court}"
        numbers.setdefault((day, placed.round.player), []).append(str(placed.place))
    for (day, player), places in numbers.items():
        yield f"{day}: {player}, round{'' if len(places) == 1 else 's'} {listed(places)}"


def _but_for(came: TakenIn) -> str:
    parts = [many(came.texts, "note or check-in")] if came.texts == 1 else []
    if came.texts > 1:
        parts.append(f"{came.texts} notes and check-ins")
    if came.mended:
        parts.append("what is said below")
    return f" but for {' and '.join(parts)}" if parts else ""


def _place(placed: PlacedRound, sheet: ClinicRecord) -> str:
    """`Maren's round 2 of Tue 12 May, court 2: forehand/live, 20 balls, 14:05`."""
    round_ = placed.round
    court = f", court {placed.court}" if placed.court else ""
    when = "no time"
    if round_.started is not None:
        when = minute_words(round_.started, times.zone(sheet.zone))
    return (
        f"{round_.player}'s round {placed.place} of {date_words(placed.date)}{court}:"
        f" {round_.drill}, {many(len(round_.balls), 'ball')}, {when}"
    )
