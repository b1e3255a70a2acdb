"""Typing a sheet in: by its code, key by key, looked through, and in the book in one step."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind, round_task
from courtlog.courtside.app.typing_app import TypingApp
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import PADS
from courtlog.courtside.screens.paper.typing_session import TypingSession
from courtlog.errors import BookError
from courtlog.logbook.file import sheet_drafts
from courtlog.logbook.reads import day_lookups
from courtlog.logbook.writes import past_steps
from courtlog.reports.facts import day_facts
from courtlog.reports.facts.plan_facts import plans
from courtlog.reports.one_screen.player_page import player_page
from courtlog.reports.pages.past_steps_text import step_words
from courtlog.reports.paper import home_sheets
from courtlog.reports.paper.court_sheets import court_sheets
from tests.court import DAY, Clock, close_look, desk_in, feed, player
from tests.courtside.screen import flat, on_court, shown

CUES = ("turn", "spacing", "finish")


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A day that has begun: Maren hit three balls, and her round is over."""
    desk = desk_in(tmp_path)
    feed(desk, "222 210 1-2")
    desk.rounds.end_round()
    return desk


def code_of(
    desk: Desk,
    name: str = "Tove",
    number: int = 1,
    on: date = DAY,
    kind: SheetKind = SheetKind.COURT,
) -> str:
    """The code of a blank sheet."""
    return str(SheetCode.of(kind, on, desk.view.clinic.name, name, number))


def printed_code(desk: Desk, name: str = "Tove", on: date = DAY) -> str:
    """The code of the first round that the plan has for this player."""
    clinic = desk.view.clinic
    both = plans(desk.book, clinic, on, desk.state.library)
    first = next(round_ for round_ in both.rounds if round_.player.name == name)
    cues = desk.state.library.ladders[first.drill.partition("/")[0]].first_cues
    task = round_task(first.drill, first.purpose, first.balls, cues)
    return str(SheetCode.of(SheetKind.COURT, on, clinic.name, name, 1, task))


class _StaysOpen(TypingApp):
    """Leaves nothing to wait for: what it would say at the end is read while it runs."""

    def exit(self, *args: Any, **kwargs: Any) -> None:
        """Stay."""


def typed(
    desk: Desk,
    code: str,
    keys: Sequence[str] = (),
    size: tuple[int, int] = (80, 24),
    pad: str = "right",
) -> tuple[str, str]:
    """The screen after these keys, and what the application says when it was left."""

    async def run() -> tuple[str, str]:
        settings = close_look(pad=pad, coach="Ines")
        session = TypingSession(desk.book, lambda: desk.state.library, settings, desk.clock)
        app = _StaysOpen(session, code, settings)
        async with app.run_test(size=size) as pilot:
            await pilot.press(*keys)
            await pilot.pause()
            text = "" if app.outcome else shown(app.screen)
        return text, app.outcome

    return asyncio.run(run())


def rows_of(text: str) -> list[str]:
    """The rows of a screen of one run, with what stands in their boxes."""
    lines = [
        line[:38].replace("►", " ").replace("[", " ").replace("]", " ")
        for line in text.splitlines()
    ]
    return [" ".join(line.split()) for line in lines if line[:5].strip().isdigit()]


BEGIN = [*"racquet feed, t", "enter", "enter", "enter"]
"""Of a blank sheet: the drill, practice, the usual cues."""


def rounds(desk: Desk, name: str) -> list[str]:
    """The player's rounds in the book: drill, purpose, balls."""
    record = day_lookups.record(desk.book, desk.view.clinic)
    return [
        f"{r.drill} {r.purpose} " + " ".join(ball.ball.token() for ball in r.balls)
        for day in record.days
        for r in day.rounds
        if r.player == name
    ]


def test_a_printed_sheet_says_what_was_planned(desk: Desk) -> None:
    text, _ = typed(desk, printed_code(desk))
    assert "Tove · court sheet, round 1 · Tue 12 May · Harbour Week" in text
    assert "Turn" in text or "turn" in text
    assert "►  1 [ ]" in text
    assert "20" in text


