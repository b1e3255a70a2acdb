"""Which round of a sheet is which round of the book: the same, another version of it, or none.

Balls decide first: a round with the same balls is the same round. What is left over is told apart
by time, since nobody plays two rounds at once. Where a round has no time, drill and purpose decide.

A paper sheet has its number, which the book keeps: it is that round of its player, and no other.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from itertools import count, zip_longest

from courtlog.coaching.game.clinic_record import BallRecord, CheckIn, RoundRecord
from courtlog.coaching.game.rounds import Ball

_WRITTEN_CLOCK = 5 * 60_000
"""How far (ms) a beginning written by hand may be from the court's (common practice, no source)."""


class Keep(StrEnum):
    """What is kept of two versions of one round."""

    BOOK = "book"
    SHEET = "sheet"
    BOTH = "both"


@dataclass(frozen=True, slots=True)
class Match:
    """What a round of the sheet is in the book."""

    index: int | None = None
    """The place of the book's round in its list; None for a round that the book does not have."""
    is_same: bool = False
    """Whether both have the same balls; False: they are two versions of one round."""


def matches(book: Sequence[RoundRecord], sheet: Sequence[RoundRecord]) -> list[Match]:
    """For each round of the sheet what it is in the book; each round of the book is used once."""
    found = [Match()] * len(sheet)
    free = dict(enumerate(book))
    for fits, is_same in (
        (_same_start, True),
        (_same_round, True),
        (_at_the_same_time, False),
        (_of_one_kind, False),
    ):
        for place, round_ in enumerate(sheet):
            if found[place].index is not None:
                continue
            index = next((index for index, other in free.items() if fits(other, round_)), None)
            if index is not None:
                found[place] = Match(index, is_same)
                del free[index]
    return found


def match_by_number(
    book: Sequence[RoundRecord], numbers: Sequence[Set[int]], sheet: RoundRecord, number: int
) -> Match:
    """What a paper sheet is in the book; `numbers` are the sheets that each round was kept from.

    The round of this number is the same sheet, and one of another number never is. With a time,
    that tells rounds without a number apart. Else they count in the order of the book. Where
    they were not played as planned, one of the same drill and purpose is asked about.
    """
    of_number = [
        index
        for index, other in enumerate(book)
        if other.player == sheet.player and number in numbers[index]
    ]
    for index in of_number:
        if _same_round(book[index], sheet):
            return Match(index, True)
    if of_number:
        return Match(of_number[0])
    free = [index for index, kept_from in enumerate(numbers) if not kept_from]
    if sheet.started is not None:
        (match,) = matches([book[index] for index in free], [sheet])
        return match if match.index is None else Match(free[match.index], match.is_same)
    return _match_in_order(book, numbers, sheet, number)


def _match_in_order(
    book: Sequence[RoundRecord], numbers: Sequence[Set[int]], sheet: RoundRecord, number: int
) -> Match:
    """What a sheet without a time is, by the order in which its player's rounds stand."""
    of_player = [
        index for index, other in enumerate(book) if other.player == sheet.player and other.balls
    ]
    told = {one for index in of_player for one in numbers[index]}
    counted: dict[int, int] = {}
    last = 0
    for index in of_player:
        if not numbers[index]:
            last = next(one for one in count(last + 1) if one not in told)
            counted[last] = index
        last = max(last, *numbers[index], 0)
    if number in counted and _one_kind(book[counted[number]], sheet):
        index = counted[number]
        return Match(index, _same_round(book[index], sheet))
    has_all_before = told.union(counted).issuperset(range(1, number))
    if (has_all_before and number not in counted) or not sheet.balls:
        return Match()
    alike = [index for index in counted.values() if _one_kind(book[index], sheet)]
    alike.sort(key=lambda index: not _same_round(book[index], sheet))
    return Match(alike[0]) if alike else Match()


def later_sheet(
    book: Sequence[RoundRecord], numbers: Sequence[Set[int]], sheet: RoundRecord, number: int
) -> int | None:
    """The index of the player's next sheet of that day; a late sheet stands before it."""
    later = [
        (min(kept_from), index)
        for index, kept_from in enumerate(numbers)
        if book[index].player == sheet.player and kept_from and min(kept_from) > number
    ]
    return min(later)[1] if later else None


def _same_start(book: RoundRecord, sheet: RoundRecord) -> bool:
    return book.started == sheet.started and _same_round(book, sheet)


