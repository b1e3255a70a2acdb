"""What is printed to be written on: court sheets, home yardsticks and forms; and cue cards."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.on_demand import loader

if TYPE_CHECKING:
    from courtlog.reports.paper import (
        court_sheets,
        cue_cards,
        form_facts,
        form_html,
        form_text,
        home_sheets,
        paper_elements,
        paper_html,
        paper_style,
        paper_text,
        paper_words,
    )
else:
    __getattr__ = loader(__name__)
