"""Videos that a page plays together: their HTML, style and script, for every page of clips."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.reports.stage import (
        hit_commands,
        stage_html,
        stage_keys,
        stage_page,
        stage_style,
    )
else:
    __getattr__ = loader(__name__)
