"""The colours of made, near and missed: told apart by every eye, never alone, none with NO_COLOR.

Colour blindness is simulated by the matrices of Machado, Oliveira and Fernandes 2009 (IEEE Trans
Vis Comput Graph 15:1291-1298, severity 1.0, for linear RGB; from memory). Distances are those of
CIE 1976 L*a*b* under D65; from 10 on two patches side by side are plainly different.
"""

from __future__ import annotations

import math
from itertools import combinations
from pathlib import Path

import pytest
from rich.color import Color
from rich.style import Style
from textual.pilot import Pilot

from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.surface.themes import GRADES, THEMES
from courtlog.settings import Settings
from tests.court import desk_in
from tests.courtside.screen import on_court
from tests.courtside.surface.test_contrast import LEAST, contrast

APART = 20

EYES = {
    "most": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
    "protanopia": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deuteranopia": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
}

TO_XYZ = (
    (0.4124 / 0.9505, 0.3576 / 0.9505, 0.1805 / 0.9505),
    (0.2126, 0.7152, 0.0722),
    (0.0193 / 1.089, 0.1192 / 1.089, 0.9505 / 1.089),
)
"""Linear sRGB to X, Y and Z as shares of D65 white (IEC 61966-2-1)."""

Three = tuple[float, float, float]


def linear(colour: str) -> Three:
    """Red, green and blue of sRGB without its gamma, 0 to 1."""
    parts = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in parts)
    return red, green, blue


def times(matrix: tuple[Three, Three, Three], colour: Three) -> Three:
    """A matrix applied to a colour."""
    one, two, three = (sum(a * b for a, b in zip(row, colour, strict=True)) for row in matrix)
    return one, two, three


def lab(colour: str, eye: str) -> Three:
    """L*, a* and b* of a colour as that eye sees it."""
    red, green, blue = (min(max(part, 0), 1) for part in times(EYES[eye], linear(colour)))
    x, y, z = (
        part ** (1 / 3) if part > (6 / 29) ** 3 else part / (3 * (6 / 29) ** 2) + 4 / 29
        for part in times(TO_XYZ, (red, green, blue))
    )
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


@pytest.mark.parametrize("eye", EYES)
@pytest.mark.parametrize("theme", GRADES)
def test_every_eye_tells_the_grades_apart(theme: str, eye: str) -> None:
    for one, other in combinations(GRADES[theme].values(), 2):
        assert math.dist(lab(one, eye), lab(other, eye)) >= APART, (one, other)


@pytest.mark.parametrize("theme", GRADES)
def test_each_colour_can_be_read_on_its_ground(theme: str) -> None:
    paper = THEMES[theme].background
    assert paper is not None
    for colour in GRADES[theme].values():
        assert contrast(Style(color=colour, bgcolor=paper)) >= LEAST, colour


def test_the_simulation_leaves_grey_as_it_is_and_takes_red_from_green() -> None:
    for eye in EYES:
        assert math.dist(lab("#808080", eye), lab("#808080", "most")) < 0.1
    pair = "#a85000", "#6b6b00"
    apart = {eye: math.dist(lab(pair[0], eye), lab(pair[1], eye)) for eye in EYES}
    assert apart["deuteranopia"] < apart["most"] / 2


def inks(folder: Path, look: str, theme: str) -> dict[str, set[Color | None]]:
    """The colours in which marks of each grade stand, after a ball of all three and one more."""
    settings = Settings(look=look, theme=theme, review=False)  # type: ignore[arg-type]
    found: dict[str, set[Color | None]] = {}

    async def then(_: Pilot[None], app: CourtlogApp) -> None:
        for line in app.screen._compositor.render_strips():
            for text, style, _control in line:
                if style is not None and style.color is not None:
                    found.setdefault(style.color.name, set()).add(style.color)
                    found.setdefault(text.strip(), set()).add(style.color)

    on_court(desk_in(folder, settings=settings), ["o", "k", "m", "u"], then=then)
    return found


@pytest.mark.parametrize("look", ["far", "close"])
@pytest.mark.parametrize("theme", GRADES)
def test_marks_wear_the_colours_of_the_theme(theme: str, look: str, tmp_path: Path) -> None:
    worn = inks(tmp_path, look, theme)
    expected = GRADES[theme] if look == "far" else {"missed": GRADES[theme]["missed"]}
    assert set(expected.values()) <= set(worn)


@pytest.mark.parametrize("look", ["far", "close"])
def test_without_colour_no_mark_has_one(
    look: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    colours = {colour for of in inks(tmp_path, look, "sun").values() for colour in of}
    assert all(colour is None or colour.is_default for colour in colours)
