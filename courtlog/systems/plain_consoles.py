"""The signs that two plain consoles lack, and what is shown in their place, cell for cell.

Windows' own console has fonts with the signs of WGL4. That is what the OpenType specification lists
under "WGL4.0 Character Set"; that no font there has more is from memory. The console of Linux
without a desktop has code page 437, by the kernel's own table (drivers/tty/vt/cp437.uni).
"""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping

Signs = Mapping[int, str]
"""What stands for each sign that is lacking, as `str.translate` takes it."""

WINDOWS: Signs = str.maketrans(
    {"◐": "~", "⇄": "↔", "␡": "?"}
    | dict(zip("▁▂▃▅▆▇", "__▄▄▄█", strict=True))
    | dict(zip("┏━┓┃┗┛╺┻╸┫┣╻╹", "┌─┐│└┘─┴─┤├││", strict=True))
    | {chr(code): "?" for code in range(0x2400, 0x2420)}
)
"""A half circle is the letter of near; thick lines are thin, bars as high as they can be."""

LINUX: Signs = {
    **WINDOWS,
    **str.maketrans(dict(zip("●“”‘’…‹›–", "■\"\"''~<>-", strict=True))),
}

_OTHERS = (
    *("WT_SESSION", "TERM", "TERM_PROGRAM", "TERMINAL_EMULATOR"),
    *("ConEmuPID", "ALACRITTY_WINDOW_ID", "SSH_CONNECTION"),
)
"""Whoever shows a program on Windows in a window of another kind sets one of these (from memory).

Windows 11 may show it in its newer window and set none; what is shown there is readable as well.
"""


def lacking(marks: str) -> Signs:
    """The signs that this terminal lacks; none where the setting `marks` is `shapes`."""
    if marks == "shapes":
        return {}
    if sys.platform == "win32":
        return {} if any(map(os.environ.get, _OTHERS)) else WINDOWS
    return LINUX if os.environ.get("TERM") == "linux" else {}
