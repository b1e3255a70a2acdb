"""Typing in with hostile hands: any keys, pasted text, windows that change, programs that die.

After any of it what was seen is there when the sheet is opened again, and nothing else is.
"""

from __future__ import annotations

import asyncio
import random
from collections.abc import Sequence
from datetime import timedelta
from pathlib import Path

import pytest
from textual.events import Paste

from courtlog.coaching.game.cards import FIELDS
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.coaching.paper.filled_form import KEYS as LINES
from courtlog.courtside.app.typing_app import TypingApp
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.screens.paper.form_screen import FormScreen
from courtlog.courtside.screens.paper.form_session import FormSession
from courtlog.courtside.screens.paper.sheet_place import sheet_places
from courtlog.courtside.screens.paper.typing_screen import TypingScreen
from courtlog.courtside.screens.paper.typing_session import TypingSession
from courtlog.errors import CourtlogError
from courtlog.logbook.rows import tallies
from tests.court import DAY, close_look, desk_in
from tests.courtside.screen import flat, shown
from tests.courtside.screens.paper.test_typing import BEGIN, code_of, rounds, typed
from tests.doses import dose

MOST = {field.key: field.most for field in FIELDS}
SIZES = ((80, 24), (40, 10), (120, 40))

IN_ROWS = (
    *("u", "i", "o", "j", "k", "l", "m", "comma", "full_stop", "space", "minus", "t", "0", "1"),
    *("enter", "backspace", "up", "down", "left", "right", "tab", "home", "end", "pageup"),
    *("X", "é", "f5", "delete", "ctrl+c", "escape"),
)
IN_A_FORM = (
    *("a", "m", "r", "l", "y", "n", "B", "ü", "漢", "space", "0", "minus", "[", "full_stop"),
    *("enter", "backspace", "delete", "up", "down", "left", "right", "home", "end", "tab"),
    *("pagedown", "f5", "ctrl+c", "escape"),
)
PASTES = (
    "212 221",
    "two\nlines\r\nand\ta tab",
    "\x1b[31mred\x1b[0m\x07\x00\x9b2J\u202e",
    "right",
    "x" * 10_000,
    "漢" * 300,
    "",
)

AS_WRITTEN = {PASTES[1]: "two lines and a tab", PASTES[2]: "[31mred[0m2J", PASTES[4]: "x" * 500}
"""What becomes of them in a line of 500 characters, where they do not stay as they are."""


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return desk_in(tmp_path)


def form_code(desk: Desk, name: str = "Tove") -> str:
    """The code of this player's form."""
    return str(SheetCode.of(SheetKind.FORM, DAY + timedelta(3), desk.view.clinic.name, name))


class _StaysOpen(TypingApp):
    """Leaves nothing to wait for."""

    def exit(self, *args: object, **kwargs: object) -> None:
        """Stay."""


def seen_of(app: TypingApp) -> str:
    """What was typed, as far as the screen under all questions shows it."""
    for screen in app.screen_stack:
        if isinstance(screen, FormScreen) and screen._session.form is not None:
            return repr(screen._session.in_hand.answers)
        if isinstance(screen, TypingScreen) and screen._session.sheet is not None:
            session = screen._session
            return repr((session.in_hand.rows.tokens, session.in_hand.lines, session.in_hand.task))
    return ""


def play(desk: Desk, code: str, keys: Sequence[str], dice: random.Random) -> tuple[str, str]:
    """Press these keys with pastes and other window sizes between; what is seen, and the end."""

    async def run() -> tuple[str, str]:
        settings = close_look(pad="right", coach="Ines")
        session = TypingSession(desk.book, lambda: desk.state.library, settings, desk.clock)
        app = _StaysOpen(session, code, settings)
        async with app.run_test(size=dice.choice(SIZES)) as pilot:
            for key in keys:
                if dice.random() < 0.05:
                    await pilot.resize_terminal(*dice.choice(SIZES))
                if dice.random() < 0.05:
                    app.post_message(Paste(dice.choice(PASTES)))
                await pilot.press(key)
                if app.outcome:
                    break
            await pilot.pause()
            return seen_of(app), app.outcome

    return asyncio.run(run())


