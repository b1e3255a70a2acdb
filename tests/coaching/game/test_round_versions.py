"""Which round of a sheet is which of the book, and where the new ones stand."""

from __future__ import annotations

from courtlog.coaching.game.clinic_record import BallRecord, CheckIn, RoundRecord
from courtlog.coaching.game.round_places import BookRound, SheetRound, places
from courtlog.coaching.game.round_versions import (
    Match,
    differing,
    matches,
    new_check_ins,
    new_texts,
)
from courtlog.coaching.game.rounds import Ball, Purpose

MINUTE = 60_000
NEW, SAME = Match(), Match(0, True)
OTHER = Match(0, False)


def round_(
    balls: str,
    at: int | None = None,
    until: int | None = None,
    player: str = "Maren",
    drill: str = "forehand/live",
) -> RoundRecord:
    """A round of two cues; times in minutes."""
    return RoundRecord(
        player=player,
        drill=drill,
        purpose=Purpose.PRACTICE,
        cues=("turn", "spacing"),
        balls=tuple(BallRecord(Ball.from_token(token, 2)) for token in balls.split()),
        started=None if at is None else at * MINUTE,
        ended=None if until is None else until * MINUTE,
    )


def test_the_same_balls_are_the_same_round_unless_the_times_tell_them_apart() -> None:
    book = [round_("22 11", 60, 70)]
    assert matches(book, [round_("22 11", 60, 70)]) == [SAME]
    assert matches(book, [round_("22 11")]) == [SAME]
    assert matches(book, [round_("22 11", 62)]) == [SAME]
    assert matches(book, [round_("22 11", 80, 90)]) == [NEW]
    assert matches(book, [round_("22 11", player="Tove")]) == [NEW]


def test_a_round_of_the_book_is_used_once() -> None:
    assert matches([round_("22")], [round_("22"), round_("22")]) == [SAME, NEW]
    two = [round_("22", 10, 20), round_("22", 30, 40)]
    assert matches(two, [round_("22", 30, 40), round_("22", 10, 20)]) == [
        Match(1, True),
        Match(0, True),
    ]


def test_nobody_plays_two_rounds_at_once() -> None:
    book = [round_("22 11", 60, 70)]
    assert matches(book, [round_("22 10", 65, 75)]) == [OTHER]
    assert matches(book, [round_("22 10", 65, 75, drill="forehand/hand-feed")]) == [OTHER]
    assert matches(book, [round_("22 10", 70, 75)]) == [NEW]
    assert matches(book, [round_("22 10", 65, 75, player="Tove")]) == [NEW]


def test_a_clock_written_by_hand_may_be_a_little_off() -> None:
    assert matches([round_("22 11", 60, 70)], [round_("22 10", 57)]) == [OTHER]
    assert matches([round_("22 11", 60, 70)], [round_("22 10", 50)]) == [NEW]


def test_without_a_time_a_round_of_the_same_drill_is_asked_about() -> None:
    assert matches([round_("22 11", 60, 70)], [round_("22 10")]) == [OTHER]
    assert matches([round_("22 11")], [round_("22 11 22")]) == [OTHER]
    assert matches([round_("22 11")], [round_("22 10", drill="forehand/hand-feed")]) == [NEW]


def test_a_round_of_notes_alone_contradicts_no_ball() -> None:
    assert matches([round_("22 11", 60, 70)], [round_("")]) == [SAME]


def test_balls_differ_by_grade_by_mark_and_where_one_is_missing() -> None:
    pairs = differing(round_("22 11 0-! 22"), round_("22 10 0- 22 ."))
    assert list(pairs) == [False, True, True, False, True]


def test_what_the_book_has_is_not_new() -> None:
    assert new_texts(["a", "a"], ["a", "b", "a", "a"]) == ["b", "a"]
    said = CheckIn(player="Maren", pain=2, at_ms=5000)
    assert new_check_ins([said], [CheckIn(player="Maren", pain=2)]) == []
    assert new_check_ins([said], [CheckIn(player="Maren", pain=2, at_ms=9000)]) != []
    assert new_check_ins([said], [CheckIn(player="Maren", pain=3)]) != []


def order(book: str, sheet: str) -> str:
    """The day's order: letters are the book's rounds, digits the sheet's, by their number.

    A round is its time, or `-` for none; of the sheet `=0` is the book's first one; `e` of the
    book is one that was never fed.
    """
    in_book = [
        BookRound(int(word) if word.isdigit() else None, word != "e") for word in book.split()
    ]
    on_sheet = [
        SheetRound(None, same_as=int(word[1:]))
        if word.startswith("=")
        else SheetRound(int(word) if word.isdigit() else None)
        for word in sheet.split()
    ]
    slots = places(in_book, on_sheet)
    return "".join(str(slot.index) if slot.from_sheet else "abcdef"[slot.index] for slot in slots)


def test_by_time_after_all_that_began_no_later() -> None:
    assert order("10 20 30", "25 5 40") == "1ab0c2"
    assert order("10 - 30", "20") == "ab0c"
    assert order("10 20", "20 20") == "ab01"


def test_a_round_without_a_time_goes_by_the_order_of_its_sheet() -> None:
    assert order("10 20 30", "- =1 -") == "a0bc2"
    assert order("10 20 30", "- 25 -") == "ab01c2"
    assert order("10 20", "- -") == "ab01"


def test_a_new_day_is_as_the_sheet_has_it() -> None:
    assert order("", "30 - 10") == "012"


def test_rounds_that_were_never_fed_are_not_in_the_way() -> None:
    assert order("10 e", "- 20") == "a01b"
    assert order("e", "30 10") == "01a"
