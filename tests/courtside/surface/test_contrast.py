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
from textual.screen import Screen

from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.settings import THEMES
from tests.court import close_look, desk_in, feed
from tests.courtside.screen import on_court

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
    "commands": ["escape", "down"],
    "seldom commands": ["escape", "enter", "down"],
    "pads": ["f6", "down"],
    "teach": ["f6", *"teach", "enter", "q"],
    "blank": ["ctrl+l"],
    "slate": ["escape", "."],
    "code of a sheet": ["escape", "comma", "x", "enter"],
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
}


BACK_TWICE = {
    "court",
    "court said",
    "uncoached",
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
