"""What a terminal sends, as keys: bytes that mean nothing cost nothing, whatever they are."""

from __future__ import annotations

import codecs
import os
from collections.abc import Callable, Iterable
from itertools import chain

from textual._xterm_parser import BRACKETED_PASTE_END, BRACKETED_PASTE_START, XTermParser
from textual.events import Key, Resize
from textual.message import Message

ESCAPE = "\x1b"

MIDDLE_OF_THE_PAD = "\x1b[E"
"""The 5 of a number pad while NumLock is off, as xterm sends it."""

PASTE_ENDS_AFTER = 5
"""Looks at nothing new after which a paste without an end has ended."""

_BEGINS_A_SEQUENCE = frozenset("[O]PX^_")
"""What makes a longer sequence of an Escape before it (ECMA-48: CSI, SS3 and the strings)."""

_EDITS_WORDS = frozenset("bf\x7f\x08")
"""Keys that step over or delete a word of a text with an Escape before them, as Alt sends it."""

_LINUX_CONSOLE = "linux"
"""The terminal whose Shift+Tab is an Escape and a Tab."""


class TerminalReader:
    """Reads bytes of UTF-8 and escape sequences; never raises, and never waits for more for ever.

    `size` tells columns and lines of the terminal: a report of another size is not believed.
    `in_text` tells whether a text is being written, where Alt and a key may edit words of it.
    """

    def __init__(
        self,
        size: Callable[[], tuple[int, int]],
        in_text: Callable[[], bool] = lambda: False,
    ) -> None:
        self._size = size
        self._in_text = in_text
        # An é of a Latin-1 terminal is not UTF-8, but no reason to stop reading.
        self._decode = codecs.getincrementaldecoder("utf-8")("ignore").decode
        self._parser = _KeyParser(in_text)
        self._end_of_text = ""
        self._in_paste = False
        self._held = ""
        self._empty_looks = 0

    def read(self, data: bytes) -> list[Message]:
        """The events of what has just come."""
        self._empty_looks = 0
        text = self._decode(data)
        return self._parsed(text) if text else []

    def nothing_came(self) -> list[Message]:
        """The events of a pause: a lone Escape was one, and a paste without an end has ended."""
        self._empty_looks += 1
        events = self._safely(self._parser.tick)
        if self._in_paste and self._empty_looks >= PASTE_ENDS_AFTER:
            events += self._parsed(BRACKETED_PASTE_END)
        return events

    def _parsed(self, text: str) -> list[Message]:
        text = self._paste_as_text(text)
        if not text:
            return []  # nothing at all would be the end of the terminal
        return self._safely(lambda: chain(self._parser.feed(text), self._parser.tick()))

    def _paste_as_text(self, text: str) -> str:
        """The text without the escapes within a paste; a mark may come in two pieces.

        What stands behind an escape would be taken out of the paste and pressed as keys.
        """
        text, self._held = self._held + text, ""
        passed = ""
        while text:
            if not self._in_paste:
                begin = (self._end_of_text + text).find(BRACKETED_PASTE_START)
                if begin < 0:
                    before = self._end_of_text + text
                    self._end_of_text = before[-len(BRACKETED_PASTE_START) + 1 :]
                    return passed + text
                after = begin + len(BRACKETED_PASTE_START) - len(self._end_of_text)
                passed, text = passed + text[:after], text[after:]
                self._in_paste, self._end_of_text = True, ""
                continue
            pasted, escape, rest = text.partition(ESCAPE)
            passed, text = passed + pasted, escape + rest
            if text.startswith(BRACKETED_PASTE_END):
                passed, text = passed + BRACKETED_PASTE_END, rest[len(BRACKETED_PASTE_END) - 1 :]
                self._in_paste = False
            elif BRACKETED_PASTE_END.startswith(text):
                self._held, text = text, ""
            else:
                text = rest
        return passed

    def _safely(self, events: Callable[[], Iterable[Message]]) -> list[Message]:
        """Read on after whatever the parser cannot read."""
        messages: list[Message] = []
        try:
            messages += (_named(event) for event in events() if self._is_believed(event))
        except Exception:  # noqa: BLE001 - a parser that has failed is of no further use
            self._parser = _KeyParser(self._in_text)
            self._in_paste = False
        return messages

    def _is_believed(self, event: Message) -> bool:
        return not isinstance(event, Resize) or tuple(event.size) == self._size()


class _KeyParser(XTermParser):
    """Textual's parser, but Escape and a key soon behind it are two keys, as if typed slowly.

    Textual takes them for Alt and the key, which nothing of ours knows, or for a sign that a
    Mac's Option key makes. On the court that key would then be a grade.
    """

    def __init__(self, in_text: Callable[[], bool]) -> None:
        super().__init__()
        self._in_text = in_text

    def _sequence_to_key_events(self, sequence: str, alt: bool = False) -> Iterable[Key]:
        if alt or self._is_escape_and_key(sequence):
            yield Key("escape", ESCAPE)
            sequence = sequence[-1]
        yield from super()._sequence_to_key_events(sequence)

    def _is_escape_and_key(self, sequence: str) -> bool:
        if len(sequence) != 2 or sequence[0] != ESCAPE or sequence[1] in _BEGINS_A_SEQUENCE:
            return False
        if sequence[1] == "\t":
            return os.environ.get("TERM") != _LINUX_CONSOLE
        return not (sequence[1] in _EDITS_WORDS and self._in_text())


def _named(event: Message) -> Message:
    """The event; a key that Textual has no name for gets the one that newer terminals report."""
    if isinstance(event, Key) and event.character == MIDDLE_OF_THE_PAD:
        return Key("kp_begin", None)
    return event
