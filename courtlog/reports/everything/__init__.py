"""One page of everything that the book holds on one player, for whoever asks what is kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.reports.everything import everything_facts, everything_html, everything_text
else:
    __getattr__ = loader(__name__)