def _same_round(book: RoundRecord, sheet: RoundRecord) -> bool:
    """Whether they can be one round whose balls are the same, or of which the sheet has none."""
    if not _one_kind(book, sheet) or book.cues != sheet.cues:
        return False
    if not _times_allow(book, sheet):
        return False
    return not sheet.balls or not any(differing(book, sheet))


def _at_the_same_time(book: RoundRecord, sheet: RoundRecord) -> bool:
    """Whether one player would have been at the feed in both at once."""
    return (
        book.player == sheet.player
        and bool(book.balls and sheet.balls)
        and None not in (book.started, sheet.started)
        and _times_allow(book, sheet)
        and (_overlap(book, sheet) or _one_kind(book, sheet))
    )


def _of_one_kind(book: RoundRecord, sheet: RoundRecord) -> bool:
    """Whether nothing tells them apart, since a time is missing."""
    return (
        None in (book.started, sheet.started)
        and bool(book.balls and sheet.balls)
        and _one_kind(book, sheet)
    )


def _one_kind(book: RoundRecord, sheet: RoundRecord) -> bool:
    return (book.player, book.drill, book.purpose) == (sheet.player, sheet.drill, sheet.purpose)


def _times_allow(book: RoundRecord, sheet: RoundRecord) -> bool:
    """Whether both could be one round by their times, as far as they have any."""
    if book.started is None or sheet.started is None or _overlap(book, sheet):
        return True
    untold = book.ended is None or sheet.ended is None
    return untold and abs(book.started - sheet.started) <= _WRITTEN_CLOCK


def _overlap(book: RoundRecord, sheet: RoundRecord) -> bool:
    if book.started is None or sheet.started is None:
        return False
    if book.started == sheet.started:
        return True
    first, second = sorted((book, sheet), key=lambda round_: round_.started or 0)
    return first.ended is not None and (second.started or 0) < first.ended


def differing(book: RoundRecord, sheet: RoundRecord) -> Iterator[bool]:
    """For each ball, by its number, whether the two versions differ in it."""
    for one, other in zip_longest(book.balls, sheet.balls):
        yield one is None or other is None or not same_ball(one.ball, other.ball)


def same_ball(book: Ball, sheet: Ball) -> bool:
    """Whether the sheet says nothing else of the ball; it need not have the clip mark."""
    clips = [None if ball.clip is None else ball.clip // 1000 for ball in (book, sheet)]
    return (book.grades, book.tough) == (sheet.grades, sheet.tough) and clips[1] in (None, clips[0])


def new_texts(book: Sequence[str], sheet: Sequence[str]) -> list[str]:
    """The notes of the sheet that the book does not have yet."""
    left, new = list(book), []
    for text in sheet:
        if text in left:
            left.remove(text)
        else:
            new.append(text)
    return new


def new_check_ins(book: Sequence[CheckIn], sheet: Sequence[CheckIn]) -> list[CheckIn]:
    """The check-ins of the sheet that the book does not have yet; one may lack the moment."""
    left, new = list(book), []
    for said in sheet:
        known = next((other for other in left if _same_check_in(other, said)), None)
        if known is None:
            new.append(said)
        else:
            left.remove(known)
    return new


def _same_check_in(book: CheckIn, sheet: CheckIn) -> bool:
    def words(said: CheckIn) -> tuple[object, ...]:
        asked = (said.player, said.moment, said.pain, said.place, said.signs)
        return (*asked, said.effort, said.minutes, said.note)

    moments = [None if said.at_ms is None else said.at_ms // 1000 for said in (book, sheet)]
    return words(book) == words(sheet) and (None in moments or moments[0] == moments[1])


def can_be_mended(book: RoundRecord, sheet: RoundRecord) -> bool:
    """Whether the book's round can take the sheet's balls one by one: it has the same cues."""
    strokes = {round_.drill.partition("/")[0] for round_ in (book, sheet)}
    return book.cues == sheet.cues and len(strokes) == 1


def extra_balls(book: RoundRecord, sheet: RoundRecord) -> tuple[BallRecord, ...]:
    """The balls of the sheet after the last one of the book."""
    return sheet.balls[len(book.balls) :]


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoVersions:
    """One round as the book has it, and as the sheet has it."""

    date: date
    court: str
    place: int
    """Which of the player's rounds of that day on that court it is in the book, from 1."""
    round_id: int
    book: RoundRecord
    sheet: RoundRecord
