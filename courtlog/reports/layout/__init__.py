"""What pages share: lines and cells, charts, signs, words about a person."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.reports.layout import (
        cell_charts,
        charts,
        cue_strip,
        html_elements,
        html_style,
        page,
        person_lines,
        picture_words,
        said_lines,
        signs,
    )
else:
    __getattr__ = loader(__name__)
