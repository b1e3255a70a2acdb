"""The page of pairs: the same ball then and now, side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.reports.pairs import chosen_pairs, pair_html, pair_models
else:
    __getattr__ = loader(__name__)
