"""Pages of one screen each, for a tired coach or a player: sentences first, the rest on request."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.reports.one_screen import day_page, player_day_page, player_page
else:
    __getattr__ = loader(__name__)
