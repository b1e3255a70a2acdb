"""Screens for filming; a file loads when it is first opened."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.courtside.screens.film import slate
else:
    __getattr__ = loader(__name__)
