"""Texts as somebody may type them, as long as they may be: broad, unbroken, foreign, hostile."""

from __future__ import annotations

import random

ALPHABETS = (
    "abcdefghijklmnopqrstuvwxyz   ",
    "WM@%",
    "mw ",
    "Supercalifragilistic",
    "木村さくら球",
    "אבגדה שלום",
    "Ñandú Þórunn Łucja  é\u0301o\u0308 ",
    "🎾🏃 ok ",
    "<b>&\"' \u202e\x1b[2J",
    "il.,;:'| ",
)


def drawn_text(draw: random.Random, most: int) -> str:
    """A text of so many characters, from one alphabet; it begins and ends with a letter."""
    letters = draw.choice(ALPHABETS)
    return "a" + "".join(draw.choices(letters, k=most - 2)) + "z"
