"""What `courtlog academy` does. Each module loads when a command first asks for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.cli.actions.academy import add, ask, season
else:
    __getattr__ = loader(__name__)
