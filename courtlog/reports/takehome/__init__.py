"""The sheet that a player takes home: its facts, and the same as text and as HTML."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.reports.takehome import (
        takehome_back_html,
        takehome_facts,
        takehome_front,
        takehome_html,
        takehome_message,
        takehome_sheet,
        takehome_style,
        takehome_svg,
        takehome_text,
        takehome_words,
    )
else:
    __getattr__ = loader(__name__)
