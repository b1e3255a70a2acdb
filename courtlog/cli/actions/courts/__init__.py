"""What the command about several courts does. Each module loads when a command first asks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.cli.actions.courts import dealing, own_court
else:
    __getattr__ = loader(__name__)