def test_a_sheet_comes_into_the_book_and_history_takes_it_back(desk: Desk) -> None:
    before = rounds(desk, "Tove")
    keys = [*BEGIN, *"212", "o", "minus", "enter", "t", "space", "enter"]
    text, _ = typed(desk, code_of(desk), keys)
    assert "The lines around the boxes" in text
    text, _ = typed(desk, code_of(desk), ["enter", "enter"])  # goes on: lines, then the look
    words = flat(text)
    assert "3 balls in rows 1 to 3" in words
    assert "1 marked tough" in words
    _, outcome = typed(desk, code_of(desk), ["enter", "enter", "enter"])
    assert outcome.startswith("Tove, round 1 of Tue 12 May: in the book.")
    assert rounds(desk, "Tove") == [*before, "forehand/racquet-feed practice 212 2-- 222!"]
    assert sheet_drafts.codes_of_drafts(desk.book.path) == []
    number = int(outcome.split("history back ")[1].split("`")[0])
    past_steps.take_back_step(desk.book, number, "Ines", desk.clock())
    assert rounds(desk, "Tove") == before


def test_the_same_sheet_twice_is_once(desk: Desk) -> None:
    keys = [*BEGIN, *"212221", "enter", "enter", "enter"]
    typed(desk, code_of(desk), keys)
    _, outcome = typed(desk, code_of(desk), keys)
    assert outcome.endswith("the book had it already, ball for ball.")
    assert rounds(desk, "Tove") == ["forehand/racquet-feed practice 212 221"]


def test_two_versions_are_shown_and_asked_about(desk: Desk) -> None:
    typed(desk, code_of(desk), [*BEGIN, *"212221", "enter", "enter", "enter"])
    other = [*BEGIN, *"212220", "enter", "enter", "enter"]
    text, _ = typed(desk, code_of(desk), other)
    assert "Book 2 balls, sheet 2 balls; 1 differs." in text
    assert rounds(desk, "Tove") == ["forehand/racquet-feed practice 212 221"]
    typed(desk, code_of(desk), ["enter", "enter", "enter", "s"])
    assert rounds(desk, "Tove") == ["forehand/racquet-feed practice 212 220"]


def test_pain_on_a_sheet_comes_in_even_where_its_balls_do_not(desk: Desk) -> None:
    typed(desk, code_of(desk), [*BEGIN, *"212221", "enter", "enter", "enter"])
    other = [*BEGIN, *"212220", "enter", *["down"] * 3, "6", "enter", "enter"]
    text, _ = typed(desk, code_of(desk), other)
    assert "note, pain and effort of the sheet are kept either way" in flat(text)
    _, outcome = typed(desk, code_of(desk), ["enter", "enter", "enter", "b"])
    assert "the balls of the book were kept, and what the sheet's lines say came in." in outcome
    assert "`courtlog history back" in outcome
    assert rounds(desk, "Tove") == ["forehand/racquet-feed practice 212 221"]
    said = desk.book.db.execute("SELECT pain FROM check_in").fetchall()
    assert said == [(6,)]
    _, outcome = typed(desk, code_of(desk), [*other, "b"])
    assert outcome == "Tove, round 1 of Tue 12 May: the balls of the book were kept."


def test_what_was_typed_is_there_after_the_laptop_died(desk: Desk) -> None:
    """Of the row in hand too, since it was seen."""
    typed(desk, code_of(desk), [*BEGIN, *"212", *"22"])
    text, _ = typed(desk, code_of(desk))
    assert "Going on: 2 balls of it were typed before." in text
    assert "►  2  2" in text
    assert rows_of(typed(desk, code_of(desk), ["1"])[0])[:2] == ["1 2 1 2", "2 2 2 1"]


