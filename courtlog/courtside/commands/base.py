"""A command of the court screen: its key, its words, what it does."""

from __future__ import annotations

from abc import ABC, abstractmethod
from typing import TYPE_CHECKING, ClassVar

if TYPE_CHECKING:
    from courtlog.courtside.app.court import CourtScreen


class Command(ABC):
    """A thing the coach can ask for. The docstring of each is its help, in one sentence."""

    keys: ClassVar[tuple[str, ...]]
    shown: ClassVar[str]
    label: ClassVar[str]
    in_foot: ClassVar[bool] = True

    @classmethod
    def help(cls) -> str:
        """What the command does, in one sentence."""
        return (cls.__doc__ or "").strip()

    @abstractmethod
    def run(self, court: CourtScreen) -> None:
        """Do it; dialogs go on in callbacks, so that the next key already belongs to them."""
