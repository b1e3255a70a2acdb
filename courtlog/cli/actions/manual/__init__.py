"""What `courtlog manual` does. Each module loads when the command asks for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.cli.actions.manual import readable, topics
else:
    __getattr__ = loader(__name__)
