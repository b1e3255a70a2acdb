"""A line of text to write in, for a hand that is faster than the screen."""

from __future__ import annotations

from textual.binding import BindingsMap
from textual.events import Key
from textual.widgets import Input

_OF_A_LINE = BindingsMap(Input.BINDINGS).key_to_bindings
"""What the keys of a line do; those that scroll are none of its own."""


class Answer(Input):
    """A line of text whose keys take effect in the order in which they were typed.

    Left to find its binding on the way up, Backspace would come behind letters typed after it.
    """

    async def on_key(self, event: Key) -> None:
        for binding in _OF_A_LINE.get(event.key, ()):
            event.stop()
            event.prevent_default()
            await self.run_action(binding.action)
