"""Screens for sheets of paper; a file loads when it is first opened."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.courtside.screens.paper import typing_screen, typing_session
else:
    __getattr__ = loader(__name__)