def test_escape_asks_before_it_throws_away(desk: Desk) -> None:
    code = code_of(desk)
    text, _ = typed(desk, code, [*BEGIN, *"212", "escape"])
    assert "throw away what was typed" in text
    _, outcome = typed(desk, code, ["escape", "l"])
    assert "the same code goes on with it" in outcome
    text, _ = typed(desk, code, ["escape", "t", "enter", "escape"])
    assert "212" in "".join(text.split())
    _, outcome = typed(desk, code, ["escape", "t", "y"])
    assert outcome == "Thrown away; the book is as it was."
    assert sheet_drafts.codes_of_drafts(desk.book.path) == []
    assert rounds(desk, "Tove") == []


@pytest.mark.parametrize(
    ("code", "words"),
    [
        ("K7D", "A sheet's code has 9 signs, and 3 were typed."),
        ("K7D-3MX-2P?", "stands in no sheet's code"),
        ("000-000-000", "a sign is wrong, or two changed places"),
    ],
)
def test_a_wrong_code_is_told_at_once(desk: Desk, code: str, words: str) -> None:
    text, _ = typed(desk, code)
    assert words in flat(text)
    assert "Enter tries again" in flat(text)


def test_a_code_of_nobody_here_is_told(desk: Desk) -> None:
    other = str(SheetCode.of(SheetKind.COURT, DAY, "Hill Week", "Tove"))
    assert f"The code {other} is of no clinic and player of this book." in flat(
        typed(desk, other)[0]
    )
    desk.book.db.execute("INSERT INTO player (id, name) VALUES (7, 'Ada')")
    gone = code_of(desk, "Ada")
    assert "Ada is on the roster of Harbour Week no longer." in flat(typed(desk, gone)[0])


def test_a_date_out_of_the_clinic_is_asked_about_or_told(desk: Desk) -> None:
    later = code_of(desk, on=DAY + timedelta(1))
    assert "a day still to come" in flat(typed(desk, later)[0])
    earlier = code_of(desk, on=DAY - timedelta(1))
    text = flat(typed(desk, earlier)[0])
    assert "Harbour Week has no day on Mon 11 May yet; it has Tue 12 May." in text
    assert typed(desk, earlier, ["escape"])[1] == ""


def test_a_sheet_printed_for_a_day_that_never_began_asks_no_date(desk: Desk) -> None:
    """The laptop died in the night: the plan of that date fits the code."""
    code = printed_code(desk, on=DAY + timedelta(1))
    assert isinstance(desk.clock, Clock)
    desk.clock.at += 24 * 3_600_000
    text = flat(typed(desk, code)[0])
    assert "has no day" not in text
    assert f"{code} ·" in text


def test_a_sheet_knows_its_cues_after_the_court_went_on_with_others(desk: Desk) -> None:
    """Printed with the cue of one round; the next round had another one."""
    drill = desk.state.library.drill("forehand/racquet-feed")
    codes = []
    for cue in ("finish", "spacing"):
        desk.rounds.start(player(desk, "Maren"), drill, Purpose.PRACTICE, (cue,))
        feed(desk, "2")
        desk.rounds.end_round()
        sheets = court_sheets(desk.book, desk.view.clinic, DAY, desk.state.library, "Maren")
        codes.append(str(sheets.sheets[0].rounds[0].code))
    assert codes[0] != codes[1]
    for code in codes:
        assert f"{code} ·" in flat(typed(desk, code)[0])


def test_a_card_is_no_sheet_with_boxes(desk: Desk) -> None:
    card = code_of(desk, "", kind=SheetKind.CARD)
    assert f"{card} is the code of a cue card." in flat(typed(desk, card)[0])


@pytest.mark.parametrize("pad", ["numbers", "right", "left", "right-azerty", "left-azerty"])
def test_one_key_a_box_on_every_pad(desk: Desk, pad: str) -> None:
    names = {",": "comma", ".": "full_stop", ";": "semicolon", ":": "colon"}
    made = [PADS[pad].rows[row][2] for row in range(3)]
    keys = [names.get(key, key) for key in made]
    typed(
        desk,
        code_of(desk),
        [*BEGIN, *keys, *keys, "tab", *"201", "enter", "enter", "enter"],
        pad=pad,
    )
    assert rounds(desk, "Tove") == ["forehand/racquet-feed practice 222 222 201"]


