"""What every screen and dialog of ours does alike: it is answered once, and leaves once."""

from __future__ import annotations

from typing import ClassVar, TypeVar

from textual.await_complete import AwaitComplete
from textual.screen import ModalScreen, Screen

T = TypeVar("T")


class OwnScreen(Screen[T]):
    """A screen that can be answered only while it is on top."""

    STAYS: ClassVar[bool] = False
    """Whether it is never taken away while the application runs."""

    @property
    def on_top(self) -> bool:
        """Whether no other screen is over it; is_current is true behind a dialog as well."""
        stack = self.app.screen_stack
        return bool(stack) and stack[-1] is self

    def dismiss(self, result: T | None = None) -> AwaitComplete:
        """Give back the answer and leave; a second answer changes nothing."""
        if self.STAYS or not self.on_top:
            return AwaitComplete()
        return super().dismiss(result)


class OwnDialog(OwnScreen[T], ModalScreen[T]):
    """A screen that leaves the one under it in sight."""