@pytest.mark.parametrize("kind", ["sheet", "form"])
def test_any_keys_bring_nothing_down_and_what_was_seen_is_there_again(
    tmp_path: Path, kind: str
) -> None:
    for seed in range(dose(3, 40)):
        dice = random.Random(f"{kind} {seed}")
        desk = desk_in(tmp_path / str(seed))
        code = form_code(desk) if kind == "form" else code_of(desk)
        keys = dice.choices(IN_A_FORM if kind == "form" else IN_ROWS, k=dose(60, 150))
        begin = [] if kind == "form" else BEGIN
        seen, outcome = play(desk, code, [*begin, *keys], dice)
        if not outcome:
            again = play(desk, code, [], dice)[0]
            assert again == seen or not seen
        assert tallies.proof(desk.book.db) == []
        assert desk.book.db.execute("PRAGMA foreign_key_check").fetchall() == []
        desk.book.close()


def test_pasted_text_is_no_key_of_a_row(desk: Desk) -> None:
    session = TypingSession(
        desk.book, lambda: desk.state.library, close_look(pad="right"), desk.clock
    )
    app = _StaysOpen(session, code_of(desk), close_look(pad="right"))

    async def run() -> str:
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.press(*BEGIN, "2", "1")
            for text in PASTES:
                app.post_message(Paste(text))
                await pilot.pause()
            return shown(app.screen)

    assert "Pasted text is no key of a row" in asyncio.run(run())
    assert session.in_hand.rows.tokens == ("21-?",)


@pytest.mark.parametrize("text", PASTES)
def test_pasted_text_goes_into_one_line_of_a_form_as_far_as_it_fits(desk: Desk, text: str) -> None:
    for line, key in enumerate(LINES):
        session = FormSession(desk.book, desk.clock)
        session.open(session.places(SheetCode.from_text(form_code(desk)))[0])
        session.form = session.in_hand.at_line(line)
        before = session.in_hand.answers
        session.paste(text)
        after = session.in_hand.answers
        assert [was == now for was, now in zip(before, after, strict=True)].count(False) <= 1
        assert len(after[line]) <= MOST[key]
        assert all(sign.isprintable() for sign in after[line])
        if key == "complaints":
            words = {
                PASTES[1]: "two lines and a tab",
                PASTES[2]: "[31mred[0m2J",
                PASTES[4]: "x" * 500,
            }
            assert after[line] == words.get(text, text)
            assert bool(session.message) is (len(text) > 500)
        if key == "hand":
            assert after[line] == ("right" if text == "right" else before[line])
        session.throw_away()


def test_two_programs_type_one_sheet_and_neither_forgets_what_the_other_typed(desk: Desk) -> None:
    typed(desk, code_of(desk), [*BEGIN, *"212"])
    one, other = (
        TypingSession(desk.book, lambda: desk.state.library, close_look(pad="right"), desk.clock)
        for _ in range(2)
    )
    for session in (one, other):
        (place,) = sheet_places(desk.book, code_of(desk), desk.clock())
        assert session.open(place)
    other.press("o")
    for _ in range(2):
        with pytest.raises(CourtlogError, match="Another courtlog types this sheet in too"):
            one.press("u")
    fresh = TypingSession(desk.book, lambda: desk.state.library, close_look(), desk.clock)
    assert fresh.open(place)
    assert fresh.in_hand.rows.tokens == ("212", "2--?")
    other.keep()
    with pytest.raises(CourtlogError, match="or has kept it"):
        one.press("u")
    assert len(one.versions()) == 1  # and the book is not changed without an answer
    assert rounds(desk, "Tove") == ["forehand/racquet-feed practice 212 2--"]


def test_what_was_taken_back_to_nothing_is_not_there_again(desk: Desk) -> None:
    typed(desk, code_of(desk), [*BEGIN, "2", "backspace"])
    text, _ = typed(desk, code_of(desk))
    assert "Which drill stands on the sheet?" in text


def test_pain_alone_is_asked_about_before_it_is_forgotten(desk: Desk) -> None:
    lines = ["2", "escape", "n", "down", "down", "down", *"3", "enter", "backspace", "escape"]
    text, _ = typed(desk, code_of(desk), [*BEGIN, *lines])
    assert "throw away what was typed" in flat(text)
