"""A Textual app that only counts keys: the least that any such program can cost.

Run with `python -m tests.bench.bare`; the benchmarks set the court screen beside it.
"""

from __future__ import annotations

from textual.app import App, ComposeResult
from textual.events import Key
from textual.reactive import reactive
from textual.widget import Widget


class Counter(Widget):
    """How many keys there were."""

    DEFAULT_CSS = "Counter { width: 20; height: 1; }"
    count: reactive[int] = reactive(0)

    def render(self) -> str:
        return f"keys: {self.count}"


class Bare(App[None]):
    """Counts every key."""

    ENABLE_COMMAND_PALETTE = False

    def compose(self) -> ComposeResult:
        yield Counter()

    def on_key(self, event: Key) -> None:
        self.query_one(Counter).count += 1


if __name__ == "__main__":
    Bare().run()