def test_the_row_in_hand_is_always_seen(desk: Desk) -> None:
    typed(desk, code_of(desk), [*BEGIN, *["space"] * 45])
    for keys, row in ((["home"], 1), (["end", "pageup"], 36), (["end"], 46), (["up"], 45)):
        text, _ = typed(desk, code_of(desk), keys, size=(80, 24))
        assert len(text.splitlines()) <= 24
        if row <= 45:
            assert f"►{row:>3} " in text
        assert "45 balls" in text


def test_from_the_court(desk: Desk) -> None:
    code = code_of(desk)
    keys = ["escape", "enter", "comma", *code.lower().replace("-", ""), "enter"]
    text = on_court(desk, [*keys, *BEGIN, *"212", "enter", "enter", "enter"])
    assert "Tove, round 1 of Tue 12 May: in the book." in text
    assert rounds(desk, "Tove") == ["forehand/racquet-feed practice 212"]
    assert on_court(desk, ["escape", "enter", "comma", "escape"]) != ""
    assert Purpose.PRACTICE in rounds(desk, "Tove")[0]


def test_erasing_a_person_deletes_what_was_typed_of_their_sheets(desk: Desk) -> None:
    for name in ("Tove", "Ruben"):
        typed(desk, code_of(desk, name), [*BEGIN, *"212"])
    left = sheet_drafts.codes_of_drafts(desk.book.path)
    assert len(left) == 2
    assert sheet_drafts.delete_drafts_of(desk.book.path, ["Harbour Week"], {"Tove"}) == 1
    assert sheet_drafts.codes_of_drafts(desk.book.path) == [
        code for code in left if code.belongs_to("Harbour Week", "Ruben")
    ]


def test_two_books_in_one_folder_keep_what_is_typed_for_each_apart(desk: Desk) -> None:
    code = SheetCode.from_text(code_of(desk))
    one = desk.book.path
    other = one.with_name(f"second {one.name}")
    sheet_drafts.write_draft(one, code, "one")
    assert sheet_drafts.read_draft(other, code) is None
    assert sheet_drafts.codes_of_drafts(other) == []
    sheet_drafts.write_draft(other, code, "other")
    assert sheet_drafts.delete_drafts_of(other, ["Harbour Week"], {"Tove"}) == 1
    assert sheet_drafts.read_draft(one, code) == b"one"
    assert sheet_drafts.codes_of_drafts(one) == [code]


def test_a_court_that_nobody_knows_is_said_before_a_sheet_makes_a_day_of_it(desk: Desk) -> None:
    keys = [*BEGIN, *"212", "enter"]
    text, _ = typed(desk, code_of(desk), [*keys, "backspace", "7", "enter"])
    assert "Court 7 is new: so far there is 2. Escape mends it." in flat(text)
    assert "court 7 · by Ines" in flat(text)
    text, _ = typed(
        desk, code_of(desk), ["escape", "n", "backspace", "2", "enter", "escape", "k", "enter"]
    )
    assert "is new" not in text
    assert "court 2 · by Ines" in flat(text)


def home_code(desk: Desk, name: str = "Maren") -> str:
    """The code of the player's home yardstick, as it is printed."""
    sheets, _ = home_sheets.home_sheets(desk.book, desk.view.clinic, desk.state.library, name)
    return str(sheets[0].code)


def page_of(desk: Desk) -> str:
    """Maren's page of answers."""
    return player_page(day_facts.player_facts(desk.book, desk.view.clinic, "Maren"))


@pytest.fixture
def after(tmp_path: Path) -> Desk:
    """Six weeks after a clinic in which Maren hit a yardstick of twenty balls."""
    desk = desk_in(tmp_path, drill=None)
    ladder, drill = desk.state.library.drill("forehand/day-one-feed")
    maren = player(desk, "Maren")
    desk.rounds.start(player=maren, drill=(ladder, drill), purpose=Purpose.YARDSTICK)
    feed(desk, "000 " * 14 + "222 " * 6)
    desk.rounds.end_round()
    desk.clock.pass_seconds(40 * 86_400)  # type: ignore[attr-defined]
    return desk


