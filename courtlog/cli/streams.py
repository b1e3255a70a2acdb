"""The one way out: printed text is shown, and never obeyed as a terminal command.

Pages, refusals and the option parser all write through `SafeStream`. A character that the
terminal's encoding lacks becomes a letter, as with `--plain`.
"""

from __future__ import annotations

import codecs
import os
import sys
from collections.abc import Iterable
from io import TextIOWrapper
from pathlib import Path
from typing import Any, TextIO, cast

from courtlog.errors import SettingsError
from courtlog.plain_text import plain
from courtlog.reports import layout
from courtlog.reports.layout.paper_pages import PAGE_BREAK
from courtlog.systems import plain_consoles
from courtlog.systems.plain_consoles import Signs

LETTERS = "courtlog-letters"
"""The name of our error handler: what an encoding lacks becomes letters."""


class SafeStream:
    """A text stream that makes every control character visible, except line ends.

    Signs that its terminal lacks are written as those that stand for them.
    """

    def __init__(self, stream: TextIO, lacking: Signs) -> None:
        self._stream = stream
        self._lacking = lacking

    def shown(self, text: str) -> str:
        """The text as it may be shown."""
        safe = text if text.isprintable() else "\n".join(map(plain, text.split("\n")))
        return safe.translate(self._lacking) if self._lacking else safe

    def write(self, text: str) -> int:
        """Write the text as it may be shown."""
        self._stream.write(self.shown(text))
        return len(text)

    def writelines(self, lines: Iterable[str]) -> None:
        """Write all of them."""
        for line in lines:
            self.write(line)

    def begin_page(self) -> None:
        """Begin a new sheet of paper: the one control character that is meant to be obeyed."""
        self._stream.write(PAGE_BREAK)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)


def make_ready() -> None:
    """Make the streams safe: UTF-8 in a pipe or file; a closed one swallows what it gets."""
    codecs.register_error(LETTERS, _in_letters)
    sys.stdout = _made_safe(sys.stdout)
    sys.stderr = _made_safe(sys.stderr)
    if sys.stdin is not None:
        # An answer in another encoding is a wrong answer, not an error.
        cast(TextIOWrapper, sys.stdin).reconfigure(errors="replace")


def _made_safe(stream: TextIO | None) -> TextIO:
    stream = stream or Path(os.devnull).open("w")  # noqa: SIM115 - for the whole run
    encoding = None if stream.isatty() else "utf-8"
    cast(TextIOWrapper, stream).reconfigure(encoding=encoding, errors=LETTERS)
    return cast(TextIO, SafeStream(stream, lacking_signs() if stream.isatty() else {}))


def lacking_signs() -> Signs:
    """What the terminal lacks; the coach's settings are read only where that is anything."""
    if not plain_consoles.lacking("auto"):
        return {}
    from courtlog import locations, settings  # most terminals lack nothing

    try:
        return plain_consoles.lacking(settings.read(locations.settings()).marks)
    except SettingsError:  # whoever needs the settings says so
        return plain_consoles.lacking("auto")


def _in_letters(error: UnicodeError) -> tuple[str, int]:
    assert isinstance(error, UnicodeEncodeError)
    return layout.signs.nearest_letters(error.object[error.start : error.end]), error.end
