"""The page that plays clips of two days in shuffled order, with a form to rate them on paper."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.reports.blind import blind_html
else:
    __getattr__ = loader(__name__)