def test_a_home_yardstick_is_another_eye_and_in_no_count_of_the_coach(after: Desk) -> None:
    before = rounds(after, "Maren")
    tallies = after.book.db.execute("SELECT * FROM tally").fetchall()
    keys = [*["space"] * 16, *"000" * 4, "enter", "down", *"Jorun"]
    text, _ = typed(after, home_code(after), keys)
    assert "Maren · home yardstick" not in text
    assert "watched by" in text
    _, outcome = typed(after, home_code(after), ["enter", "down", *"Jorun", "enter", "enter"])
    assert outcome.startswith("Maren, the yardstick at home: in the book.")
    assert rounds(after, "Maren") == before
    assert after.book.db.execute("SELECT * FROM tally").fetchall() == tallies
    page = flat(page_of(after))
    assert "At home on 21 Jun, watched by Jorun: another eye than the coach's." in page
    assert "at home: 6 of 20 balls on Tuesday, 16 of 20 on 21 Jun, same feed" in page
    number = int(outcome.split("history back ")[1].split("`")[0])
    steps = past_steps.past_steps(after.book, after.view.clinic, amendments_only=True)
    assert [(step.number, step.kind, step.who) for step in steps] == [(number, "at home", "Jorun")]
    past_steps.take_back_step(after.book, number, "Ines", after.clock())
    assert "At home" not in page_of(after)
    with pytest.raises(BookError, match="history forward"):
        past_steps.take_back_step(after.book, number, "Ines", after.clock())
    (step,) = past_steps.past_steps(after.book, after.view.clinic, amendments_only=True)
    assert step_words(step).endswith("(Jorun)  [taken back]")
    assert after.amendments().take_back(step) == f"Step {number} is in the book again."
    assert flat(page_of(after)) == page
    with pytest.raises(BookError, match="nothing took it back"):
        past_steps.put_forward_step(after.book, number, "Ines", after.clock())


def first_home_step(desk: Desk) -> int:
    """The number of the first step that was a yardstick at home."""
    return past_steps.past_steps(desk.book, desk.view.clinic, amendments_only=True)[0].number


def test_the_same_home_sheet_twice_is_once_and_another_version_is_asked_about(after: Desk) -> None:
    end = ["enter", "down", *"Jorun", "enter", "enter"]
    typed(after, home_code(after), [*["space"] * 3, *end])
    _, outcome = typed(after, home_code(after), [*["space"] * 3, *end])
    assert outcome == "Maren, the yardstick at home: the book stays as it is."
    text, _ = typed(after, home_code(after), [*["space"] * 2, *"000", *end])
    assert "Book 3 balls, sheet 3 balls; 1 differs." in text
    typed(after, home_code(after), ["enter", "enter", "enter", "s"])
    held = after.book.db.execute("SELECT balls, taken_back FROM home_yardstick ORDER BY id")
    assert held.fetchall() == [("222 222 222", 1), ("222 222 000", 0)]
    with pytest.raises(BookError, match="another version of the same sheet"):
        past_steps.put_forward_step(after.book, first_home_step(after), "Ines", after.clock())
    past_steps.take_back_step(after.book, first_home_step(after) + 1, "Ines", after.clock())
    past_steps.put_forward_step(after.book, first_home_step(after), "Ines", after.clock())
    held = after.book.db.execute("SELECT balls, taken_back FROM home_yardstick ORDER BY id")
    assert held.fetchall() == [("222 222 222", 0), ("222 222 000", 1)]


def test_a_home_sheet_needs_its_date_and_who_watched(after: Desk) -> None:
    text, _ = typed(after, home_code(after), ["space", "enter", "enter"])
    assert "Who watched?" in text
    text, _ = typed(after, home_code(after), ["enter", *["backspace"] * 10, "enter"])
    assert "Write the date that stands on the sheet" in text
