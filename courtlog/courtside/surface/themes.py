"""Three themes for three lights. Every text colour stands at least 7:1 on its ground (a test).

What is made, near and missed has a hue and a luminance of its own beside its shape. The hues are
chosen for every kind of colour vision, and are made darker or lighter until they can be read. They
are of the eight of Okabe and Ito (Color Universal Design, 2008, from memory).
"""

from __future__ import annotations

from textual.theme import Theme

GRADES = {
    # blue #0072B2, orange #E69F00, reddish purple #CC79A7
    "sun": {"made": "#005b90", "near": "#754f00", "missed": "#3c1f31"},
    "shade": {"made": "#004d7a", "near": "#644300", "missed": "#331a29"},
    # sky blue #56B4E9, yellow #F0E442, vermillion #D55E00
    "night": {"made": "#6fbbeb", "near": "#eade40", "missed": "#dd8c72"},
}
"""The colours of the grades in each theme, and the hues that they are of."""


def _theme(name: str, ink: str, paper: str, quiet: str, band: str, dark: bool) -> Theme:
    """Ink on paper; `quiet` for labels; `band` lies under the top line and chosen rows."""
    variables = {
        **GRADES[name],
        "quiet": quiet,
        "band": band,
        "input-cursor-background": ink,
        "input-cursor-foreground": paper,
        "input-selection-background": band,
        "block-cursor-background": ink,
        "block-cursor-foreground": paper,
        "block-cursor-text-style": "bold",
        "block-cursor-blurred-background": ink,
        "block-cursor-blurred-foreground": paper,
        "border": ink,
        "border-blurred": quiet,
        "scrollbar": quiet,
        "scrollbar-background": paper,
    }
    return Theme(
        name=name,
        primary=ink,
        secondary=ink,
        accent=ink,
        warning=ink,
        error=ink,
        success=ink,
        foreground=ink,
        background=paper,
        surface=paper,
        panel=band,
        boost=paper,
        dark=dark,
        text_alpha=1.0,
        variables=variables,
    )


THEMES = {
    "sun": _theme("sun", "#000000", "#ffffff", "#3a3a3a", "#e0e0e0", dark=False),
    "shade": _theme("shade", "#1b1a17", "#ece6d8", "#3d3a33", "#d6cdb8", dark=False),
    "night": _theme("night", "#ece6d8", "#101014", "#b9b3a6", "#2a2a30", dark=True),
}

_PLAIN = "ansi_default"

NO_COLOUR = Theme(
    name="no-colour",
    primary=_PLAIN,
    secondary=_PLAIN,
    accent=_PLAIN,
    warning=_PLAIN,
    error=_PLAIN,
    success=_PLAIN,
    foreground=_PLAIN,
    background=_PLAIN,
    surface=_PLAIN,
    panel=_PLAIN,
    boost=_PLAIN,
    dark=False,
    ansi=True,
    variables={
        **dict.fromkeys(("made", "near", "missed"), _PLAIN),
        "quiet": _PLAIN,
        "band": _PLAIN,
        "border": _PLAIN,
        "border-blurred": _PLAIN,
        "ansi-background": _PLAIN,
        "ansi-foreground": _PLAIN,
        "scrollbar": _PLAIN,
        "scrollbar-background": _PLAIN,
    },
)
"""The terminal's own two colours, for NO_COLOR; bold and reverse still tell things apart."""
