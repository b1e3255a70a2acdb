"""Signs that are drawn as shapes: no font of a reader's has to hold them, and none leaves a gap."""

from __future__ import annotations

import unicodedata

WIDE, HIGH = 10, 20
"""A terminal's cell, in the units of the picture."""

_LOWER, _FULL, _LEFT_LAST = 0x2581, 0x2588, 0x258F
_THICK = {"LIGHT": 1.4, "HEAVY": 3.0}
_RADIUS = 4.2
_RING = 1.2


def block_path(sign: str, x: float, y: float) -> str | None:
    """The part of a cell that a block or a line of a frame fills, as an SVG path; else None."""
    if sign == "▀":
        return _box(x, y, WIDE, HIGH / 2)
    if sign == "▬":
        return _box(x, y + HIGH * 0.4, WIDE, HIGH * 0.2)
    if _LOWER <= ord(sign) <= _FULL:
        high = HIGH * (ord(sign) - _LOWER + 1) / 8
        return _box(x, y + HIGH - high, WIDE, high)
    if _FULL < ord(sign) <= _LEFT_LAST:
        return _box(x, y, WIDE * (_LEFT_LAST + 1 - ord(sign)) / 8, HIGH)
    return _frame_path(sign, x, y)


def mark_shapes(sign: str, x: float, y: float, colour: str) -> str | None:
    """A grade's mark as SVG, `○ ◐ ●`; None for another sign."""
    if sign not in "○◐●":
        return None
    across, down = x + WIDE / 2, y + HIGH / 2
    inside = colour if sign == "●" else "none"
    ring = (
        f'<circle cx="{across:g}" cy="{down:g}" r="{_RADIUS - _RING / 2:g}" fill="{inside}"'
        f' stroke="{colour}" stroke-width="{_RING:g}"/>'
    )
    if sign != "◐":
        return ring
    top, arc = down - _RADIUS, f"a{_RADIUS:g} {_RADIUS:g} 0 0 0 0 {2 * _RADIUS:g}z"
    return f'{ring}<path d="M{across:g} {top:g}{arc}" fill="{colour}"/>'


def _frame_path(sign: str, x: float, y: float) -> str | None:
    """Unicode names the arms of such a sign: BOX DRAWINGS LIGHT DOWN AND RIGHT."""
    words = unicodedata.name(sign, "").split()
    if words[:2] != ["BOX", "DRAWINGS"] or words[2] not in _THICK:
        return None
    thick = _THICK[words[2]]
    left, top = x + (WIDE - thick) / 2, y + (HIGH - thick) / 2
    arms = {
        "LEFT": _box(x, top, left + thick - x, thick),
        "RIGHT": _box(left, top, x + WIDE - left, thick),
        "UP": _box(left, y, thick, top + thick - y),
        "DOWN": _box(left, top, thick, y + HIGH - top),
        "HORIZONTAL": _box(x, top, WIDE, thick),
        "VERTICAL": _box(left, y, thick, HIGH),
    }
    return "".join(path for word, path in arms.items() if word in words[3:])


def _box(x: float, y: float, wide: float, high: float) -> str:
    return f"M{x:g} {y:g}h{wide:g}v{high:g}h{-wide:g}z"
