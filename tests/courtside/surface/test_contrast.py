"""Every character on every screen stands at least 7:1 on its ground, in all three themes.

The ratio is that of WCAG 2.1, success criterion 1.4.6 (enhanced contrast); its formula for relative
luminance is written out here and held to the standard's own extremes.
"""

from __future__ import annotations

import asyncio
from pathlib import Path

import pytest
from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual.events import Paste
from textual.screen import Screen

from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.app.typing_app import TypingApp
from courtlog.courtside.screens.paper.paper_screen import PaperScreen
from courtlog.courtside.screens.paper.typing_session import TypingSession
from courtlog.settings import THEMES
from tests.court import DAY, close_look, desk_in, feed
from tests.courtside.screen import on_court
from tests.courtside.screens.paper.test_typing import BEGIN

LEAST = 7.0

SCREENS: dict[str, list[str]] = {
    "court": ["o", "t"],
    "court said": ["b"],
    "uncoached": ["f2", *"hold", "enter", "space"],
    "round over": ["z"],
    "review": ["q"],
    "review with its reasons": ["q", "w", "f"],
    "players": ["y", "t"],
    "drills": ["g", "down"],
    "cues": ["f3", "down", "space"],
    "feeds": ["f10", "down"],
    "tough feed": ["f10", "down", *["right"] * 5, "enter", "space"],
    "note": ["n", "x"],
    "help": ["question_mark"],
    "manual": ["f1", "down"],
    "found in the manual": ["f1", *"shrunk", "backspace"],
    "a page of the manual": ["f1", *"words", "enter"],
    "a table of the manual": ["f1", *"unname", "enter"],
    "no such link in the manual": ["f1", "1", "z"],
    "commands": ["escape", "down"],
    "seldom commands": ["escape", "enter", "down"],
    "pads": ["f6", "down"],
    "teach": ["f6", *"teach", "enter", "q"],
    "blank": ["ctrl+l"],
    "slate": ["escape", "."],
    "code of a sheet": ["escape", "enter", "comma", "x", "enter"],
    "arms and heat": ["f8", "down"],
    "check-in": ["f8", "enter", "6", "down", "right", "down", "down", "down", "space"],
    "check-in refused": ["f8", "enter", "enter"],
    "amber": ["f8", "enter", "3", "enter"],
    "red": ["f8", "enter", "6", "enter"],
    "held back": ["tab", "tab", "tab"],
    "red by hand": ["f8", *"red by", "enter"],
    "which red": ["f8", *"clin", "enter"],
    "a clinician's word": ["f8", *"clin", "enter", "enter"],
    "heat": ["f8", *"heat t", "enter", *"35", "down", *"60", "enter"],
    "heat lines": ["f8", *"lines", "enter"],
    "plan": ["ctrl+p", "down", "k"],
    "put right": ["ctrl+a", "enter", "left"],
    "what the coach saw": ["f3", "w", "x"],
    "people": ["f9"],
    "a player's card": ["f9", "enter", "down", "down"],
    "trends": ["f5"],
    "one player's trend": ["f5", "enter"],
    "who is where": ["f12", "down"],
    "work alone": ["f12", "a"],
    "other courts": ["escape", "enter", "b"],
}


BACK_TWICE = {
    "court",
    "court said",
    "uncoached",
    "a page of the manual",
    "a table of the manual",
    "no such link in the manual",
    "a player's card",
    "one player's trend",
    "work alone",
}
"""Screens from which the court is two steps away."""


def luminance(red: int, green: int, blue: int) -> float:
    """Relative luminance of an sRGB colour, WCAG 2.1."""
    parts = [
        value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
        for value in (red / 255, green / 255, blue / 255)
    ]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def contrast(style: Style) -> float:
    """Contrast ratio of a style's colours, reversed or not."""
    assert style.color is not None
    assert style.bgcolor is not None
    first, second = sorted((_light(style.color), _light(style.bgcolor)))
    return (second + 0.05) / (first + 0.05)


def _light(colour: Color) -> float:
    assert colour.triplet is not None, "a colour of the terminal's own cannot be measured"
    return luminance(*colour.triplet)


def faint(screen: Screen[object]) -> set[tuple[str, float]]:
    """Texts below the least contrast, with their ratio."""
    found = set()
    for line in screen._compositor.render_strips():
        for text, style, _ in line:
            assert style is not None
            if text.strip():
                assert not style.dim, f"dimmed: {text!r}"
                ratio = contrast(style)
                if ratio < LEAST:
                    found.add((text.strip(), round(ratio, 2)))
    return found


def test_the_formula_gives_the_extremes_of_the_standard() -> None:
    black, white = Color.from_rgb(0, 0, 0), Color.from_rgb(255, 255, 255)
    assert contrast(Style(color=black, bgcolor=white)) == pytest.approx(21)
    assert contrast(Style(color=white, bgcolor=white)) == pytest.approx(1)
    grey = Color.from_rgb(0x59, 0x59, 0x59)
    assert contrast(Style(color=grey, bgcolor=white)) == pytest.approx(7.0, abs=0.05)


