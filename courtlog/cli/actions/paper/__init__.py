"""What `courtlog paper` and its subcommands do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.cli.actions.paper import printing, typing_in
else:
    __getattr__ = loader(__name__)
