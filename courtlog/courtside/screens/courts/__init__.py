"""The screen of the other courts. Each module loads when it is first asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.courtside.screens.courts import others_screen, trade_session
else:
    __getattr__ = loader(__name__)