def test_every_text_on_every_screen_can_be_read_in_every_theme(tmp_path: Path) -> None:
    """Each screen opens in one of the themes, and puts on the others where it stands."""
    desk = desk_in(tmp_path, settings=close_look(theme=THEMES[0]))
    feed(desk, "_0_T-1/_")
    desk.book.db.execute("INSERT INTO court_book VALUES (1, '1', 'head', 1, '.', 0)")

    async def look() -> dict[tuple[str, str], set[tuple[str, float]]]:
        found: dict[tuple[str, str], set[tuple[str, float]]] = {}
        app = CourtlogApp(desk, None, "UTC")
        async with app.run_test(size=(80, 24)) as pilot:
            for at, (name, keys) in enumerate(SCREENS.items()):
                await pilot.press(*keys)
                await pilot.pause()
                for turn in range(len(THEMES)):
                    app.theme = theme = THEMES[(at + turn) % len(THEMES)]
                    await pilot.pause()
                    found[name, theme] = faint(app.screen)
                app.theme = THEMES[(at + 1) % len(THEMES)]
                await pilot.press("escape")
                if name in BACK_TWICE:
                    await pilot.press("escape")
                await pilot.pause()
        return found

    assert asyncio.run(look()) == {(name, theme): set() for name in SCREENS for theme in THEMES}


TYPED: dict[str, tuple[SheetKind, list[str]]] = {
    "whose drill": (SheetKind.COURT, []),
    "rows": (SheetKind.COURT, [*BEGIN, *"212", "t", "o", "minus", "X"]),
    "rows pasted into": (SheetKind.COURT, [*BEGIN, "paste"]),
    "what next": (SheetKind.COURT, [*BEGIN, "o", "escape"]),
    "throw away": (SheetKind.COURT, [*BEGIN, "o", "escape", "t"]),
    "its lines": (SheetKind.COURT, [*BEGIN, "space", "enter", *["down"] * 3, *"11", "enter"]),
    "looked through": (SheetKind.COURT, [*BEGIN, "space", "down", "t", "enter", "enter", "enter"]),
    "form": (SheetKind.FORM, ["down", "m", "down", "down", *"knee", "f5"]),
    "form looked through": (SheetKind.FORM, ["down", "m", "pagedown", "enter"]),
    "form refused": (SheetKind.FORM, [*["down"] * 8, *"soon", "pagedown", "enter"]),
    "form left": (SheetKind.FORM, ["down", "m", "escape"]),
}
"""What is typed in of paper, by the kind of sheet and the keys."""


def test_what_is_typed_in_of_paper_can_be_read_in_every_theme(tmp_path: Path) -> None:
    async def look(name: str) -> dict[str, set[tuple[str, float]]]:
        kind, keys = TYPED[name]
        desk = desk_in(tmp_path / name)
        kept = close_look(pad="right", coach="Ines", theme=THEMES[0])
        session = TypingSession(desk.book, lambda: desk.state.library, kept, desk.clock)
        app = TypingApp(session, str(SheetCode.of(kind, DAY, "Harbour Week", "Tove")), kept)
        found: dict[str, set[tuple[str, float]]] = {}
        async with app.run_test(size=(80, 24)) as pilot:
            for key in keys:
                if key == "paste":
                    app.post_message(Paste("212"))
                else:
                    await pilot.press(key)
            for theme in THEMES:
                app.theme = theme
                await pilot.pause()
                found[theme] = faint(app.screen)
                colours = letter_colours(app)
                assert len(colours) <= 1, (name, theme, colours)
        desk.book.close()
        return found

    for name in TYPED:
        assert asyncio.run(look(name)) == {theme: set() for theme in THEMES}, name


def letter_colours(app: TypingApp) -> set[str]:
    """The colours of the letters under all questions: one alone, so that signs and words say it."""
    paper = next(screen for screen in app.screen_stack if isinstance(screen, PaperScreen))
    return {
        str(style.color)
        for line in paper._compositor.render_strips()
        for text, style, _ in line
        if text.strip() and style is not None
    }


def test_without_colour_the_terminal_keeps_its_own_two(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """NO_COLOR (no-color.org, an informal standard): not one colour is asked for."""
    monkeypatch.setenv("NO_COLOR", "1")
    desk = desk_in(tmp_path)
    asked: list[Segment] = []

    async def look() -> None:
        app = CourtlogApp(desk, None, "UTC")
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.press("o", "k", "t")
            await pilot.pause()
            for line in app.screen._compositor.render_strips():
                filtered = line
                for line_filter in app.get_line_filters():
                    filtered = filtered.apply_filter(line_filter, app.screen.background_colors[1])
                asked.extend(filtered)

    asyncio.run(look())
    for text, style, _ in asked:
        assert style is not None
        for colour in (style.color, style.bgcolor):
            assert colour is None or colour.is_default, (text, style)
    assert "[o ●]" in "".join(segment.text for segment in asked)


def test_letters_may_stand_for_the_shapes(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=close_look(marks="letters"))
    text = on_court(desk, ["o", "k", "m", "u"])
    assert "[u x] i ~  o #  missed" in text
    assert not set("●◐○") & set(text)
